"""The number line."""

from __future__ import annotations

import itertools

from studio.pictures.shapes import Line
from tests.pictures.made import said, shown


def test_numbers_are_equally_far_apart() -> None:
    ticks = [s.x1 for s in shown("number line: 0 to 10").drawing().shapes if isinstance(s, Line) and s.counts]
    assert len({round(b - a, 6) for a, b in itertools.pairwise(ticks)}) == 1


def test_marks_and_hops_are_told() -> None:
    picture = shown("number line: 0 to 10, mark 7", "hop 7 to 9", "mark 9")
    assert picture.marked == (7, 9)  # type: ignore[attr-defined]
    assert picture.hops == ((7, 9),)  # type: ignore[attr-defined]
    assert said("number line: 0 to 10", "hop 5 to 8, counting") == [6, 7, 8]
