"""Two bars to compare."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, within
from studio.pictures.pieces import numeral, ring
from studio.pictures.ringed import UnknownsPicture
from studio.pictures.shapes import AnyShape, Box, Drawing
from studio.script.model import Details, NumberList

UNIT = 58.0
INSIDE = 5.0
HEIGHT = 92.0
GAP = 46.0
LABEL = 120.0
MARGIN = 24.0
NUMERAL = 68.0
RING = 54.0


@dataclass(frozen=True, slots=True)
class CompareBars(UnknownsPicture):
    """Two bars of unit squares that begin together, and how many more one has; None is `?`.

    Place 0 is the upper number, 1 the lower, 2 the difference.
    """

    upper: int
    lower: int
    difference: int | None = None

    kind: ClassVar[str] = "compare bars"
    bare: ClassVar[bool] = True
    about: ClassVar[str] = "two bars that begin together; how many more one has is ? until it is found"
    largest: ClassVar[int] = 20

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, NumberList):
            raise cls.misfit(details)
        if len(details.values) != 2:
            raise CannotShow(f"Compare bars compare two numbers, so they cannot show {len(details.values)}.")
        for value in details.values:
            within("A compare bar", value, 1, cls.largest)
        upper, lower = details.values
        return cls(upper, lower)

    @classmethod
    def takes(cls, value: int) -> None:
        within("The difference", value, 0, cls.largest)

    @property
    def values(self) -> tuple[int | None, ...]:
        return (self.upper, self.lower, self.difference)

    @property
    def holds(self) -> bool | None:
        """Whether the difference that is shown is right; None while it is open."""
        return None if self.difference is None else self.difference == abs(self.upper - self.lower)

    @property
    def marks(self) -> Mapping[str, int]:
        return {"upper": self.upper, "lower": self.lower, **super(CompareBars, self).marks}

    def answer(self, place: int) -> int | None:
        return abs(self.upper - self.lower)

    def having(self, place: int, value: int) -> Self:
        return replace(self, difference=value)

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        rings: list[AnyShape] = []
        left = MARGIN + LABEL

        def number(place: int, x: float, y: float) -> None:
            shapes.append(numeral(f"number {place}", self.values[place], x, y, NUMERAL))
            if place in self.rings:
                rings.append(ring(place, x, y, RING, HEIGHT / 2 - 5, 8))

        for row, (name, value) in enumerate((("upper", self.upper), ("lower", self.lower))):
            y = MARGIN + row * (HEIGHT + GAP)
            number(row, MARGIN + LABEL / 2 - 6, y + HEIGHT / 2)
            for square in range(value):
                shapes.append(
                    Box(
                        role="unit",
                        key=f"{name} {square + 1}",
                        counts=name,
                        x=left + square * UNIT + INSIDE,
                        y=y,
                        width=UNIT - 2 * INSIDE,
                        height=HEIGHT,
                        fill="second" if row else "first",
                        corner=10 if not row else 24,
                    )
                )
        longer, shorter = max(self.upper, self.lower), min(self.upper, self.lower)
        y = MARGIN + (0 if self.upper < self.lower else HEIGHT + GAP)
        room = max(2 * RING + 24, (longer - shorter) * UNIT - 2 * INSIDE)
        at = left + shorter * UNIT + INSIDE
        shapes.append(
            Box(
                role="difference",
                key="difference",
                x=at,
                y=y,
                width=room,
                height=HEIGHT,
                fill="card",
                outline="quiet",
                line=4,
                corner=12,
            )
        )
        number(2, at + room / 2, y + HEIGHT / 2)
        width = max(left + longer * UNIT, at + room) + MARGIN
        return Drawing(width, 2 * MARGIN + 2 * HEIGHT + GAP, (*shapes, *rings))

    def description(self) -> str:
        found = "unknown" if self.difference is None else str(self.difference)
        text = f"Compare bars: {self.upper} above and {self.lower} below, the difference is {found}"
        return self.with_rings(text)
