"""The film: its speed against an encoder that does nothing else, against MoviePy, and after one change; and its memory.

    python benchmarks/film.py                          # all pairs, short
    python benchmarks/film.py --only encoder off       # some of them
    python benchmarks/film.py --minutes 20             # the lesson in which one line is changed
    python benchmarks/film.py --only memory --minutes 60
    python benchmarks/film.py --only kit --minutes 60  # the whole build, with listening and everything else
    python benchmarks/film.py --only exact --minutes 60

Both sides of a pair work on the same material in the same run, in turn, at 1920 × 1080 and 30 frames a second with the
same settings of the encoder; with `--rounds` each ratio is the median of that many. The recording is the demo's, made
as large and given the noise of a camera. Each film is made with an empty store.
More than 1 is faster than the other; of a changed line it is the share of the first time.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path
from typing import Any

import imageio_ffmpeg

from studio.film.api import Film, make_film
from studio.film.settings import FilmSettings
from studio.script.model import Lesson
from studio.script.reader import read
from studio.stage.staging import stage
from studio.store import Store
from studio.timing.assemble import assemble
from studio.timing.cuesheet import CueSheet
from studio.timing.pace import pace_track

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "assets_demo"
FFMPEG = imageio_ffmpeg.get_ffmpeg_exe()
SETTINGS = FilmSettings()
GROUP = 5 * SETTINGS.fps  # the longest group of a live span
LARGE = "scale=1920:1080,fps=30"
PAIRS = ("encoder", "moviepy", "off", "change", "memory", "kit", "exact")
CHANGED = ("[show tally: 14]", "[show double ten frame: 14 dots as tally]")

HEADER = '---\ntitle: Frogs and ducks at the pond\nnumber: 9\ngrade: "1"\nseries: Pond Numbers\n---\n'
EXCERPT = """# Warm-up
[camera {camera}]
[show ten frame: 4 dots as pads]Four frogs sit on the lily pads. [pads: add 3 crosses, counting] Five, six, seven.
Four and three make seven. Seven frogs sit on the lily pads now.
[clear]
"""
SHORT = """# Warm-up
[camera {camera}]
[show ten frame: 4 dots as pads]Four frogs. [pads: add 3 crosses, counting] Five, six, seven.
[clear]
"""


# --- material ---------------------------------------------------------------------------------------------------------


def demo_lesson(seconds: float, change: tuple[str, str] = ("", "")) -> str:
    """The demo's body again and again; `change` is made once, in the middle."""
    _, header, body = (DEMO / "pond-09.lesson.md").read_text(encoding="utf-8").split("---\n", 2)
    one = assembled(read(f"---\n{header}---\n{body}", "one.lesson.md"))[0].duration
    bodies = [body.replace("[camera off]", "[camera beside]")] * max(1, round(seconds / one))
    middle = len(bodies) // 2
    if change[0]:
        assert change[0] in bodies[middle]
        bodies[middle] = bodies[middle].replace(*change, 1).replace("[tally: count by 5]\n", "")
    return f"---\n{header}---\n" + "\n[clear]\n".join(bodies)


def excerpt(seconds: float, camera: str) -> str:
    part = (EXCERPT if seconds > 12 else SHORT).format(camera=camera)
    one = assembled(read(HEADER + part, "one.lesson.md"))[0].duration
    return HEADER + part * max(1, round(seconds / one))


def assembled(lesson: Lesson) -> tuple[CueSheet, Any]:
    """The cue sheet as if the lesson had been recorded at an even pace."""
    track = replace(pace_track(lesson), recorded=True)
    return assemble(lesson, stage(lesson), track), track


def recording(path: Path, seconds: float) -> Path:
    """Some seconds of the demo's recording, 1080p30 with a camera's noise, over and over."""
    base = path.with_name("base.mp4")
    if not base.exists():
        run(["-ss", "10", "-i", str(DEMO / "pond-09.take.mp4"), "-t", "6", "-vf",
             f"{LARGE},noise=alls=6:allf=t", "-c:v", "libx264", "-preset", "veryfast", "-crf", "20",
             "-g", "60", "-c:a", "aac", "-ar", "48000", str(base)])  # fmt: skip
    run(["-stream_loop", "-1", "-i", str(base), "-t", f"{seconds:.2f}", "-c", "copy", str(path)])
    return path


def run(arguments: list[str]) -> None:
    subprocess.run([FFMPEG, "-v", "error", "-y", *arguments], check=True)


def film(folder: Path, text: str, take: Path | None, store: Store | None = None) -> Film:
    lesson = read(text, "pond.lesson.md")
    shutil.rmtree(folder / "store", ignore_errors=True)
    return make_film(lesson, assembled(lesson)[0], folder / "film.mp4", recordings=[take] if take else [],
                     settings=SETTINGS, store=store or Store(folder / "store"))  # fmt: skip


