"""How well the studio listens: found digits and onsets, slips, words and segments, time and memory.

    python benchmarks/listening.py digits --data ../shared/data/digits [--variants]
    python benchmarks/listening.py slips [--right 1000 --slips 200]
    python benchmarks/listening.py prompts
    python benchmarks/listening.py words [--minutes 20]
    python benchmarks/listening.py times [--demo]
    python benchmarks/listening.py time [--minutes 5]
    python benchmarks/listening.py memory [--minutes 60]

Speech is made with flite's voices slt and rms (Debian package flite); `prompts` are a human voice. `--model` takes a model's name or folder.
"""

from __future__ import annotations

import argparse
import json
import random
import resource
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from benchmarks.speech import PROMPTS, RATE, VOICES, read_wav, say, write_wav
from studio.listen.api import Ears, listen
from studio.listen.models import find_model
from studio.listen.tokens import NUMBER_WORD
from studio.script.model import Header, Lesson, Place, Segment, Word

NAMES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
    "eighteen nineteen twenty"
).split()
THINGS = ("frogs", "ducks", "otters", "lily pads", "dots", "crosses", "reeds")


def sentence(chance: random.Random) -> list[str | int]:
    """A sentence of lesson talk; numbers are ints."""
    c = chance
    a, b = c.randint(0, 10), c.randint(1, 10)
    n = c.randint(2, 18)
    thing, other = c.choice(THINGS), c.choice(THINGS[:3])
    forms: tuple[list[str | int], ...] = (
        [a, "and", b, "make", a + b, "."],
        ["There are", n, thing, "on the pond."],
        ["Here are", n, thing, "in the ten frame."],
        [a, "plus", b, "equals", a + b, "."],
        ["One ten and", b, "ones make", 10 + b, "."],
        ["How many more does", a, "need to get to", a + b, "?"],
        ["Count on with me.", n, ",", n + 1, ",", n + 2, "."],
        [n + 2, ",", n + 1, ",", n, "."],
        ["The whole is", a + b, "and one part is", a, "."],
        [n, thing, "sit on a log, and", b, "hop away."],
        ["We started with", n, "and now there are", n + 2, other, "."],
        [n + 1, "is one more than", n, "."],
        ["Show me", n, "on your fingers and say it with me."],
        ["The number of the day is", n, "."],
        [a + b, "take away", b, "leaves", a, "."],
        ["Draw", b, "crosses next to the", a, "dots."],
    )
    return c.choice(forms)


def words_of(parts: list[str | int]) -> str:
    text = ""
    for part in parts:
        piece = NAMES[part] if isinstance(part, int) else part
        text += piece if piece in ".,?" else (" " if text else "") + piece
    return text[:1].upper() + text[1:]


def slip(parts: list[str | int], chance: random.Random) -> tuple[list[str | int], int]:
    """The sentence with one number changed to a near one, and which part was changed."""
    at = chance.choice([i for i, part in enumerate(parts) if isinstance(part, int)])
    was = parts[at]
    assert isinstance(was, int)
    choices = {was - 1, was + 1, was + 2, was - 2, was + 10 if was < 10 else was - 10} - {was}
    now = chance.choice(sorted(value for value in choices if 0 <= value <= 20))
    return [*parts[:at], now, *parts[at + 1 :]], at


def lesson_of(segments: list[tuple[str, list[str]]]) -> Lesson:
    """A lesson of segments with sentences, one a line."""
    built: list[Segment] = []
    index = number = line = 0
    for title, sentences in segments:
        line += 1
        head = line
        words = []
        for text in sentences:
            line += 1
            for word in text.split():
                words.append(Word(index, word, word.lower().strip(".,?!"), Place(line, 1), number, number, len(built)))
                index += 1
            number += 1
        built.append(Segment(len(built), title, Place(head, 1), tuple(words), ()))
    return Lesson(Header("Benchmark"), tuple(built))


