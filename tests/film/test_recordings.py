"""Recordings as they come: turned, with a high dynamic range, in full range, in several takes, at any rate."""

from __future__ import annotations

import subprocess
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import av
import imageio_ffmpeg
import numpy as np
import pytest

from studio.film.clip import lesson_clip
from studio.film.colours import HLG, PQ, as_film
from studio.film.encode import planes
from studio.film.footage import TICKS, Reel, ReelReader, look_at, look_at_all
from studio.film.settings import FilmSettings
from studio.store import Store
from tests.film.material import HEADER, film_of, frames_of, lesson_of, number_of, record, recorded, sound_of

FFMPEG = imageio_ffmpeg.get_ffmpeg_exe()
CAMERA = (
    HEADER
    + """
# Warm-up
[camera full]Look at our pond now. Here are the frogs. They sit and wait for us.
And off they go again into the water. They sit and wait for us. Here are the frogs.
"""
)


def ffmpeg(*arguments: str | Path, sent: bytes | None = None) -> None:
    command = [FFMPEG, "-v", "error", "-y", *map(str, arguments)]
    subprocess.run(command, input=sent, check=True, capture_output=True)


def first_piece(frames: list[np.ndarray], film_fps: int = 30) -> tuple[int, float]:
    sheet = recorded(lesson_of(CAMERA))
    piece = next(p for p in sheet.pieces if p.source is not None)
    return round(piece.start * film_fps), piece.source or 0.0


