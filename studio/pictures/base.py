"""What every picture can do. A kind of picture is one file in `kinds/` with one frozen dataclass derived from this."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from studio.pictures.shapes import Drawing
from studio.script.model import Change


class CannotShow(ValueError):
    """The picture cannot show that, in one plain sentence that says what it can show."""


@dataclass(frozen=True, slots=True)
class Step:
    """The picture after one step of a change; `number` is the number that is counted with it (None: not counted)."""

    picture: Picture
    number: int | None = None


class Picture(ABC):
    """A picture at one moment. Frozen: a change gives new pictures.

    Painters draw `drawing()` and nothing else, so nothing can be on the screen that the value does not hold.
    """

    kind: ClassVar[str]

    @property
    @abstractmethod
    def numbers(self) -> tuple[int, ...]:
        """The numbers a child can read off now: the numerals in reading order, or each sort of mark and then the
        total (7 dots and 2 crosses: 7, 2, 9). What is hidden or still `?` is not among them."""

    @property
    @abstractmethod
    def marks(self) -> Mapping[str, int]:
        """How many things of each sort are drawn and can be counted ({"dots": 7, "crosses": 2}); sorts that could be
        drawn and are not have 0."""

    @abstractmethod
    def steps(self, change: Change) -> tuple[Step, ...]:
        """The pictures that a change runs through, one or more; the last one is what stays.

        A change that counts has one step for each number word; any other has exactly one. Raises CannotShow.
        """

    @abstractmethod
    def drawing(self) -> Drawing:
        """The shapes that make the picture, in its own units."""

    @abstractmethod
    def description(self) -> str:
        """The picture in words ("Ten frame: 7 dots and 2 crosses, 9 in all")."""
