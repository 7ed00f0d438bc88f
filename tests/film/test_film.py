"""The film as anyone can read it back: streams, time stamps, chapters, captions, frames and sound."""

from __future__ import annotations

import subprocess
from fractions import Fraction
from pathlib import Path

import av
import imageio_ffmpeg
import numpy as np
import pytest

from studio.audit.frames import frames_at
from studio.audit.marks import crosses, dots
from studio.audit.view import View
from studio.film.scene import frame_at
from studio.film.settings import FilmSettings
from studio.pictures.themes import load_theme
from studio.store import Store
from tests.film.flashes import apart, flashing
from tests.film.material import (
    COUNTING,
    HEADER,
    film_of,
    frames_of,
    lesson_of,
    number_of,
    paced,
    record,
    recorded,
    sound_of,
)

CAPTIONS = "1\n00:00:03,000 --> 00:00:05,000\nFour frogs.\n\n2\n00:00:05,500 --> 00:00:08,000\nFive, six,\nseven.\n"
CAMERA = (
    HEADER
    + """
# Warm-up
[camera full]Look at our pond now. Here are the frogs. They sit and wait for us.
[wait 4 s]
And off they go again into the water.
"""
)


def test_streams_chapters_and_captions_are_read_back(tmp_path: Path) -> None:
    film = film_of(tmp_path, captions=CAPTIONS)
    with av.open(str(film.path)) as container:
        video, audio, words = container.streams.video[0], container.streams.audio[0], container.streams.subtitles[0]
        assert (video.codec_context.name, video.codec_context.pix_fmt) == ("h264", "yuv420p")
        assert (video.width, video.height, video.average_rate) == (640, 360, 30)
        assert (audio.codec_context.name, audio.rate, audio.channels) == ("aac", 48000, 2)
        assert words.codec_context.name == "mov_text"
        assert [(c["metadata"]["title"]) for c in container.chapters()] == ["Warm-up", "A number bond"]
        sheet = paced(lesson_of())
        starts = [float(c["start"] * c["time_base"]) for c in container.chapters()]
        assert starts == pytest.approx([segment.start for segment in sheet.segments], abs=0.001)
        stamps = [packet.pts for packet in container.demux(video) if packet.pts is not None]
        assert stamps == [i * stamps[1] for i in range(film.frames)]
        assert stamps[1] * video.time_base == Fraction(1, 30)
        assert float(container.duration) / 1e6 == pytest.approx(sheet.duration, abs=1 / 30)
    with av.open(str(film.path)) as container:
        texts = [bytes(p)[2:].decode() for p in container.demux(subtitles=0) if p.size > 2]
    assert texts == ["Four frogs.", "Five, six,\nseven."]
    data = film.path.read_bytes()
    assert data.index(b"moov") < data.index(b"mdat"), "not made for a fast start"


def test_ffmpeg_decodes_the_film_without_a_warning(tmp_path: Path) -> None:
    film = film_of(
        tmp_path,
        COUNTING + "[camera full] Look at me.\n[camera off] And here.",
        [record(tmp_path / "take.mp4", 20)],
        captions=CAPTIONS,
    )
    command = [imageio_ffmpeg.get_ffmpeg_exe(), "-v", "warning", "-xerror", "-i", str(film.path), "-f", "null", "-"]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stderr == ""


@pytest.mark.parametrize("fps", [24, 60])
def test_each_frame_of_hers_is_the_one_of_its_time(tmp_path: Path, fps: int) -> None:
    """The frame's number is painted into it: what the film shows at each time is compared with the recording."""
    settings = FilmSettings(width=640, height=360, fps=fps)
    take = record(tmp_path / "take.mp4", 16)
    sheet = recorded(lesson_of(CAMERA))
    film = film_of(tmp_path, CAMERA, [take], settings, sheet=sheet)
    frames = frames_of(film.path)
    assert len(frames) == round(sheet.duration * fps)
    seen = 0
    for piece in sheet.pieces:
        if piece.source is None:
            continue
        first = round(piece.start * fps)
        for k in range(first, round((piece.start + piece.duration) * fps)):
            wanted = (piece.source + (k - first) / fps) * 30
            assert abs(number_of(frames[k]) - int(wanted + 0.15)) <= (0 if fps == 30 else 1), (k, wanted)
            seen += 1
    assert seen > 100


