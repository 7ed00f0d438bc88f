"""The number path."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from studio.pictures.hops import hop_shapes, hops_room
from studio.pictures.pieces import light, numeral, square
from studio.pictures.shapes import AnyShape, Box, Drawing, Ink
from studio.pictures.spans import SpanPicture
from studio.script.model import Count, Hop, MarkNumber

SQUARE = 92.0
LINE = 6.0
NUMERAL = 58.0
MARGIN = 14.0
IN = 9.0
"""How far the filled square of a mark is inside the square of its number."""
THREE = 0.6
"""How large a number of three digits is set beside those of two, so that it fits the filled square of a mark."""


@dataclass(frozen=True, slots=True)
class NumberPath(SpanPicture):
    """Squares with a number each, in a row; hops go over them, marked squares are filled."""

    kind: ClassVar[str] = "number path"
    about: ClassVar[str] = "numbered squares in a row, to hop along"
    can: ClassVar[tuple[type[object], ...]] = (Hop, MarkNumber, Count)
    most: ClassVar[int] = 21

    @property
    def marks(self) -> Mapping[str, int]:
        return {"places": self.end - self.start + 1, "marked": len(self.marked), "hops": len(self.hops)}

    def _middle(self, number: int) -> float:
        return MARGIN + (number - self.start + 0.5) * SQUARE

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        top = MARGIN + hops_room(self.hops, SQUARE)
        middle = top + (SQUARE + LINE) / 2
        for number in self.numbers:
            x, marked = self._middle(number), number in self.marked
            shapes.append(square(number, x, middle, SQUARE, LINE, "places"))
            if number in self.lit:
                shapes.append(light(str(number), x, middle, SQUARE - 12, SQUARE - 12, 14))
            if marked:
                shapes.append(
                    Box(
                        role="mark",
                        key=f"mark {number}",
                        counts="marked",
                        x=x - SQUARE / 2 + IN,
                        y=top + LINE / 2 + IN,
                        width=SQUARE - 2 * IN,
                        height=SQUARE - 2 * IN,
                        fill="first",
                        corner=12,
                    )
                )
            fill: Ink = "card" if marked else "ink"
            shapes.append(numeral(f"number {number}", number, x, middle, NUMERAL, fill=fill, three=THREE))
        shapes += hop_shapes(self.hops, self._middle, SQUARE, top)
        width = (self.end - self.start + 1) * SQUARE + 2 * MARGIN
        return Drawing(width, top + SQUARE + LINE + MARGIN, tuple(shapes), upwards=True)
