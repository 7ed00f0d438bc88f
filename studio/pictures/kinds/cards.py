"""Number cards."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import ceil
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Picture, Step, counted, either, several, within
from studio.pictures.metrics import CAPITAL
from studio.pictures.shapes import AnyShape, Box, Drawing, Line, Ring, Words
from studio.script.model import Change, Circle, Count, Details, NumberList, TurnOver

WIDTH = 120.0
HEIGHT = 160.0
GAP = 34.0
MARGIN = 30.0
NUMERAL = 88.0
IN_A_ROW = 11
MOST = 21
LARGEST = 120


@dataclass(frozen=True, slots=True)
class Cards(Picture):
    """Cards with a number each, face up until they are turned over.

    `turned`, `lit` and `rings` are places in `values`, counted from 0.
    """

    values: tuple[int, ...]
    turned: tuple[int, ...] = ()
    rings: tuple[int, ...] = ()
    lit: int = 0

    kind: ClassVar[str] = "cards"
    about: ClassVar[str] = "cards with a number on each; a card can be turned over and its number is hidden"
    can: ClassVar[tuple[type[object], ...]] = (TurnOver, Circle, Count)

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, NumberList):
            raise cls.misfit(details)
        if not 1 <= len(details.values) <= MOST:
            raise CannotShow(f"There is room for 1 to {MOST} cards, so {len(details.values)} cannot be shown.")
        for value in details.values:
            within("A card", value, 0, LARGEST)
        return cls(details.values)

    @property
    def hidden(self) -> tuple[int, ...]:
        """The numbers of the cards that are turned over."""
        return tuple(self.values[place] for place in sorted(self.turned))

    @property
    def ringed(self) -> tuple[int, ...]:
        """The numbers that have a ring."""
        return tuple(self.values[place] for place in self.rings)

    @property
    def numbers(self) -> tuple[int, ...]:
        return tuple(value for place, value in enumerate(self.values) if place not in self.turned)

    @property
    def marks(self) -> Mapping[str, int]:
        return {"cards": len(self.values), "turned": len(self.turned), "rings": len(self.rings)}

    def steps(self, change: Change) -> tuple[Step, ...]:
        match change:
            case TurnOver(value):
                places = [place for place, number in enumerate(self.values) if number == value]
                if not places:
                    raise CannotShow(f"There is no card {value}; the cards are {either(list(map(str, self.values)))}.")
                up = next((place for place in places if place not in self.turned), None)
                if up is not None:
                    rings = tuple(place for place in self.rings if place != up)
                    return (Step(replace(self, turned=(*self.turned, up), rings=rings, lit=0)),)
                return (Step(replace(self, turned=tuple(p for p in self.turned if p != places[0]), lit=0)),)
            case Circle(value):
                places = [p for p, n in enumerate(self.values) if n == value and p not in (*self.turned, *self.rings)]
                if not places:
                    raise CannotShow(
                        f"There is no card {value} face up to circle; face up are "
                        f"{either(list(map(str, self.numbers))) or 'none'}."
                    )
                return (Step(replace(self, rings=(*self.rings, places[0]), lit=0)),)
            case Count(by):
                said = counted(len(self.values), by)
                names: tuple[int, ...] = said
                if by == 1 and self._runs():
                    names = self.values
                return tuple(Step(replace(self, lit=lit), name) for lit, name in zip(said, names, strict=True))
            case _:
                raise self.refuse(change)

    def _runs(self) -> bool:
        return self.values == tuple(range(self.values[0], self.values[0] + len(self.values)))

    def drawing(self) -> Drawing:
        rows = ceil(len(self.values) / IN_A_ROW)
        columns = ceil(len(self.values) / rows)
        shapes: list[AnyShape] = []
        rings: list[AnyShape] = []
        for place, value in enumerate(self.values):
            row, column = divmod(place, columns)
            x, y = MARGIN + column * (WIDTH + GAP), MARGIN + row * (HEIGHT + GAP)
            lit = place < self.lit
            shapes.append(
                Box(
                    role="card",
                    key=f"card {place}",
                    counts="cards",
                    x=x,
                    y=y,
                    width=WIDTH,
                    height=HEIGHT,
                    fill="light" if lit else "card",
                    outline="ink",
                    line=6,
                    corner=16,
                )
            )
            if place in self.turned:
                shapes.append(
                    Box(
                        role="back",
                        key=f"back {place}",
                        counts="turned",
                        x=x + 18,
                        y=y + 18,
                        width=WIDTH - 36,
                        height=HEIGHT - 36,
                        fill="first",
                        corner=8,
                    )
                )
            else:
                shapes.append(
                    Words(
                        role="numeral",
                        key=f"number {place}",
                        x=x + WIDTH / 2,
                        y=y + HEIGHT / 2 + CAPITAL / 2 * NUMERAL,
                        text=str(value),
                        size=NUMERAL if value < 100 else NUMERAL * 0.62,
                        fill="ink",
                        face="numeral",
                    )
                )
                if value in (6, 9, 66, 99):
                    # A line below tells a six from a nine that lies upside down.
                    shapes.append(
                        Line(
                            role="base",
                            key=f"base {place}",
                            x1=x + 38,
                            y1=y + HEIGHT - 27,
                            x2=x + WIDTH - 38,
                            y2=y + HEIGHT - 27,
                            fill="ink",
                            width=5,
                        )
                    )
            if place in self.rings:
                rings.append(
                    Ring(
                        role="ring",
                        key=f"ring {place}",
                        counts="rings",
                        x=x + WIDTH / 2,
                        y=y + HEIGHT / 2,
                        rx=WIDTH / 2 - 10,
                        ry=HEIGHT / 2 - 22,
                        fill="ring",
                        width=9,
                    )
                )
        return Drawing(
            2 * MARGIN + columns * WIDTH + (columns - 1) * GAP,
            2 * MARGIN + rows * HEIGHT + (rows - 1) * GAP,
            (*shapes, *rings),
        )

    def description(self) -> str:
        text = f"{several(len(self.values), 'card').capitalize()}: "
        text += either(list(map(str, self.numbers))) or "none face up"
        if self.turned:
            text += f"; {len(self.turned)} turned over"
        return text + (f"; ring round {either(list(map(str, self.ringed)))}" if self.rings else "")
