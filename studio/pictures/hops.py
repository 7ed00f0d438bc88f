"""Hops over a row of numbers."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import atan2, cos, pi, sin, sqrt

from studio.pictures.shapes import AnyShape, Path

Hop = tuple[int, int]

HIGHEST = 104.0
"""How high a long hop goes, in units; one over another goes higher."""
OVER = 24.0
"""How far a hop passes over one that is wholly under it."""
ROOM = 14.0
"""How far above the row hops begin, and how much is free above them."""
WIDTH = 8.0
HEAD = 22.0
INSET = 17.0
"""How far from the middle of their number hops begin and end, so that two never touch there."""
STEPS = 24


def heights(hops: Sequence[Hop], apart: float) -> dict[Hop, float]:
    """How high each hop goes over a row whose numbers are `apart`."""
    found: dict[Hop, float] = {}
    for hop in sorted(hops, key=lambda hop: abs(hop[1] - hop[0])):
        under = [other for other in found if min(hop) < min(other) and max(other) < max(hop)]
        length = abs(hop[1] - hop[0]) * apart - 2 * INSET
        found[hop] = max(
            [min(HIGHEST, 44 + length * 0.22), *(_over(hop, other, found[other], apart) for other in under)]
        )
    return found


def _over(hop: Hop, under: Hop, high: float, apart: float) -> float:
    """How high a hop must go to clear another, `high`, all along."""
    half, own = (abs(end - start) * apart / 2 - INSET for start, end in (hop, under))
    across = (sum(under) - sum(hop)) * apart / 2
    return max(
        (high * sin(pi * step / STEPS) + OVER) / sqrt(1 - ((across - own * cos(pi * step / STEPS)) / half) ** 2)
        for step in range(STEPS + 1)
    )


def hops_room(hops: Sequence[Hop], apart: float) -> float:
    """The room that hops need above the row."""
    return max(heights(hops, apart).values()) + 2 * ROOM if hops else 0.0


def hop_shapes(hops: Sequence[Hop], at: Callable[[int], float], apart: float, y: float) -> list[AnyShape]:
    """An arc with its arrow head for each hop, as one path; `at` is where a number stands, `y` where the row begins."""
    shapes: list[AnyShape] = []
    high = heights(hops, apart)
    for start, end in hops:
        way = 1 if end > start else -1
        x1, x2 = at(start) + way * INSET, at(end) - way * INSET
        half, centre, foot = (x2 - x1) / 2, (x1 + x2) / 2, y - ROOM
        turns = [pi * step / STEPS for step in range(STEPS + 1)]
        arc = [(centre - half * cos(turn), foot - high[start, end] * sin(turn)) for turn in turns]
        (x3, y3), (x4, y4) = arc[-4], arc[-1]
        angle = atan2(y4 - y3, x4 - x3)
        head = [(x4 + HEAD * cos(angle + turn), y4 + HEAD * sin(angle + turn)) for turn in (pi * 0.83, -pi * 0.83)]
        # The pen goes out to one barb and back, so that hop and head are one line and one thing to count.
        points = (*arc, head[0], arc[-1], head[1])
        shapes.append(
            Path(role="hop", key=f"hop {start} {end}", counts="hops", points=points, fill="second", width=WIDTH)
        )
    return shapes