def ratio(rounds: int, ours: Callable[[], Any], other: Callable[[], Any]) -> tuple[float, float, float]:
    """Seconds of ours, of the other, and how many times as fast ours is (medians); taken in turn."""
    pairs = []
    for _ in range(rounds):
        pairs.append((timed(ours), timed(other)))
    return (
        statistics.median(one for one, _ in pairs),
        statistics.median(two for _, two in pairs),
        statistics.median(two / one for one, two in pairs),
    )


def timed(work: Callable[[], Any]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


# --- the pairs --------------------------------------------------------------------------------------------------------


def against_encoder(folder: Path, seconds: float, rounds: int) -> None:
    """Decode and encode, with as many threads as it likes, sound too, and nothing else."""
    for camera in ("full", "beside"):
        text = excerpt(seconds, camera)
        duration = assembled(read(text, "pond.lesson.md"))[0].duration
        take = recording(folder / "take.mp4", duration)

        def encode(take: Path = take, duration: float = duration) -> None:
            run(["-i", str(take), "-t", f"{duration}", "-c:v", "libx264", "-preset", SETTINGS.preset, "-crf",
                 str(SETTINGS.quality), "-g", str(GROUP), "-bf", "0", "-pix_fmt", "yuv420p", "-c:a", "aac", "-b:a", "128k",
                 str(folder / "plain.mp4")])  # fmt: skip

        ours, theirs, times = ratio(rounds, lambda text=text, take=take: film(folder, text, take), encode)
        print(
            f"her picture {camera}, {duration:.0f} s: film {ours:.1f} s, ffmpeg decoding and encoding {theirs:.1f} s: "
            f"{times:.2f} times its speed",
            flush=True,
        )


def against_moviepy(folder: Path, seconds: float, rounds: int) -> None:
    """The same pictures at the same times over the same recording, put together by CompositeVideoClip."""
    from moviepy import ColorClip, CompositeVideoClip, VideoFileClip

    from studio.film import places
    from studio.film.scene import stays
    from studio.pictures.clip import clip

    text = excerpt(seconds, "beside")
    lesson = read(text, "pond.lesson.md")
    sheet = assembled(lesson)[0]
    take = recording(folder / "take.mp4", sheet.duration + 1)
    scenes = stays(lesson, sheet, SETTINGS, places.arranging(SETTINGS), picture=True)

    def compose() -> None:
        with VideoFileClip(str(take)) as her:
            her = her.subclipped(0, sheet.duration)
            x, y, w, h = places.panel(SETTINGS)
            wide = her.cropped(x_center=960, width=round(1080 * w / h)).resized((w, h))
            layers = [
                ColorClip((1920, 1080), color=(250, 244, 232), duration=sheet.duration),
                wide.with_position((x, y)),
            ]
            for stay in scenes:
                for placed in stay.scene.placed:
                    length = (stay.end - stay.first) / SETTINGS.fps
                    layers.append(
                        clip(placed.picture, length, width=placed.box[2])
                        .with_position(placed.box[:2])
                        .with_start(stay.first / SETTINGS.fps)
                    )
            whole = CompositeVideoClip(layers).with_duration(sheet.duration).with_audio(her.audio)
            whole.write_videofile(
                str(folder / "moviepy.mp4"), fps=SETTINGS.fps, codec="libx264", preset=SETTINGS.preset, audio_codec="aac",
                threads=os.cpu_count(), logger=None, pixel_format="yuv420p", temp_audiofile_path=str(folder),
                ffmpeg_params=["-crf", str(SETTINGS.quality), "-g", str(GROUP), "-bf", "0"],
            )  # fmt: skip

    ours, theirs, times = ratio(rounds, lambda: film(folder, text, take), compose)
    print(
        f"against MoviePy's CompositeVideoClip, {sheet.duration:.1f} s: film {ours:.1f} s, MoviePy {theirs:.1f} s: "
        f"{times:.1f} times its speed",
        flush=True,
    )


def against_every_frame(folder: Path, rounds: int) -> None:
    """The demo lesson with her picture off. The other side paints each picture once as well, and encodes every frame,
    on all cores."""
    from studio.film import places
    from studio.film.art import Artist
    from studio.film.encode import encode_all
    from studio.film.plan import Span, make_plan
    from studio.film.scene import stays
    from studio.film.spans import make_all
    from studio.pictures.themes import load_theme

    text = demo_lesson(1)  # once: a lesson that repeats itself would be made but once
    lesson = read(text, "pond.lesson.md")
    sheet = assembled(lesson)[0]
    scenes = stays(lesson, sheet, SETTINGS, places.arranging(SETTINGS), picture=False)
    spans = make_plan(scenes, sheet, SETTINGS, None)

    def encode(span: Span) -> int:
        artist = Artist(load_theme(), SETTINGS)

        def frames() -> Any:
            for each in span.runs:
                if each.before is None:
                    frame = artist.frame(each.scene, None)
                    yield from (frame for _ in range(each.count))
                else:
                    for index in range(each.count):
                        part = (each.step + index + 1) / (each.steps + 1)
                        yield artist.frame(each.scene, None, each.before, part * part)

        return sum(1 for _ in encode_all(frames(), SETTINGS))

    def every() -> None:
        with ThreadPoolExecutor(os.cpu_count()) as pool:
            assert sum(pool.map(encode, spans)) == scenes[-1].end

    def pictures() -> None:
        shutil.rmtree(folder / "store", ignore_errors=True)
        make_all(spans, Store(folder / "store"), load_theme(), SETTINGS, None, lambda done, what: None)

    ours, theirs, times = ratio(rounds, pictures, every)
    whole = timed(lambda: film(folder, text, None))
    print(
        f"her picture off, {sheet.duration:.0f} s: pictures {ours:.2f} s, encoding every frame {theirs:.1f} s: "
        f"{times:.1f} times the speed; with sound and joining {whole:.2f} s: {theirs / whole:.1f} times",
        flush=True,
    )


def after_a_change(folder: Path, seconds: float) -> None:
    """One picture of one line is another: what was said stays, so the recording and its times do."""
    text, changed = demo_lesson(seconds), demo_lesson(seconds, CHANGED)
    lesson, other = read(text, "pond.lesson.md"), read(changed, "pond.lesson.md")
    sheet, track = assembled(lesson)
    take = recording(folder / "take.mp4", sheet.duration + 1)
    store = Store(folder / "kept")
    films: list[Film] = []

    def make(which: Lesson, cues: CueSheet) -> None:
        films.append(make_film(which, cues, folder / "film.mp4", recordings=[take], settings=SETTINGS, store=store))

    first = timed(lambda: make(lesson, sheet))
    second = timed(lambda: make(other, assemble(other, stage(other), track)))
    again = timed(lambda: make(other, assemble(other, stage(other), track)))
    print(
        f"one line changed in {sheet.duration / 60:.1f} minutes with her picture: first {first:.1f} s "
        f"({films[0].encoded} spans), changed {second:.1f} s ({films[1].encoded} spans made, {films[1].reused} kept): "
        f"{100 * second / first:.1f} % of the first; unchanged {again:.1f} s",
        flush=True,
    )


def memory(folder: Path, seconds: float) -> None:
    """The highest resident size of a process that makes the film of a lesson with her picture."""
    script = folder / "long.lesson.md"
    script.write_text(demo_lesson(seconds), encoding="utf-8")
    duration = assembled(read(script.read_text(encoding="utf-8"), "long.lesson.md"))[0].duration
    take = recording(folder / "take.mp4", duration + 1)
    peak, taken = peak_of([sys.executable, __file__, "--make", str(folder), str(script), str(take)])
    print(
        f"memory, film of {duration / 60:.1f} minutes with her picture: {peak:.0f} MB at the most ({taken:.0f} s)",
        flush=True,
    )


def whole_kit(folder: Path, seconds: float) -> None:
    """From recording to kit, with listening: the demo as often as it takes, its recording made as large as the film. Most
    memory at one time, while listening and after it, and the time."""
    script, take = folder / "long.lesson.md", folder / "long.take.mp4"
    times = max(1, round(seconds / 138))
    _, header, body = (DEMO / "pond-09.lesson.md").read_text(encoding="utf-8").split("---\n", 2)
    script.write_text(f"---\n{header}---\n" + "\n[clear]\n".join([body] * times), encoding="utf-8")
    large = folder / "large.mp4"
    run(["-i", str(DEMO / "pond-09.take.mp4"), "-vf", f"{LARGE},noise=alls=6:allf=t", "-c:v", "libx264", "-preset",
         "ultrafast", "-crf", "24", "-g", "60", "-c:a", "copy", str(large)])  # fmt: skip
    run(["-stream_loop", str(times - 1), "-i", str(large), "-c", "copy", str(take)])
    command = [sys.executable, "-m", "studio", "build", str(script), "--recording", str(take), "--out",
               str(folder / "kit")]  # fmt: skip
    peaks, taken = peaks_of(command, STUDIO_CACHE=str(folder / "kit-store"))
    print(
        f"memory, whole build of {times} times the demo ({times * 2.3:.0f} minutes) at 1080p: {peaks[True]:.0f} MB at the "
        f"most while listening, {peaks[False]:.0f} MB after it, all processes together ({taken:.0f} s)",
        flush=True,
    )


def exact(folder: Path, seconds: float) -> None:
    """A recording that flashes and beeps each second: how far flash and beep are apart in the film, to its end."""
    sys.path.insert(0, str(ROOT))
    from tests.film.flashes import apart, flashing

    text = demo_lesson(seconds).replace("[camera beside]", "[camera full]")
    text = re.sub(r"\[(?!camera|wait|note)[^\]]*\]", "", text).replace("# ", "[camera full]\n# ", 1)
    lesson = read(text, "pond.lesson.md")
    sheet = assembled(lesson)[0]
    take = flashing(folder / "flashes.mp4", sheet.duration)
    made = make_film(lesson, sheet, folder / "film.mp4", recordings=[take], store=Store(folder / "exact"),
                     settings=FilmSettings(width=320, height=180))  # fmt: skip
    found = apart(made.path, sheet)
    print(
        f"exactness, {made.duration / 60:.1f} minutes, {len(found.times)} flashes and beeps: at most "
        f"{1000 * found.most():.1f} ms apart, in the last minute {1000 * found.most(60):.1f} ms (a frame is 33.3 ms); "
        f"flashes at most {1000 * max(map(abs, found.flash)):.1f} ms from their time",
        flush=True,
    )


def peak_of(command: list[str]) -> tuple[float, float]:
    """The most memory (MB) that a command and all processes it starts have at one time, and seconds."""
    peaks, taken = peaks_of(command)
    return max(peaks.values()), taken


def peaks_of(command: list[str], **more: str) -> tuple[dict[bool, float], float]:
    """The most memory (MB) at one time while the command listens (True) and else (False), and seconds. Memory that
    several processes share is counted once (Linux: proportional set size); elsewhere it is that of the largest."""
    start = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, env={**os.environ, **more})
    peaks = {True: 0.0, False: 0.0}
    while process.poll() is None:
        family = _family(process.pid)
        listening = any(b"studio.apart" in _command(number) for number in family)
        peaks[listening] = max(peaks[listening], sum(_share(number) for number in family))
        time.sleep(0.2)
    if process.returncode not in (0, 1):
        raise SystemExit(f"{' '.join(command)} ended with {process.returncode}")
    if not any(peaks.values()):
        import resource

        unit = 1 if sys.platform == "darwin" else 1024
        peaks[False] = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss * unit / 1e6
    return peaks, time.perf_counter() - start


