"""What the pictures made of numerals have in common: a number can have a ring, and `?` is filled in."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Picture, Step, either, within
from studio.pictures.unknowns import choose
from studio.script.model import Change, Circle, FillIn


@dataclass(frozen=True, slots=True)
class RingedPicture(Picture):
    """Numbers at places that count from 0; `rings` are the places that have a ring, in the order in which they came."""

    rings: tuple[int, ...] = field(default=(), kw_only=True)

    @property
    @abstractmethod
    def values(self) -> tuple[int | None, ...]:
        """The number at each place, in reading order; None is `?`."""

    @property
    def ringed(self) -> tuple[int, ...]:
        """The numbers that have a ring."""
        return tuple(value for place in self.rings if (value := self.values[place]) is not None)

    @property
    def numbers(self) -> tuple[int, ...]:
        return tuple(value for value in self.values if value is not None)

    def circled(self, wanted: int, free: tuple[int, ...], first: tuple[int, ...] = ()) -> tuple[Step, ...]:
        """The step that rings a number: at one of the places `first` if it is there, else at one of those `free`."""
        places = [place for place in free if self.values[place] == wanted and place not in self.rings]
        if not places and any(self.values[place] == wanted for place in free):
            raise CannotShow(f"The {wanted} in the {self.kind} has its ring already.")
        if not places:
            seen = either([str(number) for number in self.numbers]) or "no number"
            raise CannotShow(f"There is no {wanted} to circle in the {self.kind} now; it shows {seen}.")
        place = next((place for place in places if place in first), places[0])
        return (Step(replace(self, rings=(*self.rings, place))),)

    def with_rings(self, said: str) -> str:
        """A description, and which numbers have a ring."""
        return said + (f"; ring round {either([str(number) for number in self.ringed])}" if self.rings else "")


@dataclass(frozen=True, slots=True)
class UnknownsPicture(RingedPicture):
    """Numbers of which some may be `?` until they are filled in; `filled` are the places where that was done.

    Right or wrong, it shows what was written.
    """

    filled: tuple[int, ...] = field(default=(), kw_only=True)

    can: ClassVar[tuple[type[object], ...]] = (FillIn, Circle)
    largest: ClassVar[int] = 120

    @classmethod
    def takes(cls, value: int) -> None:
        """Raise CannotShow for a number that it cannot show."""
        within(cls.named(), value, 0, cls.largest)

    @property
    def marks(self) -> Mapping[str, int]:
        return {"unknowns": self.values.count(None), "rings": len(self.rings)}

    @abstractmethod
    def answer(self, place: int) -> int | None:
        """What the number at a place must be; None where it cannot be worked out."""

    @property
    def answers(self) -> tuple[int, ...]:
        """What the numbers must be that are not yet there, as far as they can be worked out."""
        wanted = (self.answer(place) for place, value in enumerate(self.values) if value is None)
        return tuple(answer for answer in wanted if answer is not None)

    @abstractmethod
    def having(self, place: int, value: int) -> Self:
        """The picture with that number at a place."""

    def steps(self, change: Change) -> tuple[Step, ...]:
        match change:
            case FillIn(given):
                unknown = [place for place, value in enumerate(self.values) if value is None]
                chosen, value = choose([self.answer(place) for place in unknown], given, self.kind)
                self.takes(value)
                place = unknown[chosen]
                return (Step(replace(self.having(place, value), filled=(*self.filled, place))),)
            case Circle(wanted):
                return self.circled(wanted, tuple(range(len(self.values))), self.filled)
            case _:
                raise self.refuse(change)
