"""Pictures that stand and move are encoded by parts: what anyone decodes is what was painted."""

from __future__ import annotations

import io
from pathlib import Path

import av
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.film import places, slices
from studio.film.art import Artist
from studio.film.encode import Coded, empty_frame, planes, set_up, stream_headers
from studio.film.plan import make_plan
from studio.film.scene import stays
from studio.film.settings import FilmSettings
from studio.film.spans import Maker
from studio.film.still import StillTrack
from studio.film.yuv import Patch
from studio.pictures.themes import load_theme
from tests.film.material import lesson_of, paced

EVERY = Path(__file__).parents[1] / "audit" / "every_kind.lesson.md"


def decoded(frames: list[Coded], film: FilmSettings) -> list[np.ndarray]:
    """The luma planes that FFmpeg's decoder gives for encoded frames; it stops at the first thing that is wrong."""
    stream = io.BytesIO(stream_headers(film) + b"".join(coded.data for coded in frames))
    with av.open(stream, format="h264", options={"err_detect": "explode"}) as container:
        return [planes(frame)[0].copy() for frame in container.decode(video=0)]


@settings(max_examples=15, deadline=None)
@given(
    size=st.tuples(st.integers(160, 350), st.integers(90, 200)),
    corner=st.tuples(st.integers(0, 100), st.integers(0, 60)),
    patch=st.tuples(st.integers(1, 60), st.integers(1, 30)),
    wait=st.integers(0, 20),
    steps=st.integers(1, 8),
    twice=st.booleans(),
    seed=st.integers(0, 1000),
)
def test_a_region_changes_and_nothing_else(
    size: tuple[int, int],
    corner: tuple[int, int],
    patch: tuple[int, int],
    wait: int,
    steps: int,
    twice: bool,
    seed: int,
) -> None:
    film = FilmSettings(width=size[0] * 2, height=size[1] * 2, still_quality=4)
    rng = np.random.default_rng(seed)
    ground = empty_frame(film)
    for plane in planes(ground):
        plane[:] = np.kron(rng.integers(60, 200, (plane.shape[0] // 8 + 1, plane.shape[1] // 8 + 1)), np.ones((8, 8)))[
            : plane.shape[0], : plane.shape[1]
        ]
    w, h = min(patch[0] * 2, film.width - corner[0] * 2), min(patch[1] * 2, film.height - corner[1] * 2)
    spots = [(corner[0] * 2, corner[1] * 2)]
    if twice:  # in the far corner: as a second region, or as one with the first where they meet
        spots.append((film.width - w, film.height - h))
    moments = []
    wanted = [planes(ground)[0].copy()] * (wait + 1)
    for _ in range(steps):
        patches = []
        now = planes(ground)[0].copy()
        for x, y in spots:
            flat = [np.full((h // s, w // s), rng.integers(60, 200), np.uint8) for s in (1, 2, 2)]
            patches.append(Patch(x, y, *flat))
            now[y : y + h, x : x + w] = flat[0]
        moments.append((1, patches))
        wanted.append(now)
    wanted += [wanted[-1]] * 3
    track = StillTrack(film)
    frames = [*track.anew(ground), *track.hold(wait), *track.change(moments, 4), *track.hold(3)]
    shown = decoded(frames, film)
    assert len(shown) == len(wanted)
    around = np.ones(shown[0].shape, bool)  # the macroblocks that the region may touch, and what smooths their edges
    (left, top), (right, bottom) = spots[0], (spots[-1][0] + w, spots[-1][1] + h)
    apart = twice and (right - left + 32) * (bottom - top + 32) > 2 * (w + 32) * (h + 32) + 80_000
    for x, y, wide, high in [(*spot, w, h) for spot in spots] if apart else [(left, top, right - left, bottom - top)]:
        around[max(0, y // 16 * 16 - 20) : y + high + 36, max(0, x // 16 * 16 - 20) : x + wide + 36] = False
    for now, meant in zip(shown, wanted, strict=True):
        unlike = np.abs(now.astype(int) - meant)
        assert unlike.mean() < 1.5 and unlike.max() < 50
        if sum(coded.key for coded in frames) == 1:
            assert np.array_equal(now[around], shown[0][around])


def test_every_kind_of_picture_moves_as_it_is_painted() -> None:
    """Each frame that stands is compared with its picture painted whole; PyAV decodes."""
    film = FilmSettings(width=640, height=360)
    lesson = lesson_of(EVERY.read_text(encoding="utf-8"))
    sheet = paced(lesson)
    spans = make_plan(stays(lesson, sheet, film, places.arranging(film), picture=False), sheet, film, None)
    maker, artist = Maker(load_theme(), film, None), Artist(load_theme(), film)
    checked = 0
    for span in spans:
        shown = decoded(list(maker.make(span)), film)
        assert len(shown) == span.count
        at = 0
        for run in span.runs:
            if run.before is None:
                meant = planes(artist.frame(run.scene, None))[0]
                for now in (shown[at], shown[at + run.count - 1]):
                    unlike = np.abs(now.astype(int) - meant)
                    assert unlike.mean() < 0.6 and (unlike > 60).mean() < 2e-4
                checked += 1
            at += run.count
    assert checked > 60


def test_headers_of_another_make_are_refused() -> None:
    film = FilmSettings(width=320, height=180)
    assert slices.syntax(stream_headers(film)).frames >= 16
    context = av.CodecContext.create("libx264", "w")
    set_up(context, film)
    context.options = {**context.options, "coder": "vlc"}
    context.open()
    with pytest.raises(ValueError, match="CABAC"):
        slices.syntax(bytes(context.extradata))


def test_a_picture_that_stands_costs_next_to_nothing() -> None:
    film = FilmSettings(width=640, height=360)
    frame = empty_frame(film)
    for plane in planes(frame):
        plane[:] = 100
    track = StillTrack(film)
    frames = [*track.anew(frame), *track.hold(3000)]
    first = frames[0]
    renewed = sum(coded.key for coded in frames)
    assert renewed == 3001 // 150 + 1
    assert sum(len(coded.data) for coded in frames) - renewed * len(first.data) < 3000 * 40
