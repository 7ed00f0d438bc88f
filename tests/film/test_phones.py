"""Recordings as phones write them: turned by a display matrix, at an uneven rate, in ten bits and full range, with sound
that begins late or stops for a while. Each frame carries its number and a tone sounds at each whole second, so the film
can be read back."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
import pytest

from studio.film.footage import look_at
from studio.listen.recording import RATE as HEARD_RATE
from studio.listen.recording import load
from tests.film.material import RATE, film_of, frames_of, lesson_of, number_of, picture_of, record, recorded, sound_of
from tests.film.test_recordings import CAMERA as LONG
from tests.film.test_recordings import ffmpeg

CAMERA = LONG.rsplit("\n", 2)[0] + "\n"  # without its last line: as short as the recordings
SECONDS = 9.0
SIZE = (640, 360)


@dataclass(frozen=True)
class Phone:
    """How a phone records. `late` is when its sound begins, `hole` where its sound is missing (seconds)."""

    name: str
    codec: str = "libx264"
    pixels: str = "yuv420p"
    options: tuple[tuple[str, str], ...] = (("preset", "ultrafast"), ("crf", "18"))
    turned: int = 0
    rate: int = 44_100
    layout: str = "mono"
    late: float = 0.0
    early: float = 0.0
    hole: tuple[float, float] = (0.0, 0.0)
    colours: tuple[int, int, int, int] = (1, 1, 1, 1)  # range, primaries, transfer, matrix (ITU-T H.273)


def uneven(number: int) -> float:
    """Times of frames as phones give them: nearly 30 a second, never quite even, and once none for half a second."""
    wobble = (0.004, -0.003, 0.006, 0.0, -0.005)[number % 5] if number else 0.0
    return number / 29.97 + wobble + (0.5 if number >= 150 else 0.0)


HLG = (("preset", "ultrafast"), ("x265-params", "log-level=none:open-gop=1:bframes=3:keyint=45:min-keyint=45"))
PHONES = (
    Phone("a telephone held upright, high dynamic range.mov", "libx265", "yuv420p10le", HLG, turned=90,
          colours=(1, 9, 18, 9)),
    Phone("full range, turned.mp4", pixels="yuvj420p", turned=270, colours=(2, 5, 6, 6)),
    Phone("stereo, sound late.mp4", rate=48_000, layout="stereo", late=0.73),
    Phone("picture late.mov", early=0.6),
    Phone("a call came in.mp4", hole=(6.5, 7.6), turned=180),
)  # fmt: skip


def recorded_by(phone: Phone, folder: Path) -> Path:
    """A recording of `SECONDS`. Frame n is shown from `early + uneven(n)` on; the tones are at the whole seconds."""
    flat = folder / f"flat {phone.name}"
    with av.open(str(flat), "w") as container:
        video = container.add_stream(phone.codec, rate=30)
        video.width, video.height, video.pix_fmt = *SIZE, phone.pixels
        video.options = dict(phone.options)
        video.time_base = video.codec_context.time_base = Fraction(1, 600)
        context = video.codec_context
        context.color_range, context.color_primaries, context.color_trc, context.colorspace = phone.colours
        if phone.codec == "libx265":
            context.codec_tag = "hvc1"
        audio = container.add_stream("aac", rate=phone.rate, layout=phone.layout)
        number = 0
        while (time := uneven(number)) < SECONDS - phone.early:
            frame = picture_of(number, SIZE).reformat(format=phone.pixels, dst_color_range=phone.colours[0])
            frame.pts, frame.time_base = round((time + phone.early) * 600), Fraction(1, 600)
            container.mux(video.encode(frame))
            number += 1
        container.mux(video.encode(None))
        for first, last in ((phone.late, phone.hole[0] or SECONDS), (phone.hole[1] or SECONDS, SECONDS)):
            times = np.arange(round(first * phone.rate), round(last * phone.rate)) / phone.rate
            for start in range(0, len(times) // 1024 * 1024, 1024):
                block = tones(times[start : start + 1024]).astype(np.float32)
                sound = av.AudioFrame.from_ndarray(
                    np.stack([block] * (1 if phone.layout == "mono" else 2)), format="fltp", layout=phone.layout
                )
                sound.sample_rate, sound.time_base = phone.rate, Fraction(1, phone.rate)
                sound.pts = round(times[start] * phone.rate)
                container.mux(audio.encode(sound))
        container.mux(audio.encode(None))
    if not phone.turned:
        return flat
    take = folder / phone.name
    ffmpeg("-display_rotation", str(phone.turned), "-i", flat, "-c", "copy", take)
    return take


def tones(times: np.ndarray) -> np.ndarray:
    """A tone for 0.2 s from each whole second, and faint noise."""
    rng = np.random.default_rng(1)
    return np.where(times % 1 < 0.2, 0.3 * np.sin(2 * np.pi * 440 * times), rng.normal(0, 0.0008, len(times)))


def onsets(sound: np.ndarray, rate: int) -> np.ndarray:
    """When tones begin, in seconds: loud after a quarter of a second of quiet."""
    loud = np.flatnonzero(np.abs(sound) > 0.05)
    return loud[np.diff(loud, prepend=-rate) > rate // 4] / rate


@pytest.mark.parametrize("phone", PHONES, ids=lambda phone: phone.name)
def test_what_a_phone_recorded_is_shown_at_its_time_and_heard_with_it(phone: Phone, tmp_path: Path) -> None:
    take = recorded_by(phone, tmp_path)
    assert look_at(take).rotation == phone.turned
    sheet = recorded(lesson_of(CAMERA))
    film = film_of(tmp_path, CAMERA, [take], sheet=sheet)
    frames, sound = frames_of(film.path), sound_of(film.path)[0]
    begins = onsets(sound, RATE)
    for piece in sheet.pieces:
        if piece.source is None:
            continue
        first = round(piece.start * 30)
        for k in range(first, round((piece.start + piece.duration) * 30)):
            at = piece.source + (k - first) / 30
            if at > SECONDS - 0.5:
                break
            shown = [n for n in range(430) if phone.early + uneven(n) <= at]
            number = number_of(straight(frames[k], phone.turned))
            # A frame may be shown a few milliseconds before its time: the film's own frames are not nearer.
            assert number == (max(shown) if shown else 0) or 0 < phone.early + uneven(number) - at < 0.006, (
                f"{at:.3f} s"
            )
        for second in range(int(piece.source) + 1, int(min(SECONDS, piece.source + piece.duration))):
            wanted = piece.start + second - piece.source
            if second > phone.late and not phone.hole[0] - 0.3 < second < phone.hole[1]:
                assert np.abs(begins - wanted).min() < 0.034, f"{second} s"


def test_a_picture_four_times_as_large_as_the_film_is_made_smaller(tmp_path: Path) -> None:
    """Phones record 3840 × 2160 when they are told to; this one was held upright."""
    lying, take = tmp_path / "lying.mp4", tmp_path / "take.mp4"
    record(lying, SECONDS, fps=5, size=(3840, 2160), gop=10)
    ffmpeg("-display_rotation", "90", "-i", lying, "-c", "copy", take)
    seen = look_at(take)
    assert seen.large and seen.size == (2160, 3840)
    sheet = recorded(lesson_of(CAMERA))
    frames = frames_of(film_of(tmp_path, CAMERA, [take], sheet=sheet).path)
    for piece in sheet.pieces:
        first = round(piece.start * 30)
        for k in range(0, round(piece.duration * 30) if piece.source is not None else 0, 5):
            at = (piece.source or 0.0) + k / 30
            if at < SECONDS - 0.3 and abs(at * 5 - round(at * 5)) > 0.05:
                assert number_of(straight(frames[first + k], 90)) == int(at * 5)


@pytest.mark.parametrize("phone", PHONES[2:], ids=lambda phone: phone.name)
def test_listening_counts_time_as_the_film_does(phone: Phone, tmp_path: Path) -> None:
    """Words are placed by the sound as it is listened to, pictures by that of the film."""
    take = recorded_by(phone, tmp_path)
    heard = onsets(load(take)[1].samples / 32768, HEARD_RATE)
    wanted = [n for n in range(int(SECONDS)) if n > phone.late and not phone.hole[0] - 0.3 < n < phone.hole[1]]
    assert all(np.abs(heard - second).min() < 0.034 for second in wanted)


def straight(frame: np.ndarray, turned: int) -> np.ndarray:
    """The recording's own picture in a frame of the film."""
    if turned % 180:
        wide = SIZE[1] * SIZE[1] // SIZE[0] // 2 * 2
        frame = frame[:, (SIZE[0] - wide) // 2 : (SIZE[0] + wide) // 2]
        return np.kron(np.rot90(frame, -turned // 90), np.ones((2, 2, 1)))
    return np.rot90(frame, -turned // 90)
