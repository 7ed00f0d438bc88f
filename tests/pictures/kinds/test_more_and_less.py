"""One less and one more."""

from __future__ import annotations

import pytest

from studio.pictures.base import CannotShow
from tests.pictures.made import shown


def test_neighbours_are_unknown_until_they_are_filled_in() -> None:
    assert shown("more and less: 12").numbers == (12,)
    assert shown("more and less: 12", "fill in").numbers == (11, 12)
    assert shown("more and less: 12", "fill in 13").numbers == (12, 13)
    assert shown("more and less: 12", "fill in", "fill in").holds is True  # type: ignore[attr-defined]


def test_a_wrong_number_is_shown_as_it_was_said() -> None:
    picture = shown("more and less: 12", "fill in 10")
    assert picture.numbers == (10, 12)
    assert picture.holds is False  # type: ignore[attr-defined]


def test_nothing_is_left_to_fill_in_at_the_end() -> None:
    with pytest.raises(CannotShow, match="no \\? left"):
        shown("more and less: 12", "fill in", "fill in", "fill in")
