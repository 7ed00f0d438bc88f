"""What the pictures of one amount have in common."""

from __future__ import annotations

from abc import abstractmethod
from dataclasses import dataclass
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Picture, Step, within
from studio.script.model import Add, Amount, Change, Details, TakeAway


@dataclass(frozen=True, slots=True)
class AmountPicture(Picture):
    """A picture of one number from `low` to `high`."""

    value: int

    low: ClassVar[int]
    high: ClassVar[int]

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, Amount):
            raise cls.misfit(details)
        within(cls.named(), details.value, cls.low, cls.high)
        return cls(details.value)

    @property
    def numbers(self) -> tuple[int, ...]:
        return (self.value,)

    @abstractmethod
    def at(self, value: int) -> Self:
        """The picture with another number."""

    def changed(self, change: Change) -> tuple[Step, ...]:
        """The steps of adding and taking away."""
        if not isinstance(change, Add | TakeAway):
            raise self.refuse(change)
        sign = 1 if isinstance(change, Add) else -1
        if change.count > self.value and sign < 0:
            raise CannotShow(f"The {self.kind} shows {self.value} now, so {change.count} cannot be taken away.")
        within(self.named(), self.value + sign * change.count, self.low, self.high)
        if not change.counting or not change.count:
            return (Step(self.at(self.value + sign * change.count)),)
        values = [self.value + sign * number for number in range(1, change.count + 1)]
        return tuple(Step(self.at(value), value) for value in values)
