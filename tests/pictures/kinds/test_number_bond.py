"""The number bond."""

from __future__ import annotations

from math import hypot

import pytest

from studio.pictures.base import CannotShow
from studio.pictures.shapes import Disc, Line
from tests.pictures.made import shown


def test_the_unknown_is_a_question_mark_and_no_number() -> None:
    picture = shown("number bond: 9 is 7 and ?")
    assert picture.numbers == (9, 7)
    assert picture.marks["unknowns"] == 1
    assert picture.holds is None  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("spec", "numbers"),
    [
        ("9 is 7 and ?", (9, 7, 2)),
        ("? is 5 and 3", (8, 5, 3)),
        ("10 is 2 and ? and 5", (10, 2, 3, 5)),
        ("12 is 2 and 2 and 2 and 2 and 2 and ?", (12, 2, 2, 2, 2, 2, 2)),
    ],
)
def test_filling_in_works_the_number_out(spec: str, numbers: tuple[int, ...]) -> None:
    picture = shown(f"number bond: {spec}", "fill in")
    assert picture.numbers == numbers
    assert picture.holds is True  # type: ignore[attr-defined]


def test_a_wrong_number_is_shown_as_it_was_said() -> None:
    picture = shown("number bond: 9 is 7 and ?", "fill in 3")
    assert picture.numbers == (9, 7, 3)
    assert picture.holds is False  # type: ignore[attr-defined]


def test_the_ring_goes_round_the_number_that_was_found() -> None:
    picture = shown("number bond: 4 is 2 and ?", "fill in", "circle 2")
    assert picture.ringed == (2,)  # type: ignore[attr-defined]
    assert picture.rings == (2,)  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("spec", "change", "words"),
    [
        ("5 is 7 and ?", "fill in", "less than 0"),
        ("? is 7 and ?", "fill in", "cannot be worked out"),
        ("9 is 7 and 2", "fill in", "no \\? left"),
        ("9 is 7 and ?", "circle 2", "no 2 to circle"),
        ("7 is 1 and 1 and 1 and 1 and 1 and 1 and 1", "circle 1", "has 2 to 6 parts, so it cannot have 7"),
    ],
)
def test_what_cannot_be_is_said_in_a_sentence(spec: str, change: str, words: str) -> None:
    with pytest.raises(CannotShow, match=words):
        shown(f"number bond: {spec}", change)


@pytest.mark.parametrize(
    "parts", ["3 and 3 and 3 and 3", "2 and 2 and 2 and 2 and 4", "2 and 2 and 2 and 2 and 2 and 2"]
)
def test_no_line_runs_over_the_circle_of_another_part(parts: str) -> None:
    shapes = shown(f"number bond: 12 is {parts}").drawing().shapes
    circles = [(shape.x, shape.y, shape.radius) for shape in shapes if isinstance(shape, Disc)]
    lines = [shape for shape in shapes if isinstance(shape, Line)]
    assert len(lines) == len(circles) - 1 == parts.count("and") + 1
    for at, line in enumerate(lines, start=1):
        length = hypot(line.x2 - line.x1, line.y2 - line.y1)
        for other, (x, y, radius) in enumerate(circles[1:], start=1):
            across = abs((line.x2 - line.x1) * (y - line.y1) - (line.y2 - line.y1) * (x - line.x1)) / length
            assert other == at or across > radius + line.width
