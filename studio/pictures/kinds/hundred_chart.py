"""The hundred chart."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar

from studio.pictures.base import CannotShow, Step, either
from studio.pictures.pieces import light, numeral, ring, square
from studio.pictures.shapes import AnyShape, Box, Drawing, Ink
from studio.pictures.spans import SpanPicture
from studio.script.model import Change, Circle, Count, MarkNumber

SQUARE = 84.0
LINE = 5.0
NUMERAL = 50.0
MARGIN = 16.0
IN_MARK = SQUARE - 26.0
IN_RING = SQUARE - 31.0
"""The greatest width of a numeral on a filled square, and in a ring."""


@dataclass(frozen=True, slots=True)
class HundredChart(SpanPicture):
    """Numbers in rows of ten, each ten under the ten before; marked squares are filled. `rings` holds numbers."""

    rings: tuple[int, ...] = ()

    kind: ClassVar[str] = "hundred chart"
    about: ClassVar[str] = "numbers in rows of ten"
    can: ClassVar[tuple[type[object], ...]] = (Circle, MarkNumber, Count)
    most: ClassVar[int] = 120

    @property
    def ringed(self) -> tuple[int, ...]:
        """The numbers that have a ring."""
        return self.rings

    @property
    def marks(self) -> Mapping[str, int]:
        return {"places": self.end - self.start + 1, "marked": len(self.marked), "rings": len(self.rings)}

    def steps(self, change: Change) -> tuple[Step, ...]:
        if not isinstance(change, Circle):
            return super(HundredChart, self).steps(change)
        self._on(change.value)
        if change.value in self.rings:
            raise CannotShow(f"The {change.value} on the hundred chart has its ring already.")
        return (Step(replace(self, rings=(*self.rings, change.value), lit=())),)

    def _middle(self, number: int) -> tuple[float, float]:
        first = 0 if self.start == 0 else 1
        row, column = divmod(number - first, 10)
        row -= (self.start - first) // 10
        left = 0 if self._rows() > 1 else (self.start - first) % 10
        return (MARGIN + LINE / 2 + (column - left + 0.5) * SQUARE, MARGIN + LINE / 2 + (row + 0.5) * SQUARE)

    def _rows(self) -> int:
        first = 0 if self.start == 0 else 1
        return (self.end - first) // 10 - (self.start - first) // 10 + 1

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        rings: list[AnyShape] = []
        for number in self.numbers:
            x, y = self._middle(number)
            marked = number in self.marked
            shapes.append(square(number, x, y, SQUARE, LINE, "places"))
            if number in self.lit:
                shapes.append(light(str(number), x, y, SQUARE - 10, SQUARE - 10, 12))
            if marked:
                # Round where it has a ring, so that it stays whole inside it.
                ringed = number in self.rings
                half = SQUARE / 2 - (13 if ringed else 9)
                shapes.append(
                    Box(
                        role="mark",
                        key=f"mark {number}",
                        counts="marked",
                        x=x - half,
                        y=y - half,
                        width=2 * half,
                        height=2 * half,
                        fill="first",
                        corner=21 if ringed else 9,
                    )
                )
            fill: Ink = "card" if marked else "ink"
            room = IN_RING if number in self.rings else IN_MARK if marked else SQUARE
            size = NUMERAL * (0.84 if marked and number in self.rings else 1.0)
            shown = numeral(f"number {number}", number, x, y, size, fill=fill, room=room)
            shapes.append(shown)
            if number in self.rings:
                rings.append(ring(number, shown, SQUARE / 2 - 5, SQUARE / 2 - 5, 6))
        columns = 10 if self._rows() > 1 else len(self.numbers)
        return Drawing(
            2 * MARGIN + LINE + columns * SQUARE, 2 * MARGIN + LINE + self._rows() * SQUARE, (*shapes, *rings)
        )

    def description(self) -> str:
        text = super(HundredChart, self).description()
        return text + (f"; ring round {either([str(number) for number in self.rings])}" if self.rings else "")
