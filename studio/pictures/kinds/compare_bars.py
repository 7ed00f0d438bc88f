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

SQUARES = 20
"""The longest bar that is made of squares; where one is longer, both bars are whole and as long as their numbers say."""
UNIT = 58.0
INSIDE = 5.0
HEIGHT = 92.0
GAP = 46.0
LABEL = 120.0
MARGIN = 24.0
NUMERAL = 68.0
RING = 58.0
RING_LINE = 8.0
BESIDE = 14.0
"""From the end of the longer bar to the ring of a difference that has no room under it."""


@dataclass(frozen=True, slots=True)
class CompareBars(UnknownsPicture):
    """Two bars that begin together, and how many more one has; None is `?`. They are made of unit squares while these
    can be counted, else each is one piece.

    Place 0 is the upper number, 1 the lower, 2 the difference.
    """

    upper: int
    lower: int
    difference: int | None = None

    kind: ClassVar[str] = "compare bars"
    bare: ClassVar[bool] = True
    about: ClassVar[str] = "two bars that begin together; how many more one has is ? until it is found"
    largest: ClassVar[int] = 120

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
        asked = super(CompareBars, self).marks
        return {"upper": self.upper, "lower": self.lower, **asked} if self.squared else {"bars": 2, **asked}

    @property
    def squared(self) -> bool:
        """Whether the bars are made of squares."""
        return max(self.upper, self.lower) <= SQUARES

    def answer(self, place: int) -> int | None:
        return abs(self.upper - self.lower)

    def having(self, place: int, value: int) -> Self:
        return replace(self, difference=value)

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        rings: list[AnyShape] = []
        left = MARGIN + LABEL
        unit = UNIT if self.squared else SQUARES * UNIT / max(self.upper, self.lower)

        def number(place: int, x: float, y: float) -> None:
            shown = numeral(f"number {place}", self.values[place], x, y, NUMERAL)
            shapes.append(shown)
            if place in self.rings:
                rings.append(ring(place, shown, RING, HEIGHT / 2 - 5, RING_LINE))

        for row, (name, value) in enumerate((("upper", self.upper), ("lower", self.lower))):
            y = MARGIN + row * (HEIGHT + GAP)
            number(row, MARGIN + LABEL / 2 - 6, y + HEIGHT / 2)
            wide = UNIT - 2 * INSIDE if self.squared else value * unit
            for square in range(value if self.squared else 1):
                shapes.append(
                    Box(
                        role="unit" if self.squared else "bar",
                        key=f"{name} {square + 1}" if self.squared else name,
                        counts=name if self.squared else "bars",
                        x=left + square * UNIT + INSIDE,
                        y=y,
                        width=wide,
                        height=HEIGHT,
                        fill="second" if row else "first",
                        corner=min(wide / 2, 24.0 if row else 10.0),
                    )
                )
        longer, shorter = max(self.upper, self.lower), min(self.upper, self.lower)
        y = MARGIN + (0 if self.upper < self.lower else HEIGHT + GAP)
        # Whole bars begin where squares do, and are exactly in proportion.
        end = left + longer * unit + (-INSIDE if self.squared else INSIDE)
        more = (longer - shorter) * unit
        room = more - min(2 * INSIDE, more / 2)
        if more:
            shapes.append(
                Box(
                    role="difference",
                    key="difference",
                    x=end - room,
                    y=y,
                    width=room,
                    height=HEIGHT,
                    fill="card",
                    outline="quiet",
                    line=min(4.0, room / 2),
                    corner=min(12.0, room / 2),
                )
            )
        # A numeral that has no room in the box with a ring stands beside it.
        inside = room >= 2 * (RING + RING_LINE)
        x = end - room / 2 if inside else end + BESIDE + RING
        number(2, x, y + HEIGHT / 2)
        width = (end if inside else x + RING + RING_LINE / 2) + MARGIN
        return Drawing(width, 2 * MARGIN + 2 * HEIGHT + GAP, (*shapes, *rings))

    def description(self) -> str:
        found = "unknown" if self.difference is None else str(self.difference)
        text = f"Compare bars: {self.upper} above and {self.lower} below, the difference is {found}"
        return self.with_rings(text)
