"""Dots without a frame."""

from __future__ import annotations

from studio.pictures.shapes import Box
from tests.pictures.made import said, shown


def test_there_is_no_frame() -> None:
    assert not any(isinstance(shape, Box) for shape in shown("dots: 12").drawing().shapes)


def test_counting_by_five_ends_in_ones() -> None:
    assert said("dots: 12", "count by 5") == [5, 10, 11, 12]


def test_a_dot_keeps_its_place_when_others_come() -> None:
    def places(dots: int) -> list[tuple[float, float]]:
        shapes = shown(f"dots: {dots}").drawing().shapes
        return [(shape.x, shape.y) for shape in shapes]  # type: ignore[union-attr]

    assert places(50)[:23] == places(23)
