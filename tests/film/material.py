"""What the tests of the film are made of: recordings whose every frame says which it is, and hand-made cue sheets."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from pathlib import Path

import av
import numpy as np

from studio.film.api import Film, make_film
from studio.film.settings import FilmSettings
from studio.script.model import Lesson
from studio.script.reader import read
from studio.stage.staging import stage
from studio.store import Store
from studio.timing.assemble import assemble
from studio.timing.cuesheet import CueSheet
from studio.timing.pace import pace_track

RATE = 48_000
BITS = 12
SMALL = FilmSettings(width=640, height=360, workers=2)

HEADER = """---
title: Frogs on the lily pads
number: 3
series: Pond numbers
grade: 1
---
"""
COUNTING = (
    HEADER
    + """
# Warm-up
[show ten frame: 4 dots as pads]Four frogs. [pads: add 3 crosses, counting] Five, six, seven.
[wait 3 s: How many more?]
Three.
# A number bond
[clear][show number bond: 7 is 4 and ? as bond]Seven is four and some. [bond: fill in] Three.
"""
)


def lesson_of(text: str = COUNTING) -> Lesson:
    return read(text, "pond.lesson.md")


def paced(lesson: Lesson) -> CueSheet:
    """The cue sheet of a lesson without a recording."""
    return assemble(lesson, stage(lesson), pace_track(lesson))


def recorded(lesson: Lesson) -> CueSheet:
    """The same as if it had been recorded at that very pace."""
    from dataclasses import replace

    return assemble(lesson, stage(lesson), replace(pace_track(lesson), recorded=True))


def film_of(
    folder: Path,
    text: str = COUNTING,
    recordings: Sequence[Path] = (),
    settings: FilmSettings = SMALL,
    store: Store | None = None,
    sheet: CueSheet | None = None,
    name: str = "lesson.mp4",
    captions: str | None = None,
) -> Film:
    lesson = lesson_of(text)
    return make_film(
        lesson,
        sheet or (recorded(lesson) if recordings else paced(lesson)),
        folder / name,
        recordings=recordings,
        settings=settings,
        store=store or Store(folder / "store"),
        captions_srt=captions,
    )


def record(
    path: Path,
    seconds: float = 12.0,
    fps: int = 30,
    size: tuple[int, int] = (640, 360),
    times: Callable[[int], Fraction] | None = None,
    level: float = 0.2,
    first: int = 0,
    picture: bool = True,
    gop: int = 30,
) -> Path:
    """A recording in which frame n carries n in binary (bright and dark blocks in two rows), and a short tone sounds
    at each whole second over faint noise. `times` gives the time stamps of frames (for variable frame rates)."""
    with av.open(str(path), "w") as container:
        video = None
        if picture:
            video = container.add_stream("libx264", rate=fps)
            video.width, video.height, video.pix_fmt = size[0], size[1], "yuv420p"
            video.options = {"preset": "ultrafast", "crf": "18", "g": str(gop)}
            video.codec_context.time_base = Fraction(1, 9000)
            video.time_base = Fraction(1, 9000)
        codec = "pcm_s16le" if path.suffix == ".wav" else "aac"
        audio = container.add_stream(codec, rate=RATE, layout="mono")
        if video is not None:
            for number in range(round(seconds * fps)):
                frame = picture_of(number + first, size)
                time = times(number) if times else Fraction(number, fps)
                frame.pts, frame.time_base = round(time * 9000), Fraction(1, 9000)
                container.mux(video.encode(frame))
            container.mux(video.encode(None))
        sound = speech_like(seconds, level)
        for start in range(0, len(sound), RATE):
            block = np.ascontiguousarray((sound[start : start + RATE] * 32767).astype(np.int16)[None, :])
            if codec == "aac":
                block = (block / 32768).astype(np.float32)
            frame = av.AudioFrame.from_ndarray(block, format="s16" if codec != "aac" else "fltp", layout="mono")
            frame.sample_rate, frame.pts, frame.time_base = RATE, start, Fraction(1, RATE)
            container.mux(audio.encode(frame))
        container.mux(audio.encode(None))
    return path


def speech_like(seconds: float, level: float = 0.2, seed: int = 1) -> np.ndarray:
    """Faint noise, and from each whole second on 0.3 s of a voice-like buzz."""
    rng = np.random.default_rng(seed)
    count = round(seconds * RATE)
    sound = rng.normal(0, 0.0008, count)
    time = np.arange(round(0.3 * RATE)) / RATE
    buzz = sum(np.sin(2 * np.pi * 180 * k * time) / k for k in range(1, 8)) * np.minimum(1, (0.3 - time) * 20)
    for second in range(int(seconds)):
        at = second * RATE
        part = buzz[: count - at]
        sound[at : at + len(part)] += level * part / 2
    return np.clip(sound, -1, 1)


def picture_of(number: int, size: tuple[int, int]) -> av.VideoFrame:
    """A frame that carries a number."""
    return av.VideoFrame.from_ndarray(_numbered(number, size), format="rgb24")


def _numbered(number: int, size: tuple[int, int]) -> np.ndarray:
    w, h = size
    picture = np.full((h, w, 3), 128, np.uint8)
    block = w // 6
    for bit in range(BITS):
        row, column = divmod(bit, 6)
        value = 220 if number >> bit & 1 else 35
        top = h // 2 - h // 4 + row * h // 4
        picture[top : top + h // 4, column * block : (column + 1) * block] = value
    return picture


def number_of(picture: np.ndarray) -> int:
    """The number that a frame carries; `picture` is RGB and shows the recording's whole frame."""
    h, w = picture.shape[:2]
    block = w / 6
    number = 0
    for bit in range(BITS):
        row, column = divmod(bit, 6)
        y = int(h / 4 + row * h / 4 + h / 8)
        x = int((column + 0.5) * block)
        number |= int(picture[y - 2 : y + 3, x - 2 : x + 3].mean() > 128) << bit
    return number


def frames_of(path: Path) -> list[np.ndarray]:
    with av.open(str(path)) as container:
        return [frame.to_ndarray(format="rgb24") for frame in container.decode(video=0)]


def sound_of(path: Path) -> np.ndarray:
    """The film's sound as floats, channels × samples."""
    with av.open(str(path)) as container:
        blocks = [frame.to_ndarray() for frame in container.decode(audio=0)]
    return np.concatenate(blocks, axis=1)
