"""Base ten."""

from __future__ import annotations

import pytest

from studio.pictures.base import CannotShow
from studio.pictures.motion import between, middle
from tests.pictures.made import said, shown, stepped


def test_a_line_is_worth_ten_and_a_square_one() -> None:
    picture = shown("base ten: 14")
    assert picture.marks == {"tens": 1, "ones": 4}
    assert picture.numbers == (1, 4, 14)


def test_ten_ones_become_a_line_when_ten_is_said() -> None:
    # CCSSM 1.NBT.B.2a: 10 is a bundle of ten ones.
    steps = stepped("base ten: 8", "add 3, counting")
    assert [(step.number, dict(step.picture.marks)) for step in steps] == [
        (9, {"tens": 0, "ones": 9}),
        (10, {"tens": 1, "ones": 0}),
        (11, {"tens": 1, "ones": 1}),
    ]


def test_the_ones_gather_where_the_line_will_be() -> None:
    before, after = shown("base ten: 9").drawing(), shown("base ten: 10").drawing()
    line = middle(next(shape for shape in after.shapes if shape.role == "ten"))

    def distance(t: float) -> float:
        ones = [middle(shape) for shape in between(before, after, t).shapes if shape.role == "one"]
        return sum(abs(x - line[0]) + abs(y - line[1]) for x, y in ones) / len(ones)

    assert distance(0.0) > distance(0.2) > distance(0.5)


def test_it_is_counted_by_tens_and_then_by_ones() -> None:
    assert said("base ten: 23", "count") == [10, 20, 21, 22, 23]
    with pytest.raises(CannotShow, match="by tens"):
        shown("base ten: 23", "count by 5")
