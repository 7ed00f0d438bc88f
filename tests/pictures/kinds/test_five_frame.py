"""The five frame."""

from __future__ import annotations

import pytest

from studio.pictures.base import CannotShow
from tests.pictures.made import said, shown


def test_it_shows_up_to_five_in_one_row() -> None:
    picture = shown("five frame: 3 dots and 2 crosses")
    assert picture.numbers == (3, 2, 5)
    middles = {shape.y for shape in picture.drawing().shapes if shape.counts}  # type: ignore[union-attr]
    assert len(middles) == 1


def test_more_than_five_is_refused_with_what_shows_more() -> None:
    with pytest.raises(CannotShow, match=r"0 to 5.*6.*ten frame"):
        shown("five frame: 6 dots")


def test_counting_goes_from_one() -> None:
    assert said("five frame: 4 dots", "count") == [1, 2, 3, 4]
