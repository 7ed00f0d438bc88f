"""What the pictures made of dots and crosses have in common; a kind only says where its places are."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Picture, Step, counted, is_or_are, several, with_count
from studio.pictures.pieces import round_light, square
from studio.pictures.shapes import AnyShape, Cross, Disc, Drawing
from studio.script.model import Add, Change, Count, Details, Marks, TakeAway

PLACE = 100.0
"""The side of the square in which one mark stands."""
DOT = 33.0
CROSS = 29.0
STROKE = 14.0
HALO = 43.0
FRAME = 6.0
MARGIN = 10.0


@dataclass(frozen=True, slots=True)
class MarkPicture(Picture):
    """Dots first, then crosses, in places that are filled in order. `lit` is how many are lit in a count."""

    dots: int = 0
    crosses: int = 0
    lit: int = 0

    capacity: ClassVar[int]
    framed: ClassVar[bool] = True
    larger: ClassVar[str] = ""
    can: ClassVar[tuple[type[object], ...]] = (Add, TakeAway, Count)

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, Marks):
            raise cls.misfit(details)
        cls._fits(details.dots + details.crosses)
        return cls(details.dots, details.crosses)

    @classmethod
    def _fits(cls, total: int) -> None:
        if not 0 <= total <= cls.capacity:
            instead = f" {cls.larger}" if cls.larger and total > 0 else ""
            raise CannotShow(f"{cls.named()} can show 0 to {cls.capacity}, not {total}.{instead}")

    @classmethod
    @abstractmethod
    def place(cls, index: int) -> tuple[float, float]:
        """The middle of a place; places count from 0."""

    @abstractmethod
    def size(self) -> tuple[float, float]:
        """Width and height of the picture."""

    @property
    def total(self) -> int:
        """Dots and crosses together."""
        return self.dots + self.crosses

    @property
    def empty(self) -> int:
        """How many places are free."""
        return self.capacity - self.total

    @property
    def numbers(self) -> tuple[int, ...]:
        if self.dots and self.crosses:
            return (self.dots, self.crosses, self.total)
        return (self.total,)

    @property
    def marks(self) -> Mapping[str, int]:
        return {"dots": self.dots, "crosses": self.crosses}

    def steps(self, change: Change) -> tuple[Step, ...]:
        match change:
            case Add(count, mark, counting):
                self._fits(self.total + count)
                mark = mark or ("crosses" if self.total else "dots")
                stages = range(1, count + 1) if counting and count else (count,)
                added = [self._with(mark, more) for more in stages]
            case TakeAway(count, counting):
                if count > self.total:
                    raise CannotShow(
                        f"There {is_or_are(self.total)} only {several(self.total, 'mark')} in the {self.kind} now, "
                        f"so {count} cannot be taken away."
                    )
                stages = range(1, count + 1) if counting and count else (count,)
                added = [self._without(fewer) for fewer in stages]
            case Count(by):
                return tuple(Step(replace(self, lit=number), number) for number in counted(self.total, by))
            case _:
                raise self.refuse(change)
        counts = change.counting and change.count > 0
        return tuple(Step(picture, picture.total if counts else None) for picture in added)

    def _with(self, mark: str, more: int) -> Self:
        if mark == "dots":
            return replace(self, dots=self.dots + more, lit=0)
        return replace(self, crosses=self.crosses + more, lit=0)

    def _without(self, fewer: int) -> Self:
        crosses = max(0, self.crosses - fewer)
        return replace(self, dots=self.total - fewer - crosses, crosses=crosses, lit=0)

    def frames(self) -> list[AnyShape]:
        """The squares of the frame; none where the kind has no frame."""
        if not self.framed:
            return []
        return [square(index + 1, *self.place(index), PLACE, FRAME) for index in range(self.capacity)]

    def drawing(self) -> Drawing:
        shapes = self.frames()
        for index in range(self.lit):
            x, y = self.place(index)
            shapes.append(round_light(str(index + 1), x, y, HALO))
        for index in range(self.total):
            x, y = self.place(index)
            if index < self.dots:
                shapes.append(
                    Disc(role="dot", key=f"dot {index + 1}", counts="dots", x=x, y=y, radius=DOT, fill="first")
                )
            else:
                shapes.append(
                    Cross(
                        role="cross",
                        key=f"cross {index + 1 - self.dots}",
                        counts="crosses",
                        x=x,
                        y=y,
                        radius=CROSS,
                        fill="second",
                        width=STROKE,
                    )
                )
        width, height = self.size()
        return Drawing(width, height, tuple(shapes), "left")

    def description(self) -> str:
        name = self.kind.capitalize()
        if not self.total:
            return f"{name}: empty"
        dots, crosses = several(self.dots, "dot"), several(self.crosses, "cross", "crosses")
        if self.dots and self.crosses:
            said = f"{name}: {dots} and {crosses}, {self.total} in all"
        else:
            said = f"{name}: {dots if self.dots else crosses}"
        return with_count(said, self.lit)
