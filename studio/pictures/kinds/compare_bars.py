"""Two bars to compare."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Picture, Step, either, within
from studio.pictures.metrics import CAPITAL
from studio.pictures.shapes import AnyShape, Box, Drawing, Ring, Words
from studio.pictures.unknowns import choose
from studio.script.model import Change, Circle, Details, FillIn, NumberList

UNIT = 58.0
INSIDE = 5.0
HEIGHT = 84.0
GAP = 46.0
LABEL = 120.0
MARGIN = 24.0
NUMERAL = 68.0
LARGEST = 20


@dataclass(frozen=True, slots=True)
class CompareBars(Picture):
    """Two bars of unit squares that begin together, and how many more one has; None is `?`.

    `rings` are places: 0 is the upper number, 1 the lower, 2 the difference.
    """

    upper: int
    lower: int
    difference: int | None = None
    rings: tuple[int, ...] = ()

    kind: ClassVar[str] = "compare bars"
    about: ClassVar[str] = "two bars that begin together; how many more one has is ? until it is found"
    can: ClassVar[tuple[type[object], ...]] = (FillIn, Circle)

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, NumberList):
            raise cls.misfit(details)
        if len(details.values) != 2:
            raise CannotShow(f"Compare bars compare two numbers, so they cannot show {len(details.values)}.")
        for value in details.values:
            within("A compare bar", value, 1, LARGEST)
        upper, lower = details.values
        return cls(upper, lower)

    @property
    def values(self) -> tuple[int | None, ...]:
        """The upper number, the lower, the difference; None is `?`."""
        return (self.upper, self.lower, self.difference)

    @property
    def holds(self) -> bool | None:
        """Whether the difference that is shown is right; None while it is open."""
        return None if self.difference is None else self.difference == abs(self.upper - self.lower)

    @property
    def ringed(self) -> tuple[int, ...]:
        """The numbers that have a ring."""
        return tuple(value for place in self.rings if (value := self.values[place]) is not None)

    @property
    def numbers(self) -> tuple[int, ...]:
        return tuple(value for value in self.values if value is not None)

    @property
    def marks(self) -> Mapping[str, int]:
        unknowns = int(self.difference is None)
        return {"upper": self.upper, "lower": self.lower, "unknowns": unknowns, "rings": len(self.rings)}

    def steps(self, change: Change) -> tuple[Step, ...]:
        match change:
            case FillIn(given):
                if given is not None:
                    within("The difference", given, 0, LARGEST)
                open_ones = [abs(self.upper - self.lower)] if self.difference is None else []
                return (Step(replace(self, difference=choose(open_ones, given, self.kind)[1])),)
            case Circle(wanted):
                places = [p for p, value in enumerate(self.values) if value == wanted and p not in self.rings]
                if not places:
                    seen = either([str(number) for number in self.numbers])
                    raise CannotShow(f"There is no {wanted} to circle; the compare bars show {seen}.")
                return (Step(replace(self, rings=(*self.rings, max(places)))),)
            case _:
                raise self.refuse(change)

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        rings: list[AnyShape] = []
        left = MARGIN + LABEL

        def number(place: int, x: float, y: float) -> None:
            value = self.values[place]
            shapes.append(
                Words(
                    role="unknown" if value is None else "numeral",
                    key=f"number {place}",
                    counts="unknowns" if value is None else "",
                    x=x,
                    y=y + CAPITAL / 2 * NUMERAL,
                    text="?" if value is None else str(value),
                    size=NUMERAL,
                    fill="quiet" if value is None else "ink",
                    face="numeral",
                )
            )
            if place in self.rings:
                rings.append(
                    Ring(role="ring", key=f"ring {place}", counts="rings", x=x, y=y, rx=50, ry=37, fill="ring", width=8)
                )

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
        room = max(110.0, (longer - shorter) * UNIT - 2 * INSIDE)
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
        return text + (f"; ring round {either([str(value) for value in self.ringed])}" if self.rings else "")