def _command(number: int) -> bytes:
    try:
        return Path(f"/proc/{number}/cmdline").read_bytes()
    except OSError:
        return b""


def _family(first: int) -> list[int]:
    """A process and all that came from it."""
    children: dict[int, list[int]] = {}
    for status in Path("/proc").glob("[0-9]*/stat"):
        try:
            parent = int(status.read_text().rsplit(")", 1)[1].split()[1])
        except (OSError, IndexError):
            continue
        children.setdefault(parent, []).append(int(status.parent.name))
    found = [first]
    for number in found:
        found += children.get(number, [])
    return found


def _share(number: int) -> float:
    try:
        lines = Path(f"/proc/{number}/smaps_rollup").read_text().splitlines()
    except OSError:
        return 0.0
    return sum(int(line.split()[1]) * 1024 / 1e6 for line in lines if line.startswith("Pss:"))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--only", nargs="+", choices=PAIRS, default=list(PAIRS), help="which figures (all)")
    parser.add_argument("--seconds", type=float, default=30, help="length of the films compared (30)")
    parser.add_argument("--excerpt", type=float, default=8, help="length of the excerpt for MoviePy (8)")
    parser.add_argument("--minutes", type=float, default=3, help="length of the lesson changed and measured (3)")
    parser.add_argument("--rounds", type=int, default=1, help="how often each pair is taken (1)")
    parser.add_argument("--make", nargs=3, metavar=("FOLDER", "LESSON", "TAKE"), help=argparse.SUPPRESS)
    options = parser.parse_args()
    if options.make:
        folder, script, take = map(Path, options.make)
        film(folder, script.read_text(encoding="utf-8"), take)
        return
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        if "encoder" in options.only:
            against_encoder(folder, options.seconds, options.rounds)
        if "moviepy" in options.only:
            against_moviepy(folder, options.excerpt, options.rounds)
        if "off" in options.only:
            against_every_frame(folder, options.rounds)
        if "change" in options.only:
            after_a_change(folder, 60 * options.minutes)
        if "memory" in options.only:
            memory(folder, 60 * options.minutes)
        if "kit" in options.only:
            whole_kit(folder, 60 * options.minutes)
        if "exact" in options.only:
            exact(folder, 60 * options.minutes)


if __name__ == "__main__":
    main()
