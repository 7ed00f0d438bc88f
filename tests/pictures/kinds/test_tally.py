"""Tallies."""

from __future__ import annotations

from studio.pictures.shapes import Line
from tests.pictures.made import said, shown


def test_every_fifth_stroke_crosses_its_group() -> None:
    # Common practice, no source.
    roles = [shape.role for shape in shown("tally: 13").drawing().shapes]
    assert roles.count("fifth") == 2
    assert roles.count("stroke") == 11


def test_they_are_counted_by_fives_and_then_by_ones() -> None:
    assert said("tally: 12", "count by 5") == [5, 10, 11, 12]


def test_adding_counts_on() -> None:
    assert said("tally: 4", "add 3, counting") == [5, 6, 7]


def test_the_hundredth_day_is_twenty_groups_in_four_rows() -> None:
    drawing = shown("tally: 100").drawing()
    crossed = [shape for shape in drawing.shapes if isinstance(shape, Line) and shape.role == "fifth"]
    assert len(crossed) == 20
    assert len({shape.y1 for shape in crossed}) == 4
    assert drawing.width > drawing.height  # as a film is
