"""Number cards."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Step, counted, either, several, with_count, within
from studio.pictures.pieces import numeral, ring_at
from studio.pictures.ringed import RingedPicture
from studio.pictures.shapes import AnyShape, Box, Drawing
from studio.script.model import Change, Circle, Count, Details, MarkNumber, NumberList, TurnOver

WIDTH = 132.0
HEIGHT = 160.0
GAP = 36.0
MARGIN = 30.0
NUMERAL = 88.0
FOOT = 14.0
"""The band that says where the foot of a card is, so that a six is no nine."""
RING = 8.0
RING_OUT = 7.0
"""How far the middle of a ring's line is from the edge of its card: two numerals are too wide for a ring inside."""
SQUARE_RING = 8.0
"""The squareness with which a ring keeps clear of the corners of its card."""
IN_A_ROW = 11
MOST = 21
LARGEST = 120


@dataclass(frozen=True, slots=True)
class Cards(RingedPicture):
    """Cards with a number each, face up until they are turned over.

    `turned` and `rings` are places; `lit` is how many cards are lit in a count.
    """

    faces: tuple[int, ...]
    turned: tuple[int, ...] = ()
    lit: int = 0

    kind: ClassVar[str] = "cards"
    bare: ClassVar[bool] = True
    about: ClassVar[str] = "cards with a number on each; a card can be turned over and its number is hidden"
    can: ClassVar[tuple[type[object], ...]] = (TurnOver, Circle, MarkNumber, Count)

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
        return tuple(self.faces[place] for place in sorted(self.turned))

    @property
    def values(self) -> tuple[int, ...]:
        return self.faces

    @property
    def numbers(self) -> tuple[int, ...]:
        return tuple(value for place, value in enumerate(self.faces) if place not in self.turned)

    @property
    def marks(self) -> Mapping[str, int]:
        return {"cards": len(self.faces), "turned": len(self.turned), "rings": len(self.rings)}

    def steps(self, change: Change) -> tuple[Step, ...]:
        match change:
            case TurnOver(value):
                places = [place for place, number in enumerate(self.faces) if number == value]
                if not places:
                    raise CannotShow(f"There is no card {value}; the cards are {either(list(map(str, self.faces)))}.")
                up = next((place for place in places if place not in self.turned), None)
                if up is not None:
                    rings = tuple(place for place in self.rings if place != up)
                    return (Step(replace(self, turned=(*self.turned, up), rings=rings, lit=0)),)
                return (Step(replace(self, turned=tuple(p for p in self.turned if p != places[0]), lit=0)),)
            case Circle(value) | MarkNumber(value):  # a card is marked by a ring
                shown = tuple(place for place in range(len(self.faces)) if place not in self.turned)
                return replace(self, lit=0).circled(value, shown)
            case Count(by):
                if by == 1:
                    return self.read()
                if 0 < by == abs(self._difference):  # said how far apart they are, two are a row as well
                    return self._numbers_said()
                return tuple(Step(replace(self, lit=said), said) for said in counted(len(self.faces), by))
            case _:
                raise self.refuse(change)

    @property
    def _difference(self) -> int:
        """By how much each number is larger than the one before; 0 where that differs. A card alone is a row by ones."""
        steps = {after - before for before, after in pairwise(self.faces)} or {1}
        return steps.pop() if len(steps) == 1 else 0

    def read(self) -> tuple[Step, ...]:
        """The steps of a count in which the numbers on the cards are said: 0 to 4, 10 to 0, or 2, 4, 6. Cards that are in no
        such row are counted by one; two are in one only if they are neighbours."""
        apart = self._difference
        return self._numbers_said() if apart and (len(self.faces) > 2 or abs(apart) == 1) else self.each()

    def _numbers_said(self) -> tuple[Step, ...]:
        return tuple(Step(replace(self, lit=lit), face) for lit, face in enumerate(self.faces, 1))

    def each(self) -> tuple[Step, ...]:
        """The steps of a count that tells how many cards there are."""
        return tuple(Step(replace(self, lit=lit), lit) for lit in counted(len(self.faces), 1))

    def drawing(self) -> Drawing:
        rows = ceil(len(self.faces) / IN_A_ROW)
        columns = ceil(len(self.faces) / rows)
        shapes: list[AnyShape] = []
        rings: list[AnyShape] = []
        for place, value in enumerate(self.faces):
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
            shapes.append(
                Box(
                    role="foot",
                    key=f"foot {place}",
                    x=x + 6,
                    y=y + HEIGHT - 6 - FOOT,
                    width=WIDTH - 12,
                    height=FOOT,
                    fill="light",
                    corner=0,
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
                middle = y + (HEIGHT - FOOT) / 2
                shapes.append(numeral(f"number {place}", value, x + WIDTH / 2, middle, NUMERAL, three=0.58))
            if place in self.rings:
                rx, ry = WIDTH / 2 + RING_OUT, HEIGHT / 2 + RING_OUT
                rings.append(ring_at(place, x + WIDTH / 2, y + HEIGHT / 2, rx, ry, RING, SQUARE_RING))
        return Drawing(
            2 * MARGIN + columns * WIDTH + (columns - 1) * GAP,
            2 * MARGIN + rows * HEIGHT + (rows - 1) * GAP,
            (*shapes, *rings),
        )

    def description(self) -> str:
        text = f"{several(len(self.faces), 'card').capitalize()}: "
        text += either(list(map(str, self.numbers))) or "none face up"
        if self.turned:
            text += f"; {len(self.turned)} turned over"
        return with_count(self.with_rings(text), self.lit)
