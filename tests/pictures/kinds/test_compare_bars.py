"""Two bars to compare."""

from __future__ import annotations

import pytest

from studio.pictures.base import CannotShow
from studio.pictures.shapes import Box
from studio.pictures.themes import load_theme
from tests.pictures.counting import Seen, on_paper, size
from tests.pictures.made import shown


def test_the_difference_is_unknown_until_it_is_found() -> None:
    assert shown("compare bars: 9 and 7").numbers == (9, 7)
    found = shown("compare bars: 9 and 7", "fill in")
    assert found.numbers == (9, 7, 2)
    assert found.holds is True  # type: ignore[attr-defined]


def test_each_bar_has_as_many_squares_as_its_number() -> None:
    marks = shown("compare bars: 5 and 12").marks
    assert (marks["upper"], marks["lower"]) == (5, 12)


def test_more_than_two_are_not_compared() -> None:
    with pytest.raises(CannotShow, match="two numbers"):
        shown("compare bars: 1 and 2 and 3")


def test_where_squares_could_not_be_counted_the_bars_are_whole_and_in_proportion() -> None:
    picture = shown("compare bars: 25 and 18")
    assert picture.marks == {"bars": 2, "unknowns": 1, "rings": 0}
    upper, lower = (s for s in picture.drawing().shapes if isinstance(s, Box) and s.counts)
    assert upper.width / lower.width == pytest.approx(25 / 18)
    assert upper.x == lower.x


def test_the_pixels_of_whole_bars_are_in_proportion() -> None:
    """The lengths are measured in the picture, to a pixel."""
    seen = Seen(on_paper(shown("compare bars: 100 and 37", "fill in")), load_theme())
    ((_, upper),), ((_, lower),) = (list(map(size, seen.pieces(ink))) for ink in ("first", "second"))
    assert abs(lower / upper - 0.37) < 2 / upper


@pytest.mark.parametrize(("numbers", "whole"), [("20 and 20", False), ("21 and 1", True), ("1 and 100", True)])
def test_squares_are_drawn_up_to_twenty(numbers: str, whole: bool) -> None:
    assert ("bars" in shown(f"compare bars: {numbers}").marks) is whole


def test_beyond_a_hundred_and_twenty_is_refused() -> None:
    with pytest.raises(CannotShow, match="1 to 120, not 121"):
        shown("compare bars: 121 and 7")


@pytest.mark.parametrize(
    "numbers", ["9 and 8", "8 and 9", "20 and 19", "12 and 5", "100 and 37", "120 and 119", "25 and 24"]
)
def test_the_difference_ends_where_the_longer_bar_ends(numbers: str) -> None:
    for changes in ((), ("fill in",)):
        shapes = shown(f"compare bars: {numbers}", *changes).drawing().shapes
        difference = next(s for s in shapes if isinstance(s, Box) and s.role == "difference")
        bars = [s for s in shapes if isinstance(s, Box) and s.counts]
        assert difference.x + difference.width == pytest.approx(max(s.x + s.width for s in bars))
        row = [s for s in bars if s.y == difference.y]
        assert difference.x > max(s.x + s.width for s in row)


def test_equal_bars_have_no_box_for_a_difference() -> None:
    picture = shown("compare bars: 9 and 9", "fill in")
    assert picture.numbers == (9, 9, 0)
    assert not [s for s in picture.drawing().shapes if s.role == "difference"]
