"""The number line."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import chain, pairwise
from typing import ClassVar

from studio.pictures.hops import hop_shapes, hops_room
from studio.pictures.kinds.number_line_numerals import Label, labels, wide
from studio.pictures.pieces import THREE_DIGITS, light, numeral
from studio.pictures.shapes import AnyShape, Box, Disc, Drawing, Line, Path
from studio.pictures.spans import SpanPicture
from studio.script.model import Count, Hop, MarkNumber

APART = 96.0
BEYOND = 46.0
TICK = 25.0
LINE = 7.0
POINT = 19.0
NUMERAL = 58.0
MARGIN = 20.0

SPACIOUS = 20
"""The longest line on which every number has its numeral; a longer one is as wide, and its numbers stand closer."""
BY_FIVES = 50
"""The longest line that is numbered by fives; a longer one is numbered by tens."""
LONG_TICK = 34.0
FIVE_TICK = 27.0
"""The tick of a five between tens."""
SHORT_TICK = 21.0
"""Longer than a point's radius, so that a tick can be counted where a point is on it."""
CLOSE_POINT = 16.0
CLOSE_LINE = 5.5
SECOND_ROW = 84.0
"""How far the second row of numerals is below the first."""


@dataclass(frozen=True, slots=True)
class NumberLine(SpanPicture):
    """Points on a line, equally far apart; the line goes on at both ends. Marked numbers have a point on the line.

    Each number has its tick. On a line longer than `SPACIOUS`, numerals and long ticks are at every 5 or 10, at the ends
    and, as far as there is room, at what is marked, hopped to or counted last.
    """

    kind: ClassVar[str] = "number line"
    about: ClassVar[str] = "numbers on a line, equally far apart, to hop along"
    can: ClassVar[tuple[type[object], ...]] = (Hop, MarkNumber, Count)
    most: ClassVar[int] = 121

    @property
    def every(self) -> int:
        """Which numbers have their numeral always: each, or the multiples of 5 or 10."""
        length = self.end - self.start
        return 1 if length <= SPACIOUS else 5 if length <= BY_FIVES else 10

    @property
    def numbers(self) -> tuple[int, ...]:
        return tuple(label.number for label in self._labels())

    @property
    def marks(self) -> Mapping[str, int]:
        return {"places": self.end - self.start + 1, "marked": len(self.marked), "hops": len(self.hops)}

    @property
    def _apart(self) -> float:
        return APART if self.every == 1 else SPACIOUS * APART / (self.end - self.start)

    def _at(self, number: int) -> float:
        return MARGIN + BEYOND + (number - self.start) * self._apart

    def _labels(self) -> tuple[Label, ...]:
        if self.every == 1:
            return tuple(Label(number, self._at(number)) for number in range(self.start, self.end + 1))
        landings = list(chain.from_iterable(self.hops))
        times = Counter(landings)
        # Where a way of several hops begins and ends is wanted more than what it only touches.
        turns = [number for number in reversed(landings) if times[number] == 1]
        leaps = [number for hop in reversed(self.hops) if abs(hop[1] - hop[0]) > 1 for number in hop]
        wanted = (*reversed(self.marked), *self.lit[-1:], *turns, *leaps)
        ends = (self.start, self.end)
        return labels(ends, self.every, wanted, sorted(set(landings) - set(wanted)), self._at, NUMERAL)

    def _is_five(self, number: int) -> bool:
        return number % 5 == 0 and number not in self.marked

    def _point(self) -> float:
        """The radius of the points: as large as the two that are nearest to each other allow."""
        if self.every == 1:
            return POINT
        nearest = min((b - a for a, b in pairwise(sorted(self.marked))), default=self.end - self.start)
        return min(CLOSE_POINT, 0.43 * self._apart * nearest)

    def drawing(self) -> Drawing:
        close = self.every > 1
        long, apart, line = (LONG_TICK, self._apart, CLOSE_LINE) if close else (TICK, APART, LINE)
        shown = self._labels()
        reached = {*chain.from_iterable(self.hops), *(label.number for label in shown)}
        if close:  # what a point leaves of its tick is small, else it would look like a 1
            reached -= set(self.marked)
        y = MARGIN + hops_room(self.hops, apart) + long
        width = self._at(self.end) + BEYOND + MARGIN
        below = y + long + 44
        shapes: list[AnyShape] = []
        for label in shown:
            if label.number in self.lit:
                around = max(76.0, wide(label.number, NUMERAL) + 12) if close else 76.0
                shapes.append(light(str(label.number), label.x, self._row(label, below), around, 68, 16))
        if close:
            shapes += [self._lit_tick(number, y) for number in self.lit]
        shapes.append(Line(role="line", key="line", x1=MARGIN, y1=y, x2=width - MARGIN, y2=y, fill="ink", width=LINE))
        for number in range(self.start, self.end + 1):
            x = self._at(number)
            tick = long if number in reached else FIVE_TICK if self._is_five(number) else SHORT_TICK
            shapes.append(
                Line(
                    role="place",
                    key=f"place {number}",
                    counts="places",
                    x1=x,
                    y1=y - tick,
                    x2=x,
                    y2=y + tick,
                    fill="ink",
                    width=line,
                )
            )
        shapes += [
            self._thread(label, y + (long if label.number in reached else SHORT_TICK), below)
            for label in shown
            if label.lane is not None
        ]
        three = 1.0 if close else THREE_DIGITS
        for label in shown:
            key, y_of = f"number {label.number}", self._row(label, below)
            shapes.append(numeral(key, label.number, label.x, y_of, NUMERAL, three=three))
        for number in self.marked:
            shapes.append(
                Disc(
                    role="mark",
                    key=f"mark {number}",
                    counts="marked",
                    x=self._at(number),
                    y=y,
                    radius=self._point(),
                    fill="first",
                )
            )
        shapes += hop_shapes(self.hops, self._at, apart, y - long)
        # The second row has its room from the beginning, for the line stays where it is when a numeral comes.
        height = below + 42 + MARGIN + (SECOND_ROW if close else 0.0)
        return Drawing(width, height, tuple(shapes), upwards=True)

    @staticmethod
    def _row(label: Label, below: float) -> float:
        return below if label.lane is None else below + SECOND_ROW

    def _lit_tick(self, number: int, y: float) -> Box:
        """The light behind a tick; those of neighbours make one band."""
        return Box(
            role="light",
            key=f"light tick {number}",
            x=self._at(number) - self._apart / 2,
            y=y - LONG_TICK,
            width=self._apart,
            height=2 * LONG_TICK,
            fill="light",
        )

    def _thread(self, label: Label, foot: float, below: float) -> Path:
        """From the foot of a tick, past the first row, to a numeral of the second."""
        lane = label.lane if label.lane is not None else label.x
        points = (
            (self._at(label.number), foot + 4),
            (lane, below - 24),
            (lane, below + 24),
            (label.x, below + SECOND_ROW - 26),
        )
        return Path(role="thread", key=f"thread {label.number}", points=points, fill="quiet", width=4)

    def description(self) -> str:
        said = super(NumberLine, self).description()
        if self.every == 1:
            return said
        whole = f"{self.kind.capitalize()} from {self.start} to {self.end}"
        return said.replace(whole, f"{whole}, numbered by {'fives' if self.every == 5 else 'tens'}", 1)
