"""Dice."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Picture, Step, counted, either, with_count, within
from studio.pictures.pieces import round_light
from studio.pictures.shapes import AnyShape, Box, Disc, Drawing
from studio.script.model import Change, Count, Details, NumberList

SIDE = 210.0
GAP = 50.0
MARGIN = 14.0
PIP = 20.0
APART = 58.0
LIGHT = 28.0
MOST = 6

# Where the pips of each face are, by column and row from the middle, in the order in which they are counted.
FACES: Mapping[int, tuple[tuple[int, int], ...]] = {
    1: ((0, 0),),
    2: ((-1, -1), (1, 1)),
    3: ((-1, -1), (0, 0), (1, 1)),
    4: ((-1, -1), (1, -1), (-1, 1), (1, 1)),
    5: ((-1, -1), (1, -1), (0, 0), (-1, 1), (1, 1)),
    6: ((-1, -1), (1, -1), (-1, 0), (1, 0), (-1, 1), (1, 1)),
}


@dataclass(frozen=True, slots=True)
class Dice(Picture):
    """Dice beside each other; `lit` is how many pips are lit in a count."""

    values: tuple[int, ...]
    lit: int = 0

    kind: ClassVar[str] = "dice"
    bare: ClassVar[bool] = True
    about: ClassVar[str] = "dice with 1 to 6 pips each"
    can: ClassVar[tuple[type[object], ...]] = (Count,)

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, NumberList):
            raise cls.misfit(details)
        if not 1 <= len(details.values) <= MOST:
            raise CannotShow(f"There is room for 1 to {MOST} dice, so {len(details.values)} cannot be shown.")
        for value in details.values:
            within("A die", value, 1, 6)
        return cls(details.values)

    @property
    def total(self) -> int:
        """All pips together."""
        return sum(self.values)

    @property
    def numbers(self) -> tuple[int, ...]:
        return (*self.values, self.total) if len(self.values) > 1 else self.values

    @property
    def marks(self) -> Mapping[str, int]:
        return {"pips": self.total, "dice": len(self.values)}

    def steps(self, change: Change) -> tuple[Step, ...]:
        if not isinstance(change, Count):
            raise self.refuse(change)
        return tuple(Step(replace(self, lit=said), said) for said in counted(self.total, change.by))

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        pips = 0
        columns = len(self.values) if len(self.values) < 4 else (len(self.values) + 1) // 2
        for die, value in enumerate(self.values):
            row, column = divmod(die, columns)
            left, top = MARGIN + column * (SIDE + GAP), MARGIN + row * (SIDE + GAP)
            shapes.append(
                Box(
                    role="die",
                    key=f"die {die + 1}",
                    counts="dice",
                    x=left,
                    y=top,
                    width=SIDE,
                    height=SIDE,
                    fill="card",
                    outline="ink",
                    line=7,
                    corner=40,
                )
            )
            for across, down in FACES[value]:
                pips += 1
                x, y = left + SIDE / 2 + across * APART, top + SIDE / 2 + down * APART
                if pips <= self.lit:
                    shapes.append(round_light(str(pips), x, y, LIGHT))
                shapes.append(Disc(role="pip", key=f"pip {pips}", counts="pips", x=x, y=y, radius=PIP, fill="first"))
        rows = -(-len(self.values) // columns)
        return Drawing(2 * MARGIN + columns * (SIDE + GAP) - GAP, 2 * MARGIN + rows * (SIDE + GAP) - GAP, tuple(shapes))

    def description(self) -> str:
        said = either([str(value) for value in self.values])
        return with_count(f"Dice: {said}" + (f", {self.total} in all" if len(self.values) > 1 else ""), self.lit)
