"""Hops over a row of numbers."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import atan2, cos, pi, sin

from studio.pictures.shapes import AnyShape, Path

HIGHEST = 104.0
"""How high the longest hop goes, in units."""
ROOM = 14.0
"""How far above the row hops begin, and how much is free above them."""
WIDTH = 8.0
HEAD = 22.0
INSET = 11.0
STEPS = 24


def hops_room(hops: Sequence[tuple[int, int]], apart: float) -> float:
    """The room that hops need above the row, whose numbers are `apart`."""
    return max((_height(abs(end - start) * apart - 2 * INSET) + 2 * ROOM for start, end in hops), default=0.0)


def _height(length: float) -> float:
    return min(HIGHEST, 44 + length * 0.22)


def hop_shapes(hops: Sequence[tuple[int, int]], at: Callable[[int], float], y: float) -> list[AnyShape]:
    """An arc with its arrow head for each hop, as one path; `at` is where a number stands, `y` the height they start
    from. Arcs end beside the middle of their number, so that two never touch."""
    shapes: list[AnyShape] = []
    for index, (start, end) in enumerate(hops):
        way = 1 if end > start else -1
        x1, x2 = at(start) + way * INSET, at(end) - way * INSET
        high = _height(abs(x2 - x1))
        half, centre = (x2 - x1) / 2, (x1 + x2) / 2
        arc = [(centre - half * cos(pi * step / STEPS), y - high * sin(pi * step / STEPS)) for step in range(STEPS + 1)]
        (x3, y3), (x4, y4) = arc[-4], arc[-1]
        angle = atan2(y4 - y3, x4 - x3)
        head = [(x4 + HEAD * cos(angle + turn), y4 + HEAD * sin(angle + turn)) for turn in (pi * 0.83, -pi * 0.83)]
        # The pen goes out to one barb and back, so that hop and head are one line and one thing to count.
        points = (*arc, head[0], arc[-1], head[1])
        shapes.append(
            Path(role="hop", key=f"hop {index + 1}", counts="hops", points=points, fill="second", width=WIDTH)
        )
    return shapes
