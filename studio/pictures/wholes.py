"""What the pictures of a whole and its parts have in common; a kind only says how it is drawn."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Self

from studio.pictures.base import CannotShow, either
from studio.pictures.ringed import UnknownsPicture
from studio.pictures.unknowns import missing_part
from studio.script.model import Details, Parts

MOST_PARTS = 6
"""More would be too small on a telephone."""


@dataclass(frozen=True, slots=True)
class WholePicture(UnknownsPicture):
    """A whole and its parts; None is `?`. Place 0 is the whole, 1 the first part."""

    whole: int | None
    parts: tuple[int | None, ...]

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, Parts):
            raise cls.misfit(details)
        if not 2 <= len(details.parts) <= MOST_PARTS:
            raise CannotShow(f"{cls.named()} has 2 to {MOST_PARTS} parts, so it cannot have {len(details.parts)}.")
        for value in (details.whole, *details.parts):
            if value is not None:
                cls.takes(value)
        return cls(details.whole, details.parts)

    @property
    def values(self) -> tuple[int | None, ...]:
        return (self.whole, *self.parts)

    @property
    def holds(self) -> bool | None:
        """Whether the parts make the whole; None while one is unknown."""
        expected = missing_part(self.whole, self.parts, None)
        return None if expected is None or self.whole is None else expected == self.whole

    def answer(self, place: int) -> int | None:
        return missing_part(self.whole, self.parts, place - 1 if place else None)

    def having(self, place: int, value: int) -> Self:
        values = [value if at == place else old for at, old in enumerate(self.values)]
        return replace(self, whole=values[0], parts=tuple(values[1:]))

    def description(self) -> str:
        said = ["unknown" if value is None else str(value) for value in self.values]
        return self.with_rings(f"{self.kind.capitalize()}: {said[0]} is {either(said[1:])}")
