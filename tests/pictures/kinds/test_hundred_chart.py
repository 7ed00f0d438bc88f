"""The hundred chart."""

from __future__ import annotations

import pytest

from studio.pictures.base import CannotShow
from tests.pictures.made import said, shown


def _place(picture: object, number: int) -> tuple[float, float]:
    shapes = picture.drawing().shapes  # type: ignore[attr-defined]
    numeral = next(shape for shape in shapes if shape.key == f"number {number}")
    return numeral.x, numeral.y


def test_ten_more_stands_right_below() -> None:
    chart = shown("hundred chart: 1 to 100")
    for number in (1, 23, 45, 90):
        (x, y), (below_x, below_y) = _place(chart, number), _place(chart, number + 10)
        assert x == below_x
        assert below_y > y


def test_a_chart_that_begins_in_the_middle_keeps_its_columns() -> None:
    chart = shown("hundred chart: 15 to 38")
    assert _place(chart, 15)[0] == _place(chart, 25)[0] == _place(chart, 35)[0]


def test_counting_by_ten_lights_the_tens() -> None:
    assert said("hundred chart: 1 to 50", "count by 10") == [10, 20, 30, 40, 50]


def test_a_number_off_the_chart_cannot_be_ringed() -> None:
    with pytest.raises(CannotShow, match="no 31"):
        shown("hundred chart: 1 to 30", "circle 31")
