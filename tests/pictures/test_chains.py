"""Chains of changes that a lesson may ask for, in any order: the pixels still say what the picture says."""

from __future__ import annotations

from functools import lru_cache

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from studio.pictures.base import CannotShow, Picture
from studio.pictures.kinds import CLASSES, make
from studio.pictures.spans import SpanPicture
from studio.pictures.themes import load_theme
from studio.script.model import Add, Change, Circle, Count, Details, FillIn, Hop, MarkNumber, TakeAway, TurnOver
from tests.pictures.bounds import edges
from tests.pictures.counting import count, on_paper
from tests.pictures.every import details_of

_THEMES = ("warm paper", "dark board", "high contrast")


@lru_cache(maxsize=32)
def _all_details(kind: str) -> list[Details]:
    return list(details_of(kind))


def _change(draw: st.DrawFn, picture: Picture) -> Change:
    """Any change that this kind knows, with numbers that may fit."""
    what = draw(st.sampled_from(type(picture).can))
    numbers = st.sampled_from(picture.numbers or (0,))
    if isinstance(picture, SpanPicture):
        numbers = st.integers(picture.start, picture.end)
    if what is Add:
        marks = st.sampled_from(("dots", "crosses")) if "crosses" in picture.marks else st.none()
        return Add(draw(st.integers(1, 6)), draw(marks), draw(st.booleans()))
    if what is TakeAway:
        return TakeAway(draw(st.integers(1, 6)), draw(st.booleans()))
    if what is Count:
        return Count(draw(st.sampled_from((1, 2, 5, 10))))
    if what is FillIn:
        return FillIn(draw(st.none() | st.integers(0, 20)))
    if what is Hop:
        return Hop(draw(numbers), draw(numbers), draw(st.booleans()))
    assert what in (Circle, TurnOver, MarkNumber)
    return what(draw(numbers))


@st.composite
def _chains(draw: st.DrawFn, kind: str) -> tuple[Picture, list[Change]]:
    picture = make(kind, draw(st.sampled_from(_all_details(kind))))
    done: list[Change] = []
    for _ in range(draw(st.integers(1, 5))):
        change = _change(draw, picture)
        try:
            steps = picture.steps(change)
        except CannotShow:
            continue
        picture = draw(st.sampled_from(steps)).picture
        done.append(change)
    return picture, done


def _apart(hops: tuple[tuple[int, int], ...]) -> bool:
    """No hop meets another in the air: two beside each other, or on one stretch, or one over the other can be told apart by
    their pixels, others only by eye."""
    spans = [(min(hop), max(hop)) for hop in hops]
    return all(
        one[1] <= other[0] or other[1] <= one[0] or one[0] <= other[0] < other[1] <= one[1]
        or other[0] <= one[0] < one[1] <= other[1]
        for at, one in enumerate(spans)
        for other in spans[at + 1 :]
    )  # fmt: skip


@pytest.mark.parametrize("kind", [kind for kind in CLASSES if CLASSES[kind].can])
@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(data=st.data())
def test_any_chain_of_changes_keeps_pixels_and_account_together(kind: str, data: st.DataObject) -> None:
    picture, done = data.draw(_chains(kind))
    assume(done)
    assume(_apart(getattr(picture, "hops", ())))
    drawing = picture.drawing()
    for shape in drawing.shapes:
        left, top, right, bottom = edges(shape)
        assert left >= -0.01 and top >= -0.01, shape
        assert right <= drawing.width + 0.01 and bottom <= drawing.height + 0.01, shape
    theme = load_theme(data.draw(st.sampled_from(_THEMES)))
    assert count(on_paper(picture, theme, 0.8), kind, theme) == dict(picture.marks)
