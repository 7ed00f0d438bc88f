"""Hops over a row of numbers."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, copysign, cos, dist, pi, pow, sin, sqrt

from studio.pictures.shapes import AnyShape, Path

Hop = tuple[int, int]
Point = tuple[float, float]

HIGHEST = 104.0
"""How high a long hop goes, in units; one over another goes higher."""
OVER = 24.0
"""How far a hop passes over one that is wholly under it."""
HEAD = 22.0
FAR_APART = 92.0
"""Numbers that are as far apart as this, or farther, have room for hops of the full size."""
SHORT = 150.0
"""Half the length up to which a hop over numbers that stand closely comes down aslant, so that its head has room."""
STEPS = 36


@dataclass(frozen=True, slots=True)
class Pen:
    """How hops are drawn over a row: `inset` is how far from the middle of their number they begin and end, so that two
    never touch there; `room` how far above the row they begin, and half of what is free above them."""

    inset: float
    width: float
    room: float
    close: bool


def pen(apart: float) -> Pen:
    """The pen for a row whose numbers are `apart`: finer where they stand closely, for a hop must end at its number and
    not at the one beside it."""
    close = apart < FAR_APART
    return Pen(min(17.0, apart / 4), min(8.0, 4.2 + apart / 24), 9.0 if close else 14.0, close)


def _bend(half: float, apart: float) -> float:
    """The power to which the sine of a hop is raised: 1 for half an ellipse, more for one that comes down aslant."""
    return 1.5 if pen(apart).close and half < SHORT else 1.0


def heights(hops: Sequence[Hop], apart: float) -> dict[Hop, float]:
    """How high each hop goes over a row whose numbers are `apart`."""
    found: dict[Hop, float] = {}
    for hop in sorted(hops, key=lambda hop: abs(hop[1] - hop[0])):
        under = [other for other in found if min(hop) < min(other) and max(other) < max(hop)]
        length = abs(hop[1] - hop[0]) * apart - 2 * pen(apart).inset
        alone = min(HIGHEST, 44 + length * 0.22, 34 + length)
        found[hop] = max([alone, *(_over(hop, other, found[other], apart) for other in under)])
    return found


def _over(hop: Hop, under: Hop, high: float, apart: float) -> float:
    """How high a hop must go to clear another, `high`, all along."""
    half, own = (abs(end - start) * apart / 2 - pen(apart).inset for start, end in (hop, under))
    across = (sum(under) - sum(hop)) * apart / 2
    bend, under_bend = _bend(half, apart), _bend(own, apart)
    return max(
        (high * pow(sin(pi * step / STEPS), under_bend) + OVER)
        / pow(1 - ((across - own * cos(pi * step / STEPS)) / half) ** 2, bend / 2)
        for step in range(STEPS + 1)
    )


def hops_room(hops: Sequence[Hop], apart: float) -> float:
    """The room that hops need above the row."""
    return max(heights(hops, apart).values()) + 2 * pen(apart).room if hops else 0.0


def hop_shapes(hops: Sequence[Hop], at: Callable[[int], float], apart: float, y: float) -> list[AnyShape]:
    """An arc with its arrow head for each hop, as one path; `at` is where a number stands, `y` where the row begins."""
    shapes: list[AnyShape] = []
    high, drawn = heights(hops, apart), pen(apart)
    for start, end in hops:
        way = 1 if end > start else -1
        x1, x2 = at(start) + way * drawn.inset, at(end) - way * drawn.inset
        half, centre, foot = (x2 - x1) / 2, (x1 + x2) / 2, y - drawn.room
        bend = _bend(abs(half), apart)
        turns = [pi * step / STEPS for step in range(STEPS + 1)]
        arc = [(centre - half * cos(turn), foot - high[start, end] * pow(max(0.0, sin(turn)), bend)) for turn in turns]
        long = min(HEAD, 5 + abs(x2 - x1) * 0.36)
        x4, y4 = arc[-1]
        x3, y3 = _before(arc, long)
        angle = atan2(y4 - y3, x4 - x3)
        # Neither barb reaches past the middle of the number, where the next hop may begin.
        most = drawn.inset - drawn.width / 2 - 0.5
        head = []
        for turn in (pi * 0.83, -pi * 0.83):
            beyond = min(most, way * long * cos(angle + turn))
            head.append((x4 + way * beyond, y4 + copysign(sqrt(long**2 - beyond**2), sin(angle + turn))))
        # The pen goes out to one barb and back, so that hop and head are one line and one thing to count.
        points = (*arc, head[0], arc[-1], head[1])
        shapes.append(
            Path(role="hop", key=f"hop {start} {end}", counts="hops", points=points, fill="second", width=drawn.width)
        )
    return shapes


def _before(arc: Sequence[Point], length: float) -> Point:
    """The point of an arc that is `length` before its end."""
    end = arc[-1]
    for one, other in pairwise(reversed(arc)):
        near, far = dist(one, end), dist(other, end)
        if far >= length:
            part = (length - near) / (far - near)
            return (one[0] + (other[0] - one[0]) * part, one[1] + (other[1] - one[1]) * part)
    return arc[0]
