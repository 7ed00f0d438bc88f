"""The rekenrek: two rows of ten beads."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Picture, Step, counted, is_or_are, several, with_count, within
from studio.pictures.pieces import light
from studio.pictures.shapes import AnyShape, Box, Disc, Drawing, Line
from studio.script.model import Add, Change, Count, Details, NumberList, TakeAway

BEAD = 35.0
PITCH = 78.0
FREE = 3.2 * PITCH
POST = 26.0
MARGIN = 14.0
ROW = 130.0
WIDTH = 2 * (MARGIN + POST + 12) + 10 * PITCH + FREE
LIGHT = 37.5


@dataclass(frozen=True, slots=True)
class Rekenrek(Picture):
    """`upper` and `lower` are the beads pushed to the left; `lit` is how many of them are lit in a count.

    In each row five beads are full and five are open, so that five and ten are seen without counting.
    """

    upper: int
    lower: int = 0
    lit: int = 0

    kind: ClassVar[str] = "rekenrek"
    about: ClassVar[str] = "two rows of ten beads; those that are pushed to the left count"
    can: ClassVar[tuple[type[object], ...]] = (Add, TakeAway, Count)

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, NumberList):
            raise cls.misfit(details)
        if not 1 <= len(details.values) <= 2:
            raise CannotShow(f"A rekenrek has two rows, so it cannot show {len(details.values)} numbers.")
        for value in details.values:
            within("A row of a rekenrek", value, 0, 10)
        return cls(*details.values)

    @property
    def total(self) -> int:
        """All beads that are pushed."""
        return self.upper + self.lower

    @property
    def numbers(self) -> tuple[int, ...]:
        return (self.upper, self.lower, self.total) if self.upper and self.lower else (self.total,)

    @property
    def marks(self) -> Mapping[str, int]:
        return {"upper": self.upper, "lower": self.lower, "waiting": 20 - self.total}

    def steps(self, change: Change) -> tuple[Step, ...]:
        match change:
            case Add(count, _, counting):
                within("A rekenrek", self.total + count, 0, 20)
                pictures = [self._with(more) for more in range(1, count + 1)] or [self]
            case TakeAway(count, counting):
                if count > self.total:
                    pushed = f"{several(self.total, 'bead')} {is_or_are(self.total)} pushed"
                    raise CannotShow(f"Only {pushed}, so {count} cannot be taken away.")
                pictures = [self._without(fewer) for fewer in range(1, count + 1)] or [self]
            case Count(by):
                return tuple(Step(replace(self, lit=said), said) for said in counted(self.total, by))
            case _:
                raise self.refuse(change)
        if counting and count:
            return tuple(Step(picture, picture.total) for picture in pictures)
        return (Step(replace(pictures[-1], lit=0)),)

    def _with(self, more: int) -> Self:
        """More beads in the row that was begun last, then in the other."""
        if self.lower:
            lower = min(10, self.lower + more)
            return replace(self, upper=self.total + more - lower, lower=lower, lit=0)
        upper = min(10, self.upper + more)
        return replace(self, upper=upper, lower=self.total + more - upper, lit=0)

    def _without(self, fewer: int) -> Self:
        lower = max(0, self.lower - fewer)
        return replace(self, upper=self.total - fewer - lower, lower=lower, lit=0)

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        beads: list[AnyShape] = []
        left, right = MARGIN + POST + 12, WIDTH - MARGIN - POST - 12
        for row, (name, pushed) in enumerate((("upper", self.upper), ("lower", self.lower))):
            y = MARGIN + 70 + row * ROW
            shapes.append(
                Line(
                    role="rod",
                    key=f"{name} rod",
                    x1=MARGIN + POST / 2,
                    y1=y,
                    x2=WIDTH - MARGIN - POST / 2,
                    y2=y,
                    fill="quiet",
                    width=7,
                )
            )
            for bead in range(10):
                x = left + (bead + 0.5) * PITCH if bead < pushed else right - (9.5 - bead) * PITCH
                counts = name if bead < pushed else "waiting"
                if bead < pushed and bead + (self.upper if row else 0) < self.lit:
                    beads.append(light(f"{name} {bead + 1}", x, y, 2 * LIGHT, 104, 20))
                full = bead < 5
                beads.append(
                    Disc(
                        role="bead",
                        key=f"{name} bead {bead + 1}",
                        counts=counts,
                        x=x,
                        y=y,
                        radius=BEAD,
                        fill="first" if full else "card",
                        outline=None if full else "second",
                        width=0 if full else 13,
                    )
                )
        for key, x in (("left post", MARGIN), ("right post", WIDTH - MARGIN - POST)):
            shapes.append(Box(role="post", key=key, x=x, y=MARGIN, width=POST, height=ROW + 140, fill="ink", corner=10))
        return Drawing(WIDTH, 2 * MARGIN + ROW + 140, (*shapes, *beads))

    def description(self) -> str:
        if self.upper and self.lower:
            said = f"Rekenrek: {several(self.upper, 'bead')} above and {self.lower} below, {self.total} in all"
        else:
            said = f"Rekenrek: {several(self.total, 'bead') if self.total else 'no beads'} pushed"
        return with_count(said, self.lit)