def test_sound_and_picture_stay_together(tmp_path: Path) -> None:
    """A tone sounds at each whole second of the recording: in the film it sounds when that second's frame is shown."""
    take = record(tmp_path / "take.mp4", 16)
    sheet = recorded(lesson_of(CAMERA))
    film = film_of(tmp_path, CAMERA, [take], sheet=sheet)
    level = np.abs(sound_of(film.path)[0])
    checked = 0
    for piece in sheet.pieces:
        if piece.source is None:
            continue
        for second in range(int(piece.source) + 1, int(piece.source + piece.duration)):
            at = round((piece.start + second - piece.source) * 48000)
            window = level[at - 2400 : at + 2400] > 0.05
            onset = (int(np.argmax(window)) - 2400) / 48000
            assert abs(onset) < 1 / 30
            checked += 1
    assert checked >= 5


def test_flash_and_beep_are_within_a_frame_to_the_end(tmp_path: Path) -> None:
    """More than a minute with title cards and lengthened waits; `benchmarks/film.py --only exact --minutes 60` takes an hour."""
    text = HEADER + "".join(
        f"# Part {n}\n[camera full]Look at our pond now. Here are the frogs.\n[wait {3 + n % 3} s]\nThey wait for us.\n"
        for n in range(5)
    )
    sheet = recorded(lesson_of(text))
    take = flashing(tmp_path / "take.mp4", sheet.duration)
    film = film_of(tmp_path, text, [take], FilmSettings(width=320, height=180), sheet=sheet)
    found = apart(film.path, sheet)
    assert len(found.times) > 20
    assert found.most() <= 1 / 30
    assert max(map(abs, found.flash)) <= 1 / 30


def test_a_mark_lands_on_the_frame_in_which_its_word_starts(tmp_path: Path) -> None:
    lesson = lesson_of()
    sheet = paced(lesson)
    film = film_of(tmp_path, settings=FilmSettings(width=960, height=540), sheet=sheet)
    colours = dict(load_theme().colours)
    frames = frames_of(film.path)
    counted = [cue for cue in sheet.cues if cue.moment.counted]
    assert len(counted) == 3
    for cue in counted:
        k = frame_at(cue.time, 30)
        entry = next(c for c in film.cues if frame_at(c.time, 30) == k and c.picture == "pads")
        x, y, w, h = entry.box
        now, before = (View(frames[i][y : y + h, x : x + w], colours) for i in (k, k - 1))
        assert (dots(now), crosses(now)) == (entry.marks["dots"], entry.marks["crosses"])
        assert not np.array_equal(now.pixels, before.pixels)
        later = View(frames[k + 3][y : y + h, x : x + w], colours)
        assert np.abs(now.pixels.astype(int) - later.pixels).max() < 24, "it still moves after its word has begun"


def test_an_unchanged_film_is_joined_from_what_is_there(tmp_path: Path) -> None:
    store = Store(tmp_path / "store")
    one = film_of(tmp_path, store=store)
    two = film_of(tmp_path, store=store, name="again.mp4")
    assert one.encoded > 0
    assert (two.encoded, two.reused) == (0, one.encoded + one.reused)
    assert one.path.read_bytes() == two.path.read_bytes()


def test_a_changed_line_makes_only_its_own_spans_anew(tmp_path: Path) -> None:
    long = HEADER + "".join(
        f"# Part {n}\n[clear][show dots: {n + 3} dots]Here are some ducks and some more ducks in the pond of ours.\n"
        for n in range(8)
    )
    store = Store(tmp_path / "store")
    take = record(tmp_path / "take.mp4", 60, size=(320, 180))
    settings = FilmSettings(width=320, height=180)
    first = film_of(tmp_path, long, [take], settings, store)
    changed = film_of(tmp_path, long.replace("dots: 6 dots", "dots: 7 dots"), [take], settings, store)
    assert first.encoded > 10
    assert 1 <= changed.encoded <= 3


def test_a_film_without_a_recording_is_silent(tmp_path: Path) -> None:
    assert np.abs(sound_of(film_of(tmp_path).path)).max() == 0


def test_a_recording_of_sound_alone_shows_pictures_on_paper(tmp_path: Path) -> None:
    take = record(tmp_path / "take.wav", 16, picture=False)
    film = film_of(tmp_path, recordings=[take])
    silent = film_of(tmp_path, name="silent.mp4")
    assert np.abs(sound_of(film.path)).max() > 0.05
    boxes = {cue.picture: cue.box for cue in silent.cues}
    assert {cue.picture: cue.box for cue in film.cues} == boxes


