"""Tallies."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import ceil
from typing import ClassVar, Self

from studio.pictures.amounts import AmountPicture
from studio.pictures.base import Step, counted, several, with_count
from studio.pictures.pieces import light
from studio.pictures.shapes import AnyShape, Drawing, Line
from studio.script.model import Add, Change, Count, TakeAway

STROKE = 13.0
TALL = 130.0
APART = 40.0
GROUP = 5 * APART + 46
MARGIN = 24.0
IN_A_ROW = 5
ROW = TALL + 50


@dataclass(frozen=True, slots=True)
class Tally(AmountPicture):
    """Strokes in groups of five, the fifth across the other four. `lit` is how many are lit in a count."""

    lit: int = 0

    kind: ClassVar[str] = "tally"
    about: ClassVar[str] = "tally strokes, each fifth across its group"
    can: ClassVar[tuple[type[object], ...]] = (Add, TakeAway, Count)
    low: ClassVar[int] = 0
    high: ClassVar[int] = 100

    @property
    def marks(self) -> Mapping[str, int]:
        return {"tallies": self.value}

    def steps(self, change: Change) -> tuple[Step, ...]:
        if isinstance(change, Count):
            return tuple(Step(replace(self, lit=said), said) for said in counted(self.value, change.by))
        return self.changed(change)

    def at(self, value: int) -> Self:
        return replace(self, value=value, lit=0)

    def drawing(self) -> Drawing:
        lights: list[AnyShape] = []
        across: list[AnyShape] = []
        strokes: list[AnyShape] = []
        for index in range(self.value):
            group, place = divmod(index, 5)
            row, column = divmod(group, IN_A_ROW)
            x, y = MARGIN + column * GROUP + APART / 2, MARGIN + row * ROW
            key = f"stroke {index + 1}"
            if place == 4:
                across.append(
                    Line(
                        role="fifth",
                        key=key,
                        counts="tallies",
                        x1=x - 16,
                        y1=y + TALL * 0.76,
                        x2=x + 3 * APART + 16,
                        y2=y + TALL * 0.24,
                        fill="second",
                        width=STROKE,
                    )
                )
            else:
                strokes.append(
                    Line(
                        role="stroke",
                        key=key,
                        counts="tallies",
                        x1=x + place * APART,
                        y1=y + STROKE / 2,
                        x2=x + place * APART,
                        y2=y + TALL - STROKE / 2,
                        fill="first",
                        width=STROKE,
                    )
                )
            if index < self.lit:
                whole = place == 4
                middle = x + 1.5 * APART if whole else x + place * APART
                width = 3 * APART + 64 if whole else APART - 6
                # A whole group has one light; those of its strokes lie under it.
                lights.append(light(str(index + 1), middle, y + TALL / 2, width, TALL + 28, 16))
        groups = max(1, ceil(self.value / 5))
        columns, rows = max(2, min(groups, IN_A_ROW)), ceil(groups / IN_A_ROW)
        return Drawing(
            2 * MARGIN + columns * GROUP - 46,
            2 * MARGIN + (rows - 1) * ROW + TALL,
            (*lights, *across, *strokes),
            "left",
        )

    def description(self) -> str:
        fives, ones = divmod(self.value, 5)
        if not self.value:
            return "Tally: none"
        parts = []
        if fives:
            parts.append(several(fives, "group of five", "groups of five"))
        if ones:
            parts.append(several(ones, "single stroke" if fives else "stroke"))
        said = f"Tally: {' and '.join(parts)}" + (f", {self.value} in all" if fives else "")
        return with_count(said, self.lit)
