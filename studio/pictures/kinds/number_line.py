"""The number line."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from studio.pictures.hops import hop_shapes, hops_room
from studio.pictures.pieces import light, numeral
from studio.pictures.shapes import AnyShape, Disc, Drawing, Line
from studio.pictures.spans import SpanPicture
from studio.script.model import Count, Hop, MarkNumber

APART = 96.0
BEYOND = 46.0
TICK = 25.0
LINE = 7.0
POINT = 19.0
NUMERAL = 58.0
MARGIN = 20.0


@dataclass(frozen=True, slots=True)
class NumberLine(SpanPicture):
    """Points on a line, equally far apart; the line goes on at both ends. Marked numbers have a point on the line."""

    kind: ClassVar[str] = "number line"
    about: ClassVar[str] = "numbers on a line, equally far apart, to hop along"
    can: ClassVar[tuple[type[object], ...]] = (Hop, MarkNumber, Count)
    most: ClassVar[int] = 21

    @property
    def marks(self) -> Mapping[str, int]:
        return {"places": self.end - self.start + 1, "marked": len(self.marked), "hops": len(self.hops)}

    def _at(self, number: int) -> float:
        return MARGIN + BEYOND + (number - self.start) * APART

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        y = MARGIN + hops_room(self.hops, APART) + TICK
        width = 2 * (MARGIN + BEYOND) + (self.end - self.start) * APART
        below = y + TICK + 44
        shapes += [light(str(number), self._at(number), below, 76, 68, 16) for number in self.lit]
        shapes.append(Line(role="line", key="line", x1=MARGIN, y1=y, x2=width - MARGIN, y2=y, fill="ink", width=LINE))
        for number in self.numbers:
            x = self._at(number)
            shapes.append(
                Line(
                    role="place",
                    key=f"place {number}",
                    counts="places",
                    x1=x,
                    y1=y - TICK,
                    x2=x,
                    y2=y + TICK,
                    fill="ink",
                    width=LINE,
                )
            )
            shapes.append(numeral(f"number {number}", number, x, below, NUMERAL))
        for number in self.marked:
            shapes.append(
                Disc(
                    role="mark",
                    key=f"mark {number}",
                    counts="marked",
                    x=self._at(number),
                    y=y,
                    radius=POINT,
                    fill="first",
                )
            )
        shapes += hop_shapes(self.hops, self._at, APART, y - TICK)
        return Drawing(width, y + TICK + 86 + MARGIN, tuple(shapes), upwards=True)
