"""Two bars to compare."""

from __future__ import annotations

import pytest

from studio.pictures.base import CannotShow
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