@pytest.mark.parametrize("angle", [90, 180])
def test_a_phone_held_upright_is_shown_upright(tmp_path: Path, angle: int) -> None:
    """The camera writes lying frames and a display matrix (ISO/IEC 14496-12), which FFmpeg writes here."""
    lying = record(tmp_path / "lying.mp4", 14)
    take = tmp_path / "take.mp4"
    ffmpeg("-display_rotation", str(angle), "-i", lying, "-c", "copy", take)
    assert look_at(take).rotation == angle
    frames = frames_of(film_of(tmp_path, CAMERA, [take]).path)
    first, source = first_piece(frames)
    frame = frames[first + 30]
    upright = frame if angle == 180 else frame[:, (640 - 202) // 2 : (640 + 202) // 2]
    # What a player does to show it is undone: then the number can be read.
    back = np.rot90(upright, -angle // 90)
    if angle != 180:
        back = np.kron(back, np.ones((2, 2, 1)))
    assert number_of(back) == int((source + 1) * 30 + 0.15)


@pytest.mark.parametrize(("name", "transfer", "paper", "grey"), [("hlg", HLG, 0.75, 0.38), ("pq", PQ, 0.58, 0.38)])
def test_a_high_dynamic_range_becomes_an_ordinary_picture(
    tmp_path: Path, name: str, transfer: int, paper: float, grey: float
) -> None:
    """ITU-R BT.2408: white paper (203 cd/m²) is 75 % of an HLG and 58 % of a PQ signal, an 18 % grey card 38 % of both.
    In an ordinary picture (BT.1886) these 26 cd/m² of 203 are (26 / 203) ** (1 / 2.4) = 42 % of the signal."""
    size = (320, 180)
    signal = np.repeat([0.0, grey, paper, 1.0], size[0] // 4)
    luma = np.tile((64 + 876 * signal).round().astype("<u2"), (size[1], 1)).tobytes()
    chroma = np.full(size[0] * size[1] // 2, 512, "<u2").tobytes()
    trc = {"hlg": "arib-std-b67", "pq": "smpte2084"}[name]
    take = tmp_path / "take.mp4"
    said = f"log-level=none:colorprim=bt2020:colormatrix=bt2020nc:range=limited:transfer={trc}"
    ffmpeg(
        "-f", "rawvideo", "-pix_fmt", "yuv420p10le", "-s", f"{size[0]}x{size[1]}", "-r", "30", "-i", "-", "-c:v",
        "libx265", "-x265-params", said, "-pix_fmt", "yuv420p10le", "-tag:v", "hvc1", take, sent=(luma + chroma) * 20,
    )  # fmt: skip
    frame = ReelReader(Reel((look_at(take),)), (640, 360)).at(0)
    assert frame is not None
    assert (frame.format.name, int(frame.color_trc), int(frame.colorspace)) == ("yuv420p", 1, 1)
    seen = [int(planes(frame)[0][90, 40 + 80 * number]) for number in range(4)]
    assert abs(seen[0] - 16) <= 1
    assert abs(seen[1] - (16 + 219 * 0.425)) <= 3
    assert 215 <= seen[2] <= 235
    assert seen[2] <= seen[3] <= 235
    assert all(abs(int(np.median(plane)) - 128) <= 1 for plane in planes(frame)[1:])
    red = as_film(np.array([[0.5, 0.2, 0.2]]), transfer)[0]
    assert red[0] > 1.5 * red[1]


def test_full_range_and_the_colours_of_small_pictures_become_the_films(tmp_path: Path) -> None:
    """A webcam's full range in BT.601, upside down: a grey of 60 % and a red stay what they are when the film is shown."""
    lying, take = tmp_path / "lying.mp4", tmp_path / "take.mp4"
    ffmpeg(
        "-f", "lavfi", "-i", "color=0x999999:s=640x360:r=30:d=14,drawbox=0:0:320:360:0xC03020:fill", "-f", "lavfi",
        "-i", "anoisesrc=a=0.01:d=14", "-vf", "scale=out_range=pc:out_color_matrix=bt601,format=yuv420p", "-color_range",
        "pc", "-colorspace", "smpte170m", "-c:v", "libx264", "-c:a", "aac", lying,
    )  # fmt: skip
    ffmpeg("-display_rotation", "180", "-i", lying, "-c", "copy", take)
    frames = frames_of(film_of(tmp_path, CAMERA, [take]).path)
    first, _ = first_piece(frames)
    seen = np.rot90(frames[first + 20], 2)[180]
    assert np.abs(seen[500].astype(int) - (0x99, 0x99, 0x99)).max() <= 4
    assert np.abs(seen[150].astype(int) - (0xC0, 0x30, 0x20)).max() <= 8


@pytest.mark.parametrize("rate", [Fraction(25), Fraction(30000, 1001)])
def test_recordings_of_every_rate_keep_their_times(tmp_path: Path, rate: Fraction) -> None:
    take = record(tmp_path / "take.mp4", 14, fps=round(rate), times=lambda n: n / rate)
    frames = frames_of(film_of(tmp_path, CAMERA, [take]).path)
    first, source = first_piece(frames)
    for k in range(0, 150, 7):
        wanted = (source + k / 30) * float(rate)
        assert abs(number_of(frames[first + k]) - wanted) <= 1.15


def test_takes_follow_each_other_with_a_dissolve(tmp_path: Path) -> None:
    """Half way between two takes each is seen by half; a little before and after there is only one of them."""
    takes = []
    for name, colour in (("one", "0x303030"), ("two", "0xC0C0C0")):
        take = tmp_path / f"{name}.mp4"
        ffmpeg(
            "-f", "lavfi", "-i", f"color={colour}:s=640x360:r=30:d=6", "-f", "lavfi", "-i",
            "sine=f=300:r=48000:d=6", "-c:v", "libx264", "-c:a", "pcm_s16le", "-f", "mov", take,
        )  # fmt: skip
        takes.append(take)
    sheet = recorded(lesson_of(CAMERA))
    film = film_of(tmp_path, CAMERA, takes, sheet=sheet)
    frames = frames_of(film.path)
    piece = next(p for p in sheet.pieces if p.source is not None and p.source + p.duration > 6.5)
    cut = round((piece.start + 6 - (piece.source or 0.0)) * 30)
    level = [int(frames[cut + k][100, 100].mean()) for k in range(-8, 9)]
    assert level[0] == pytest.approx(0x30, abs=3) and level[-1] == pytest.approx(0xC0, abs=3)
    assert level[8] == pytest.approx((0x30 + 0xC0) / 2, abs=14)
    assert all(one <= other + 1 for one, other in pairwise(level))
    assert 6 <= sum(0x36 < value < 0xBA for value in level) <= 10
    # The tone of the second take starts anew: no click is louder than the tone.
    sound = sound_of(film.path)[0]
    at = round((piece.start + 6 - (piece.source or 0.0)) * 48000)
    assert (
        np.abs(np.diff(sound[at - 2400 : at + 2400])).max() < 1.2 * np.abs(np.diff(sound[at - 24000 : at - 4800])).max()
    )


def test_takes_of_different_sizes_are_cut(tmp_path: Path) -> None:
    takes = [record(tmp_path / "one.mp4", 6), record(tmp_path / "two.mp4", 8, size=(320, 180), first=1000)]
    reel = look_at_all(takes, Store(tmp_path / "store"), tmp_path)
    assert reel.cut_at(reel.starts[1]) is None
    reader = ReelReader(reel, (640, 360))
    for time, width in ((reel.starts[1] - TICKS // 30, 640), (reel.starts[1] + TICKS // 30, 320)):
        frame = reader.at(time)
        assert frame is not None and frame.width == width
    reader.close()


def test_a_lesson_is_to_be_had_as_a_clip(tmp_path: Path) -> None:
    """MoviePy shows what the film shows, and plays what it plays."""
    take = record(tmp_path / "take.mp4", 14)
    sheet = recorded(lesson_of(CAMERA))
    store, small = Store(tmp_path / "store"), FilmSettings(width=640, height=360)
    film = film_of(tmp_path, CAMERA, [take], small, store, sheet)
    clip = lesson_clip(lesson_of(CAMERA), sheet, recordings=[take], settings=small, store=store)
    assert clip.duration == pytest.approx(film.duration, abs=1e-6)
    frames = frames_of(film.path)
    for number in (10, 100, 200, len(frames) - 1):
        assert np.abs(clip.get_frame((number + 0.5) / 30).astype(int) - frames[number]).mean() < 3
    part = clip.subclipped(4, 4.5)
    part.write_videofile(str(tmp_path / "part.mp4"), logger=None, preset="ultrafast", temp_audiofile_path=str(tmp_path))
    with av.open(str(tmp_path / "part.mp4")) as container:
        assert container.streams.video[0].frames == 15
        assert container.streams.audio