def test_a_variable_frame_rate_keeps_its_times(tmp_path: Path) -> None:
    """Every third frame of the recording comes late by most of a frame; film frames still show what was on."""

    def times(n: int) -> Fraction:
        return Fraction(n, 30) + (Fraction(1, 45) if n % 3 == 2 else 0)

    take = record(tmp_path / "take.mp4", 14, times=times)
    sheet = recorded(lesson_of(CAMERA))
    film = film_of(tmp_path, CAMERA, [take], sheet=sheet)
    frames = frames_of(film.path)
    piece = next(p for p in sheet.pieces if p.source is not None)
    first = round(piece.start * 30)
    for k in range(first, round((piece.start + piece.duration) * 30)):
        at = piece.source + (k - first) / 30
        wanted = max(n for n in range(600) if times(n) <= at + 0.004)
        assert number_of(frames[k]) == wanted


@pytest.mark.parametrize("size", [(360, 640), (642, 482)])
def test_odd_shapes_are_shown_whole(tmp_path: Path, size: tuple[int, int]) -> None:
    take = record(tmp_path / "take.mp4", 14, size=size)
    film = film_of(tmp_path, CAMERA, [take])
    sheet = recorded(lesson_of(CAMERA))
    piece = next(p for p in sheet.pieces if p.source is not None)
    k = round((piece.start + 1) * 30)
    frame = next(frames_at(film.path, [k / 30 + 0.001]))
    scale = min(640 / size[0], 360 / size[1])
    w, h = int(size[0] * scale), int(size[1] * scale)
    x, y = (640 - w) // 2, (360 - h) // 2
    wanted = int((piece.source + (k - round(piece.start * 30)) / 30) * 30 + 0.15)
    assert number_of(frame[y : y + h, x : x + w]) == wanted


def test_nothing_flashes(tmp_path: Path) -> None:
    """WCAG 2.2, 2.3.1: at most three flashes a second. A flash is a pair of opposing changes of relative luminance of
    10 % or more where the darker is below 0.8; here over a quarter of any tenth of the frame."""
    film = film_of(tmp_path, recordings=[record(tmp_path / "take.mp4", 14, fps=30)], text=COUNTING)
    grey = []
    for frame in frames_of(film.path):
        linear = (frame[::6, ::6].astype(np.float32) / 255) ** 2.2
        grey.append(linear @ np.array([0.2126, 0.7152, 0.0722], np.float32))
    stack = np.stack(grey)[:, :, : int(stack_width(grey) * 0.62)]  # her panel flickers by its numbers
    tiles = stack[:, : stack.shape[1] // 6 * 6, : stack.shape[2] // 6 * 6]
    tiles = tiles.reshape(len(tiles), 6, tiles.shape[1] // 6, 6, -1).mean(axis=(2, 4))
    for row in range(6):
        for column in range(6):
            series = tiles[:, row, column]
            turns = [0]
            last, direction = series[0], 0
            for k, value in enumerate(series):
                if abs(value - last) >= 0.1:
                    now = 1 if value > last else -1
                    if now != direction:
                        turns.append(k)
                        direction = now
                    last = value
                elif (value - last) * direction > 0:
                    last = value
            for start in range(len(series)):
                inside = [k for k in turns if start <= k < start + 30]
                assert len(inside) <= 6


def stack_width(grey: list[np.ndarray]) -> int:
    return int(grey[0].shape[1])


def test_an_hour_is_exact(tmp_path: Path) -> None:
    """60 minutes of pictures: as many frames as the time asks for, and the sound ends with them, within one frame."""
    parts = [f"# Part {n}\n[clear][show dots: {n % 9 + 1} dots]Count the ducks.\n[wait 118 s]\n" for n in range(29)]
    text = HEADER + "".join(parts)
    sheet = paced(lesson_of(text))
    assert sheet.duration > 3500
    film = film_of(tmp_path, text, settings=FilmSettings(width=320, height=180), sheet=sheet)
    assert film.frames == round(sheet.duration * 30)
    with av.open(str(film.path)) as container:
        video, audio = container.streams.video[0], container.streams.audio[0]
        assert video.frames == film.frames
        assert abs(float(video.duration * video.time_base) - sheet.duration) <= 1 / 30
        assert abs(float(audio.duration * audio.time_base) - sheet.duration) <= 1 / 30
    last = sheet.cues[-1]
    entry = film.cues[-1]
    assert 0 <= entry.time - int(last.time * 30) / 30 < 0.001 + 1e-9
    x, y, w, h = entry.box
    frame = next(frames_at(film.path, [entry.time]))
    assert dots(View(frame[y : y + h, x : x + w], dict(load_theme().colours))) == entry.marks["dots"]


def test_a_film_needs_a_known_frame_rate() -> None:
    from studio.errors import UnusableInput

    with pytest.raises(UnusableInput, match="24, 25, 30, 50 or 60"):
        FilmSettings(fps=29)
