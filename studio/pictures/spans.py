"""What the pictures of numbers in a row have in common: path, line and chart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Picture, Step, either, within
from studio.script.model import Change, Count, Details, Hop, MarkNumber, Span


@dataclass(frozen=True, slots=True)
class SpanPicture(Picture):
    """The numbers from `start` to `end`, each once. `marked`, `lit` and `hops` hold numbers, in the order in which they
    came; a hop is its start and its end."""

    start: int
    end: int
    marked: tuple[int, ...] = ()
    lit: tuple[int, ...] = ()
    hops: tuple[tuple[int, int], ...] = ()

    low: ClassVar[int] = 0
    high: ClassVar[int] = 120
    most: ClassVar[int]

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, Span):
            raise cls.misfit(details)
        if details.start >= details.end:
            raise CannotShow(
                f"{cls.named()} goes from a smaller number to a larger one, not from {details.start} to {details.end}."
            )
        within(cls.named(), details.start, cls.low, cls.high)
        within(cls.named(), details.end, cls.low, cls.high)
        if details.end - details.start + 1 > cls.most:
            raise CannotShow(
                f"{cls.named()} has room for {cls.most} numbers; {details.start} to {details.end} are "
                f"{details.end - details.start + 1}."
            )
        picture = cls(details.start, details.end)
        return picture if details.mark is None else picture._mark(details.mark)

    @property
    def numbers(self) -> tuple[int, ...]:
        return tuple(range(self.start, self.end + 1))

    def _on(self, number: int) -> None:
        if not self.start <= number <= self.end:
            raise CannotShow(f"There is no {number} on the {self.kind}; it goes from {self.start} to {self.end}.")

    def _mark(self, number: int) -> Self:
        self._on(number)
        return self if number in self.marked else replace(self, marked=(*self.marked, number))

    def steps(self, change: Change) -> tuple[Step, ...]:
        if type(change) not in self.can:
            raise self.refuse(change)
        match change:
            case MarkNumber(value):
                return (Step(replace(self._mark(value), lit=())),)
            case Hop(start, end, counting):
                return self._hop(start, end, counting)
            case Count(by):
                return self._count(by)
            case _:
                raise self.refuse(change)

    def _hop(self, start: int, end: int, counting: bool) -> tuple[Step, ...]:
        self._on(start)
        self._on(end)
        if start == end:
            raise CannotShow(f"A hop goes to another number, not from {start} to {end}.")
        before = replace(self, lit=())
        if not counting:
            return (Step(before._hopped([(start, end)])),)
        way = 1 if end > start else -1
        reached = range(start + way, end + way, way)
        hops = [(number - way, number) for number in reached]
        return tuple(Step(before._hopped(hops[:count]), number) for count, number in enumerate(reached, 1))

    def _hopped(self, hops: Sequence[tuple[int, int]]) -> Self:
        """The picture with more hops; one that is there already is the last again, and the way there stays on the way back."""
        return replace(self, hops=(*(hop for hop in self.hops if hop not in hops), *hops))

    def _count(self, by: int) -> tuple[Step, ...]:
        if by < 1:
            raise CannotShow(f"Counting goes by 1 or more, so it cannot go by {by}.")
        said = [number for number in range(max(1, self.start), self.end + 1) if number % by == 0]
        if not said:
            raise CannotShow(f"There is nothing to count by {by} from {self.start} to {self.end}.")
        return tuple(Step(replace(self, lit=tuple(said[:count])), said[count - 1]) for count in range(1, len(said) + 1))

    def description(self) -> str:
        text = f"{self.kind.capitalize()} from {self.start} to {self.end}"
        if self.marked:
            text += f"; marked: {either([str(number) for number in self.marked])}"
        if self.hops:
            text += f"; hops: {either([f'{start} to {end}' for start, end in self.hops])}"
        if self.lit:
            text += f"; counted to {self.lit[-1]}"
        return text
