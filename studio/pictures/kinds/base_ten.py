"""Base ten: lines and squares."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from studio.pictures.amounts import AmountPicture
from studio.pictures.base import CannotShow, Step, either, several, with_count
from studio.pictures.pieces import light
from studio.pictures.shapes import AnyShape, Box, Drawing, Line
from studio.script.model import Add, Change, Count, TakeAway

SQUARE = 44.0
PITCH = 64.0
TALL = 300.0
LINE = 16.0
APART = 58.0
BETWEEN = 34.0
MARGIN = 24.0


@dataclass(frozen=True, slots=True)
class BaseTen(AmountPicture):
    """A line is worth ten, a small square one; ten squares become a line. `lit` is how many things are lit."""

    lit: int = 0

    kind: ClassVar[str] = "base ten"
    bare: ClassVar[bool] = True
    about: ClassVar[str] = "a line for each ten and a small square for each one"
    can: ClassVar[tuple[type[object], ...]] = (Add, TakeAway, Count)
    low: ClassVar[int] = 0
    high: ClassVar[int] = 120

    @property
    def tens(self) -> int:
        """How many lines there are."""
        return self.value // 10

    @property
    def ones(self) -> int:
        """How many squares there are."""
        return self.value % 10

    @property
    def numbers(self) -> tuple[int, ...]:
        if not self.tens:
            return (self.value,)
        return (self.tens, self.ones, self.value) if self.ones else (self.tens, self.value)

    @property
    def marks(self) -> Mapping[str, int]:
        return {"tens": self.tens, "ones": self.ones}

    def at(self, value: int) -> Self:
        return replace(self, value=value, lit=0)

    def steps(self, change: Change) -> tuple[Step, ...]:
        if not isinstance(change, Count):
            return self.changed(change)
        if change.by not in (1, 10):
            raise CannotShow(f"Base ten is counted by tens and then by ones, so it cannot be counted by {change.by}.")
        if not self.value:
            raise CannotShow("There is nothing to count in an empty picture.")
        said = [10 * ten for ten in range(1, self.tens + 1)]
        said += range(10 * self.tens + 1, self.value + 1)
        return tuple(Step(replace(self, lit=lit), number) for lit, number in enumerate(said, 1))

    def _lines_end(self) -> float:
        """Where the lines end; five make a group."""
        return MARGIN + self.tens * APART + (self.tens - 1) // 5 * BETWEEN if self.tens else MARGIN

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        lights: list[AnyShape] = []
        for ten in range(self.tens):
            x = MARGIN + ten * APART + ten // 5 * BETWEEN + APART / 2
            if ten < self.lit:
                lights.append(light(f"ten {ten + 1}", x, MARGIN + TALL / 2, 50, TALL + 28, 20))
            shapes.append(
                Line(
                    role="ten",
                    key=f"ten {ten + 1}",
                    counts="tens",
                    x1=x,
                    y1=MARGIN + LINE / 2,
                    x2=x,
                    y2=MARGIN + TALL - LINE / 2,
                    fill="first",
                    width=LINE,
                )
            )
        left = self._lines_end() + (BETWEEN if self.tens else 0)
        for one in range(self.ones):
            row, column = divmod(one, 5)
            x, y = left + column * PITCH + (PITCH - SQUARE) / 2, MARGIN + row * PITCH + (PITCH - SQUARE) / 2
            number = 10 * self.tens + one + 1
            if self.tens + one < self.lit:
                lights.append(light(f"one {number}", x + SQUARE / 2, y + SQUARE / 2, SQUARE + 18, SQUARE + 18, 12))
            shapes.append(
                Box(
                    role="one",
                    key=f"one {number}",
                    counts="ones",
                    into=f"ten {self.tens + 1}",
                    x=x,
                    y=y,
                    width=SQUARE,
                    height=SQUARE,
                    fill="second",
                    corner=6,
                )
            )
        width = left + 5 * PITCH + MARGIN
        return Drawing(width, TALL + 2 * MARGIN, (*lights, *shapes), "left")

    def description(self) -> str:
        if not self.value:
            return "Base ten: nothing"
        parts = [several(self.tens, "ten")] if self.tens else []
        parts += [several(self.ones, "one")] if self.ones else []
        said = f"Base ten: {either(parts)}" + (f", {self.value} in all" if self.tens else "")
        return with_count(said, 10 * min(self.lit, self.tens) + max(0, self.lit - self.tens))
