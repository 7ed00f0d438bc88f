"""Hops over a row of numbers."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import atan2, copysign, cos, dist, pi, pow, sin, sqrt

import numpy as np

from studio.pictures.shapes import AnyShape, Path

Hop = tuple[int, int]
Point = tuple[float, float]

HIGHEST = 104.0
"""How high a long hop goes, in units; one over another goes higher."""
OVER = 24.0
"""How far a hop passes over one that is wholly under it."""
AIR = 8.0
"""The least space between two hops where one is over another that begins or ends at the same number."""
LIFT = 6.0
"""The steps in which a hop is lifted over another."""
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


@dataclass(frozen=True, slots=True)
class Arc:
    """A hop from `x1` to `x2`, `high` at its top; `lifts` is how far above the row it begins and ends. Units, from number 0 and
    from the foot of hops up."""

    x1: float
    x2: float
    lifts: tuple[float, float]
    high: float
    bend: float

    def points(self) -> list[Point]:
        """Points along it, from its beginning."""
        half, centre, (first, last) = (self.x2 - self.x1) / 2, (self.x1 + self.x2) / 2, self.lifts
        found = []
        for turn in (pi * step / STEPS for step in range(STEPS + 1)):
            base = first + (last - first) * (1 - cos(turn)) / 2
            found.append((centre - half * cos(turn), base + (self.high - base) * pow(max(0.0, sin(turn)), self.bend)))
        return found


def _arc(hop: Hop, apart: float, lifts: tuple[float, float], high: float) -> Arc:
    start, end = hop
    inset = copysign(pen(apart).inset, end - start)
    x1, x2 = start * apart + inset, end * apart - inset
    return Arc(x1, x2, lifts, high, _bend(abs(x2 - x1) / 2, apart))


@lru_cache(maxsize=256)
def arcs(hops: tuple[Hop, ...], apart: float) -> Mapping[Hop, Arc]:
    """How each hop goes over a row whose numbers are `apart`.

    Shorter ones are under longer ones, and of two on one stretch the way back is over the way there. Where a hop begins or ends
    at the same side of a number as one under it, it does so above that one: two never touch there.
    """
    found: dict[Hop, Arc] = {}
    for hop in sorted(hops, key=lambda hop: (abs(hop[1] - hop[0]), hop[1] < hop[0])):
        under = {other: arc for other, arc in found.items() if min(hop) <= min(other) and max(other) <= max(hop)}
        length = abs(hop[1] - hop[0]) * apart - 2 * pen(apart).inset
        alone = min(HIGHEST, 44 + length * 0.22, 34 + length)
        inside = [other for other in under if min(hop) < min(other) and max(other) < max(hop)]
        high = max([alone, *(_over(hop, one, under[one].high, apart) for one in inside if not any(under[one].lifts))])
        found[hop] = _clear_of(hop, under, apart, high) if under else _arc(hop, apart, (0.0, 0.0), high)
    return found


def _meets(hop: Hop, other: Hop, end: int) -> bool:
    """Whether the beginning (0) or the end (1) of a hop is at the same side of the same number as one of another's."""
    number, way = hop[end], hop[1 - end] > hop[end]
    return any(other[at] == number and (other[1 - at] > number) is way for at in (0, 1))


def _clear_of(hop: Hop, under: Mapping[Hop, Arc], apart: float, high: float) -> Arc:
    """The lowest arc found for a hop that keeps clear of those under it, heads and all, and is at least so `high`; only an
    end that it shares with one of them is lifted."""
    shared = [any(_meets(hop, other, end) for other in under) for end in (0, 1)]
    near = pen(apart).width + AIR * (0.6 if pen(apart).close else 1.0)
    below = np.array([point for arc in under.values() for point in _drawn(arc, apart)])
    top = float(below[:, 1].max())
    lift = 0.0
    while True:
        lifts = (lift * shared[0], lift * shared[1])
        for more in (1.0, 1.15, 1.3, 1.5) if lift < top + near else (1.0, 1.5, 2.0, 3.0, 5.0):
            arc = _arc(hop, apart, lifts, max(high * more, lift + 0.75 * min(high, HIGHEST)))
            own = np.array(_drawn(arc, apart))
            away = np.hypot(*(own[:, None] - below[None]).transpose(2, 0, 1)).min()
            if away >= near:
                return arc
        if lift > top + near + 2 * HEAD:
            return arc
        lift += LIFT if any(shared) else top


def _drawn(arc: Arc, apart: float) -> list[Point]:
    """Points along all that is drawn of an arc: its line and its head, closely."""
    line = arc.points()
    one, other = _head(arc, line, apart)
    tip = line[-1]
    strokes = [
        ((tip[0] + (x - tip[0]) * part, tip[1] + (y - tip[1]) * part)) for x, y in (one, other) for part in (0.5, 1)
    ]
    between = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(line) if dist(a, b) > 2 * AIR]
    return [*line, *between, *strokes]


def _head(arc: Arc, line: Sequence[Point], apart: float) -> tuple[Point, Point]:
    """The ends of the two barbs of its arrow head."""
    long = min(HEAD, 5 + abs(arc.x2 - arc.x1) * 0.36)
    (x4, y4), (x3, y3) = line[-1], _before(line, long)
    angle = atan2(y4 - y3, x4 - x3)
    drawn, way = pen(apart), copysign(1, arc.x2 - arc.x1)
    # Neither barb reaches past the middle of the number, where the next hop may begin.
    most = drawn.inset - drawn.width / 2 - 0.5
    barbs: list[Point] = []
    for turn in (pi * 0.83, -pi * 0.83):
        beyond = min(most, way * long * cos(angle + turn))
        barbs.append((x4 + way * beyond, y4 + copysign(sqrt(long**2 - beyond**2), sin(angle + turn))))
    return barbs[0], barbs[1]


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


def hops_room(hops: tuple[Hop, ...], apart: float) -> float:
    """The room that hops need above the row."""
    return max(arc.high for arc in arcs(hops, apart).values()) + 2 * pen(apart).room if hops else 0.0


def hop_shapes(hops: tuple[Hop, ...], at: Callable[[int], float], apart: float, y: float) -> list[AnyShape]:
    """An arc with its arrow head for each hop, as one path; `at` is where a number stands, `y` where the row begins."""
    shapes: list[AnyShape] = []
    found, drawn = arcs(hops, apart), pen(apart)
    for start, end in hops:
        line = found[start, end].points()
        one, other = _head(found[start, end], line, apart)
        # The pen goes out to one barb and back, so that hop and head are one line and one thing to count.
        points = tuple((at(0) + x, y - drawn.room - up) for x, up in (*line, one, line[-1], other))
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
