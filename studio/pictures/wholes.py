"""What the pictures of a whole and its parts have in common; a kind only says how it is drawn."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Picture, Step, a, either, within
from studio.pictures.unknowns import choose, missing_part
from studio.script.model import Change, Circle, Details, FillIn, Parts

LARGEST = 120


@dataclass(frozen=True, slots=True)
class WholePicture(Picture):
    """A whole and its parts; None is `?`. `filled` and `rings` are places: 0 is the whole, 1 the first part.

    Right or wrong, it shows what was written.
    """

    whole: int | None
    parts: tuple[int | None, ...]
    filled: tuple[int, ...] = ()
    rings: tuple[int, ...] = ()

    can: ClassVar[tuple[type[object], ...]] = (FillIn, Circle)

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, Parts):
            raise cls.misfit(details)
        if not 2 <= len(details.parts) <= 4:
            raise CannotShow(f"{a(cls.kind)} has 2 to 4 parts, so it cannot have {len(details.parts)}.")
        for value in (details.whole, *details.parts):
            if value is not None:
                within(a(cls.kind), value, 0, LARGEST)
        return cls(details.whole, details.parts)

    @property
    def values(self) -> tuple[int | None, ...]:
        """The whole and then its parts; None is `?`."""
        return (self.whole, *self.parts)

    @property
    def holds(self) -> bool | None:
        """Whether the parts make the whole; None while one is unknown."""
        expected = missing_part(self.whole, self.parts, None)
        return None if expected is None or self.whole is None else expected == self.whole

    @property
    def ringed(self) -> tuple[int, ...]:
        """The numbers that have a ring."""
        return tuple(value for place in self.rings if (value := self.values[place]) is not None)

    @property
    def numbers(self) -> tuple[int, ...]:
        return tuple(value for value in self.values if value is not None)

    @property
    def marks(self) -> Mapping[str, int]:
        return {"unknowns": self.values.count(None), "rings": len(self.rings)}

    def answer(self, place: int) -> int | None:
        """What the number at a place must be; None where it cannot be worked out."""
        return missing_part(self.whole, self.parts, place - 1 if place else None)

    def steps(self, change: Change) -> tuple[Step, ...]:
        match change:
            case FillIn(given):
                if given is not None:
                    within(a(self.kind), given, 0, LARGEST)
                unknown = [place for place, value in enumerate(self.values) if value is None]
                chosen, value = choose([self.answer(place) for place in unknown], given, self.kind)
                return (Step(self._with(unknown[chosen], value)),)
            case Circle(wanted):
                return (Step(replace(self, rings=(*self.rings, self._place_of(wanted)))),)
            case _:
                raise self.refuse(change)

    def _with(self, place: int, value: int) -> Self:
        values = [value if at == place else old for at, old in enumerate(self.values)]
        return replace(self, whole=values[0], parts=tuple(values[1:]), filled=(*self.filled, place))

    def _place_of(self, wanted: int) -> int:
        places = [place for place, value in enumerate(self.values) if value == wanted and place not in self.rings]
        if not places:
            seen = either([str(number) for number in self.numbers]) or "no number yet"
            raise CannotShow(f"There is no {wanted} to circle in the {self.kind}; it shows {seen}.")
        return next((place for place in places if place in self.filled), places[0])

    def description(self) -> str:
        said = ["unknown" if value is None else str(value) for value in self.values]
        text = f"{self.kind.capitalize()}: {said[0]} is {either(said[1:])}"
        return text + (f"; ring round {either([str(number) for number in self.ringed])}" if self.rings else "")