def spoken_take(
    sentences: list[str], voice: str, chance: random.Random, noise: float
) -> tuple[np.ndarray, list[float]]:
    """The sentences spoken one after the other with pauses and room noise, and when each begins to be spoken."""
    parts, starts, at = [], [], 0.0
    for text in sentences:
        spoken = say(text, voice, round(chance.uniform(0.95, 1.25), 2))
        pause = np.zeros(round(chance.uniform(0.25, 1.2) * RATE), np.int16)
        starts.append(at + spoken.onsets[0])
        parts += [spoken.samples, pause]
        at += (len(spoken.samples) + len(pause)) / RATE
    samples = np.concatenate(parts).astype(np.float64)
    samples += np.random.default_rng(chance.randint(0, 9999)).normal(0, noise, len(samples))
    return np.clip(samples, -32768, 32767).astype(np.int16), starts


def prompts(options: argparse.Namespace) -> None:
    """Counts in a human voice, put together from the number prompts of Debian's asterisk-core-sounds-en-wav."""
    chance = random.Random(options.seed)
    values = [*range(21), 30, 40, 50, 60, 70, 80, 90]
    spoken = {}
    for value in values:
        samples = read_wav(PROMPTS / f"{value}.wav")
        loud = np.flatnonzero(np.abs(samples.astype(int)) > 0.02 * np.abs(samples.astype(int)).max())
        spoken[value] = samples[loud[0] : loud[-1]]
    counts = {"right": 0, "right different": 0, "right unsure": 0, "slips": 0, "slips found": 0, "slips unsure": 0}
    errors: list[float] = []
    with tempfile.TemporaryDirectory() as folder, Ears(options.model) as ears:
        for _ in range(options.takes):
            written, said, truth, parts = [], [], [], [np.zeros(RATE // 2, np.int16)]
            at = 0.5
            for _ in range(8):
                row = [chance.choice(values) for _ in range(6)]
                wrong = chance.randrange(6) if chance.random() < 0.7 else -1
                written.append(", ".join(NUMBER_WORD[value] for value in row).capitalize() + ".")
                for place, value in enumerate(row):
                    real = chance.choice([v for v in values if v != value]) if place == wrong else value
                    said.append((NUMBER_WORD[value], NUMBER_WORD[real]))
                    pause = np.zeros(round(chance.uniform(0.25, 0.8) * RATE), np.int16)
                    truth.append(at)
                    parts += [spoken[real], pause]
                    at += (len(spoken[real]) + len(pause)) / RATE
            room = np.random.default_rng(chance.randint(0, 9999)).normal(0, 8, sum(map(len, parts)))
            mixed = np.concatenate(parts).astype(np.float64) + room
            path = Path(folder) / "take.wav"
            write_wav(path, np.clip(mixed, -32768, 32767).astype(np.int16))
            take = listen(path, lesson_of([("All", written)]), model=ears, cache=False).take
            assert take is not None
            mine = [word for word in take.said if word.word is not None]
            for word, (wanted, real), onset in zip(mine, said, truth, strict=True):
                kind = "right" if wanted == real else "slips"
                counts[kind] += 1
                counts[f"{kind} unsure"] += word.verdict == "unsure"
                heard = word.heard.lower().strip(".,?! ")
                if kind == "right":
                    counts["right different"] += word.verdict in ("different", "skipped")
                    good = word.verdict == "as-written"
                else:
                    good = word.verdict == "different" and heard == real
                    counts["slips found"] += good
                if not good:
                    print(f"  {kind} {word.verdict}: written {wanted}, said {real}, heard {heard!r}")
                if word.verdict != "skipped":
                    errors.append(abs(word.start - onset))
    print(counts)
    print(
        f"onset error: median {np.median(errors) * 1000:.0f} ms, 95th percentile "
        f"{np.percentile(errors, 95) * 1000:.0f} ms"
    )


VARIANTS: dict[str, tuple[str, ...]] = {
    "higher voice": ("pitch", "350"),
    "lower voice": ("pitch", "-300"),
    "child's voice": ("pitch", "600", "tempo", "0.95"),
    "faster": ("tempo", "1.25"),
    "slower": ("tempo", "0.8"),
    "telephone": ("highpass", "300", "lowpass", "3400"),
    "dull microphone": ("bass", "8", "treble", "-10"),
    "hall": ("reverb", "45"),
    "quiet": ("vol", "-30dB"),
}
"""Other speakers and rooms, made from the same recordings by sox; tempo changes are undone in the truth."""
NOISES = {"noise, 25 dB": 25.0, "noise, 15 dB": 15.0, "voices of a class, 20 dB": 20.0}
"""Noise under the loud parts, in dB."""


def digits(options: argparse.Namespace) -> None:
    print(f"as recorded: {digits_of(options, ())}")
    if options.variants:
        for name, effects in VARIANTS.items():
            print(f"{name}: {digits_of(options, effects)}", flush=True)
        for name, level in NOISES.items():
            print(f"{name}: {digits_of(options, (), level, 'class' in name)}", flush=True)


def changed(path: Path, effects: tuple[str, ...], noise: float | None, babble: bool) -> np.ndarray:
    """The recording with sox's effects, or with noise `noise` dB below its loud parts."""
    import subprocess

    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "changed.wav"
        subprocess.run(["sox", "-G", "-D", path, "-r", str(RATE), out, *effects], check=True, capture_output=True)
        samples = read_wav(out)
    if noise is None:
        return samples
    if babble:
        voices = [say(words_of(sentence(random.Random(at))), VOICES[at % 2]).samples for at in range(8)]
        under = sum(np.resize(np.roll(v, at * 3001), len(samples)).astype(float) for at, v in enumerate(voices))
    else:
        under = np.random.default_rng(1).normal(0, 1, len(samples))
    loud = np.percentile(np.abs(samples), 98)
    under = under / np.std(under) * loud / np.sqrt(2) * 10 ** (-noise / 20)
    noisy: np.ndarray = np.clip(samples + under, -32768, 32767).astype(np.int16)
    return noisy


def digits_of(
    options: argparse.Namespace, effects: tuple[str, ...], noise: float | None = None, babble: bool = False
) -> str:
    """Finds the digits of all recordings, changed by sox; how many were found and how far their onsets are off."""
    found = total = extra = 0
    errors: list[float] = []
    stretch = 1 / float(effects[effects.index("tempo") + 1]) if "tempo" in effects else 1.0
    with Ears(options.model) as ears, tempfile.TemporaryDirectory() as folder:
        for entry in json.loads((options.data / "digits.json").read_text()):
            path = Path(folder) / entry["file"]
            write_wav(path, changed(options.data / entry["file"], effects, noise, babble))
            result = listen(path, model=ears, cache=False)
            heard = [(word.text.lower().strip(".,!?"), word.start) for word in result.heard.words]
            used = 0
            extra += max(0, len(heard) - len(entry["digits"]))
            for value, true in entry["digits"]:
                total += 1
                onset = true * stretch
                near = [
                    (abs(start - onset), at)
                    for at, (text, start) in enumerate(heard)
                    if at >= used and text == NAMES[value]
                ]
                if near and min(near)[0] < 1.0:
                    error, at = min(near)
                    errors.append(error)
                    found += 1
                    used = at + 1
                elif options.missed:
                    print("  missed", entry["file"], NAMES[value], "in", " ".join(text for text, _ in heard))
    return (
        f"{found} of {total} digits found ({found / total:.1%}), {extra} words more than said, onset error median "
        f"{np.median(errors) * 1000:.0f} ms, 95th percentile {np.percentile(errors, 95) * 1000:.0f} ms"
    )


def slips(options: argparse.Namespace) -> None:
    chance = random.Random(options.seed)
    todo = [False] * options.right + [True] * options.slips
    chance.shuffle(todo)
    counts = {"right": 0, "right different": 0, "right unsure": 0, "slips": 0, "slips found": 0, "slips unsure": 0}
    began = time.perf_counter()
    length = 0.0
    with tempfile.TemporaryDirectory() as folder, Ears(options.model) as ears:
        for at in range(0, len(todo), options.group):
            written, said, changed = [], [], []
            for wrong in todo[at : at + options.group]:
                parts = sentence(chance)
                written.append(words_of(parts))
                if wrong:
                    spoken, where = slip(parts, chance)
                    said.append(words_of(spoken))
                    changed.append(len(words_of(parts[:where]).split()) if where else 0)
                else:
                    said.append(words_of(parts))
                    changed.append(-1)
            voice = VOICES[(at // options.group) % 2]
            samples, _ = spoken_take(said, voice, chance, options.noise)
            length += len(samples) / RATE
            path = Path(folder) / "take.wav"
            write_wav(path, samples)
            lesson = lesson_of([("All", written)])
            print(f"{at} of {len(todo)} sentences: {counts}", file=sys.stderr)
            take = listen(path, lesson, model=ears, cache=False).take
            assert take is not None
            by_word = {word.word: word for word in take.said if word.word is not None}
            for number, (text, spoken_text) in enumerate(zip(written, said, strict=True)):
                mine = [word for word in lesson.words if word.sentence == number]
                for position, word in enumerate(mine):
                    if word.plain not in NAMES:
                        continue
                    verdict = by_word[word.index].verdict
                    heard = by_word[word.index].heard.lower().strip(".,?! ")
                    if position == changed[number]:
                        truth = spoken_text.split()[position].lower().strip(".,?!")
                        ok = verdict == "different" and heard == truth
                        counts["slips"] += 1
                        counts["slips found"] += ok
                        counts["slips unsure"] += verdict == "unsure"
                        if not ok:
                            print(f"  slip {verdict}: {text} | {spoken_text} | heard {heard!r} ({voice})")
                    else:
                        counts["right"] += 1
                        counts["right different"] += verdict in ("different", "skipped")
                        counts["right unsure"] += verdict == "unsure"
                        if verdict != "as-written":
                            print(f"  right {verdict}: {word.text} in {spoken_text} | heard {heard!r} ({voice})")
    print(counts)
    print(f"slips found with the number said: {counts['slips found'] / counts['slips']:.2%} of {counts['slips']}")
    print(
        f"right numbers called different: {counts['right different'] / counts['right']:.2%} of {counts['right']} "
        f"({options.right} sentences as written, and the other numbers of those with a slip)"
    )
    print(f"right numbers unsure: {counts['right unsure'] / counts['right']:.2%}")
    print(f"{length / 60:.1f} minutes of sound in {time.perf_counter() - began:.0f} s")


def long_take(minutes: float, seed: int) -> tuple[np.ndarray, Lesson, list[float]]:
    """A long recording with its lesson and the true starts of its segments."""
    chance = random.Random(seed)
    segments: list[tuple[str, list[str]]] = []
    parts: list[np.ndarray] = []
    begins: list[float] = []
    at = 0.0
    while at < minutes * 60:
        sentences = [words_of(sentence(chance)) for _ in range(24)]
        samples, starts = spoken_take(sentences, VOICES[len(segments) % 2], chance, 10)
        begins.append(at + starts[0])
        segments.append((f"Part {len(segments) + 1}", sentences))
        pause = np.zeros(round(1.5 * RATE), np.int16)
        parts += [samples, pause]
        at += (len(samples) + len(pause)) / RATE
    return np.concatenate(parts), lesson_of(segments), begins


def words(options: argparse.Namespace) -> None:
    samples, lesson, begins = long_take(options.minutes, options.seed)
    with tempfile.TemporaryDirectory() as folder, Ears(options.model) as ears:
        path = Path(folder) / "long.wav"
        write_wav(path, samples)
        began = time.perf_counter()
        result = listen(path, lesson, model=ears, cache=False)
        took = time.perf_counter() - began
    assert result.take is not None
    mine = [word for word in result.take.said if word.word is not None]
    found = sum(word.verdict in ("as-written", "unsure") for word in mine)
    for word in mine:
        if word.verdict not in ("as-written", "unsure"):
            print(f"  {word.verdict}: {lesson.words[word.word or 0].text!r} heard {word.heard!r} at {word.start:.1f}")
    print(f"words of the script found: {found} of {len(mine)} ({found / len(mine):.2%})")
    starts = [chapter.start for chapter in result.chapters]
    off = [abs(a - b) for a, b in zip(starts[1:], begins[1:], strict=True)]
    print(f"segment starts off by at most {max(off):.3f} s (median {np.median(off):.3f} s), {len(off)} segments")
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(
        f"{len(samples) / RATE / 60:.1f} minutes heard in {took:.1f} s ({len(samples) / RATE / took:.1f} x real time), "
        f"peak memory {peak:.0f} MB"
    )


def times(options: argparse.Namespace) -> None:
    """Where sentences start and end, against flite's own phone times, and of the demo against its maker's."""
    chance = random.Random(options.seed)
    with tempfile.TemporaryDirectory() as folder, Ears(options.model) as ears:
        for voice in options.voices:
            sentences = [words_of(sentence(chance)) for _ in range(options.sentences)]
            spoken = [say(text, voice, round(chance.uniform(0.95, 1.4), 2)) for text in sentences]
            parts, truth, at = [], [], 0.0
            for said in spoken:
                pause = round(chance.uniform(0.15, 1.5) * RATE)
                truth.append((at + said.onsets[0], at + said.ends[-1]))
                parts += [said.samples, np.zeros(pause, np.int16)]
                at += (len(said.samples) + pause) / RATE
            samples = np.concatenate(parts).astype(np.float64)
            samples += np.random.default_rng(options.seed).normal(0, options.noise, len(samples))
            path = Path(folder) / "take.wav"
            write_wav(path, np.clip(samples, -32768, 32767).astype(np.int16))
            report_times(voice, lesson_of([("All", sentences)]), truth, path, ears)
        if options.demo:
            from assets_demo.make_demo import PADDING
            from assets_demo.make_demo import sentences as demo_sentences
            from studio.script.files import load

            here = Path(__file__).resolve().parent.parent / "assets_demo"
            lesson = load(here / "pond-09.lesson.md")
            pauses = [said.pause for said in demo_sentences(lesson)]
            held = json.loads((here / "pond-09.truth.json").read_text(encoding="utf-8"))
            starts = [row["start"] for row in held["sentences"]]
            # Before the next sentence: the silence kept after this one, its pause, the silence kept before the next.
            nexts = [*starts[1:], held["duration"] - 0.9 + PADDING / 1000]
            ends = [after - (2 * PADDING + pause) / 1000 for after, pause in zip(nexts, pauses, strict=True)]
            counts = [len(row["written"].split()) for row in held["sentences"]]
            truth = list(zip(starts, ends, strict=True))
            report_times("the demo", lesson, truth, here / "pond-09.take.mp4", ears, counts)


def report_times(
    name: str, lesson: Lesson, truth: list[tuple[float, float]], path: Path, ears: Ears,
    counts: list[int] | None = None,
) -> None:  # fmt: skip
    """Prints how far the first and last words of the sentences are from their true start and end."""
    take = listen(path, lesson, model=ears, cache=False).take
    assert take is not None
    by_word = {word.word: word for word in take.said if word.word is not None}
    sizes = counts or [sum(w.sentence == at for w in lesson.words) for at in range(len(truth))]
    starts, ends, at = [], [], 0
    for (start, end), size in zip(truth, sizes, strict=True):
        first, last = by_word[at], by_word[at + size - 1]
        at += size
        if first.verdict != "skipped":
            starts.append(abs(first.start - start))
        if last.verdict != "skipped":
            ends.append(abs(last.end - end))
            if ends[-1] > 0.15:
                print(f"  {name}: {last.text!r} at {last.start:.2f} ends {last.end:.2f}, true {end:.2f}")
    for what, off in (("starts", starts), ("ends", ends)):
        print(
            f"{name}: {sum(value <= 0.15 for value in off)} of {len(truth)} sentence {what} within 0.15 s, median "
            f"{1000 * np.median(off):.0f} ms, 95th percentile {1000 * np.percentile(off, 95):.0f} ms, greatest "
            f"{1000 * max(off):.0f} ms"
        )


def speed(options: argparse.Namespace) -> None:
    """Time against bare faster-whisper with the same model on the same file in the same run, in turns."""
    from faster_whisper import WhisperModel

    samples, lesson, _ = long_take(options.minutes, options.seed)
    model = find_model(options.model)
    with tempfile.TemporaryDirectory() as folder, Ears(options.model) as ears:
        path = Path(folder) / "take.wav"
        write_wav(path, samples)
        from studio.listen.ear import cores

        bare = WhisperModel(device="cpu", compute_type="int8", cpu_threads=min(4, cores()), **model.arguments())
        times: dict[str, list[float]] = {"bare": [], "ours": []}
        for _ in range(options.turns):
            began = time.perf_counter()
            segments, _ = bare.transcribe(str(path), language="en", word_timestamps=True)
            list(segments)
            times["bare"].append(time.perf_counter() - began)
            began = time.perf_counter()
            listen(path, lesson, model=ears, cache=False)
            times["ours"].append(time.perf_counter() - began)
    ours, other = min(times["ours"]), min(times["bare"])
    print(
        f"bare faster-whisper with word times {other:.1f} s, ours with a lesson {ours:.1f} s: ratio {ours / other:.2f}"
    )


def memory(options: argparse.Namespace) -> None:
    piece, lesson, _ = long_take(min(options.minutes, 5), options.seed)
    times = max(1, round(options.minutes * 60 * RATE / len(piece)))
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "hour.wav"
        write_wav(path, np.tile(piece, times))
        del piece
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        began = time.perf_counter()
        result = listen(path, None if options.bare else lesson_times(lesson, times), model=options.model, cache=False)
        took = time.perf_counter() - began
    after = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(
        f"{result.heard.duration / 60:.1f} minutes: peak memory {after:.0f} MB ({before:.0f} MB before), {took:.0f} s"
    )


def lesson_times(lesson: Lesson, times: int) -> Lesson:
    """The lesson said `times` times over."""
    sentences: dict[int, list[str]] = {}
    for word in lesson.words:
        sentences.setdefault(word.sentence, []).append(word.text)
    return lesson_of([(f"Part {at + 1}", [" ".join(words) for words in sentences.values()]) for at in range(times)])


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--model", default=None)
    parser.add_argument("--seed", type=int, default=9)
    verbs = parser.add_subparsers(required=True)
    verb = verbs.add_parser("digits")
    verb.add_argument("--data", type=Path, default=Path("../shared/data/digits"))
    verb.add_argument("--variants", action="store_true", help="also with other voices and rooms, made by sox")
    verb.add_argument("--missed", action="store_true", help="print every digit that was missed")
    verb.set_defaults(run=digits)
    verb = verbs.add_parser("slips")
    verb.add_argument("--right", type=int, default=1000)
    verb.add_argument("--slips", type=int, default=200)
    verb.add_argument("--group", type=int, default=40)
    verb.add_argument("--noise", type=float, default=12.0, help="standard deviation of the room noise, 16-bit steps")
    verb.set_defaults(run=slips)
    verb = verbs.add_parser("prompts")
    verb.add_argument("--takes", type=int, default=5)
    verb.set_defaults(run=prompts)
    verb = verbs.add_parser("words")
    verb.add_argument("--minutes", type=float, default=20)
    verb.set_defaults(run=words)
    verb = verbs.add_parser("times")
    verb.add_argument("--sentences", type=int, default=30, help="for each voice")
    verb.add_argument("--voices", nargs="*", default=["slt", "rms", "kal16", "awb"], help="voices of flite")
    verb.add_argument("--noise", type=float, default=12.0, help="standard deviation of the room noise, 16-bit steps")
    verb.add_argument("--demo", action="store_true", help="the demo's recording as well")
    verb.set_defaults(run=times)
    verb = verbs.add_parser("time")
    verb.add_argument("--minutes", type=float, default=5)
    verb.add_argument("--turns", type=int, default=2)
    verb.set_defaults(run=speed)
    verb = verbs.add_parser("memory")
    verb.add_argument("--minutes", type=float, default=60)
    verb.add_argument("--bare", action="store_true", help="without a lesson")
    verb.set_defaults(run=memory)
    options = parser.parse_args()
    options.run(options)


if __name__ == "__main__":
    main()
