"""Hops over a row of numbers."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import atan2, ceil, copysign, cos, dist, floor, pi, pow, sin, sqrt

import numpy as np
from numpy.typing import NDArray

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
STEEPER = 1.5
"""How many times as high as it would be a hop may get to be over another, before its ends are lifted."""
NOTHING = 1e-9
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
        low, top = min(hop), max(hop)
        under = tuple((one, arc) for one, arc in found.items() if low <= min(one) and max(one) <= top)
        found[hop] = _arc_over(hop, under, apart)
    return found


@lru_cache(maxsize=1024)
def _arc_over(hop: Hop, under: tuple[tuple[Hop, Arc], ...], apart: float) -> Arc:
    """How a hop goes over all those under it. Kept, since in a chain of changes one hop comes and all others stay as they are."""
    length = abs(hop[1] - hop[0]) * apart - 2 * pen(apart).inset
    alone = min(HIGHEST, 44 + length * 0.22, 34 + length)
    inside = [(one, arc) for one, arc in under if min(hop) < min(one) and max(one) < max(hop)]
    high = max([alone, *(_over(hop, one, arc.high, apart) for one, arc in inside if not any(arc.lifts))])
    return _clear_of(hop, under, apart, high) if under else _arc(hop, apart, (0.0, 0.0), high)


def _meets(hop: Hop, other: Hop, end: int) -> bool:
    """Whether the beginning (0) or the end (1) of a hop is at the same side of the same number as one of another's."""
    number, way = hop[end], hop[1 - end] > hop[end]
    return any(other[at] == number and (other[1 - at] > number) is way for at in (0, 1))


def _clear_of(hop: Hop, under: Sequence[tuple[Hop, Arc]], apart: float, high: float) -> Arc:
    """The arc with the lowest ends that keeps clear of those under it, heads and all, and is at least so `high`, but hardly
    higher if it can; only an end that it shares with one of them is lifted."""
    first, last = (any(_meets(hop, other, end) for other, _ in under) for end in (0, 1))
    left, roof = _joined([_roof(arc, apart) for _, arc in under])
    across = left + np.arange(len(roof))

    # Each height of the line is the sum of a share of the lift and a share of its own height at the top.
    flat, lifted = (np.array(_arc(hop, apart, lifts, top).points()) for lifts, top in (((0, 0), 1), ((first, last), 0)))
    way = 1 if hop[1] > hop[0] else -1
    of_high, of_lift = (np.interp(across, line[::way, 0], line[::way, 1]) for line in (flat, lifted))
    begin, end = floor(flat[:, 0].min()), ceil(flat[:, 0].max())
    met = np.isfinite(roof) & (begin <= across) & (across <= end) & (of_high + of_lift > NOTHING)
    of_high = np.maximum(of_high, NOTHING)

    def needed(lift: float) -> float:
        return float(((roof[met] - lift * of_lift[met]) / of_high[met]).max(initial=0.0))

    def least(lift: float) -> float:
        return max(high, lift + 0.75 * min(high, HIGHEST))

    ends = [0.0]
    if first or last:
        ends = [LIFT * step for step in range(ceil((roof.max() + 2 * HEAD) / LIFT) + 1)]
    # The higher the ends, the lower the top can be, so halving finds the first that do.
    at = bisect_left(ends, True, key=lambda lift: needed(lift) <= max(STEEPER * high, least(lift)))
    for lift in ends[min(at, len(ends) - 1) :]:
        arc = _arc(hop, apart, (lift * first, lift * last), max(least(lift), needed(lift)))
        x, y = np.array(_head_points(arc, arc.points(), apart)).T
        if not last or (y >= roof[np.clip(np.rint(x).astype(int) - left, 0, len(roof) - 1)]).all():
            break
    return arc


Roof = tuple[int, NDArray[np.float64]]
"""How high a line must be, at least, to be clear of what is under it: at whole units across, from the first of them on."""


@lru_cache(maxsize=512)
def _roof(arc: Arc, apart: float) -> Roof:
    """The roof over all that is drawn of an arc, its line and its head: as far from it as two hops are apart at least."""
    drawn = pen(apart)
    near = drawn.width + AIR * (0.6 if drawn.close else 1.0) + 0.5  # half a unit, since x is rounded
    reach = int(near) + 1  # nothing is under its first and last unit
    line = arc.points()
    x, y = np.array([*line, *_head_points(arc, line, apart)]).T
    left = round(x.min()) - reach
    tops = np.full(round(x.max()) + reach + 1 - left, -np.inf)
    np.maximum.at(tops, np.rint(x).astype(int) - left, y)
    across = left + np.arange(len(tops))
    rising = np.array(line if arc.x1 < arc.x2 else line[::-1])
    tops = np.maximum(tops, np.interp(across, rising[:, 0], rising[:, 1], -np.inf, -np.inf))
    roof = np.full_like(tops, -np.inf)
    for off in range(1 - reach, reach):
        here, there = slice(max(0, off), len(tops) + min(0, off)), slice(max(0, -off), len(tops) - max(0, off))
        roof[here] = np.maximum(roof[here], tops[there] + sqrt(near**2 - off**2))
    return left, roof


def _joined(roofs: Sequence[Roof]) -> Roof:
    """One roof over all."""
    left = min(at for at, _ in roofs)
    joined = np.full(max(at + len(roof) for at, roof in roofs) - left, -np.inf)
    for at, roof in roofs:
        part = joined[at - left : at - left + len(roof)]
        np.maximum(part, roof, out=part)
    return left, joined


def _head_points(arc: Arc, line: Sequence[Point], apart: float) -> list[Point]:
    """Points along its arrow head, closely."""
    tip = line[-1]
    return [
        (tip[0] + (x - tip[0]) * part / 8, tip[1] + (y - tip[1]) * part / 8)
        for x, y in _head(arc, line, apart)
        for part in range(9)
    ]


def _head(arc: Arc, line: Sequence[Point], apart: float) -> tuple[Point, Point]:
    """The ends of the two barbs of its arrow head."""
    long = min(HEAD, 5 + abs(arc.x2 - arc.x1) * 0.36)
    (x4, y4), (x3, y3) = line[-1], _before(line, long)
    angle = atan2(y4 - y3, x4 - x3)
    drawn, way = pen(apart), copysign(1, arc.x2 - arc.x1)
    # Neither barb reaches past the middle of the number, where the next hop may begin, nor back to that of the number before,
    # where another may end.
    most, least = drawn.inset - drawn.width / 2 - 0.5, drawn.inset + drawn.width / 2 + 1 - apart
    barbs: list[Point] = []
    for turn in (pi * 0.83, -pi * 0.83):
        beyond = min(most, max(least, way * long * cos(angle + turn)))
        barbs.append((x4 + way * beyond, y4 + copysign(sqrt(long**2 - beyond**2), sin(angle + turn))))
    return barbs[0], barbs[1]


@lru_cache(maxsize=4096)
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
