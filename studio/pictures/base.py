"""What every picture can do. A kind of picture is one file in `kinds/` with one frozen dataclass derived from this."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from studio.pictures.shapes import Drawing
from studio.script.model import (
    Add,
    Change,
    Circle,
    Count,
    Details,
    FillIn,
    Hop,
    MarkNumber,
    TakeAway,
    TurnOver,
)


class CannotShow(ValueError):
    """The picture cannot show that, in one plain sentence that says what it can show."""


@dataclass(frozen=True, slots=True)
class Step:
    """The picture after one step of a change; `number` is the number that is counted with it (None: not counted)."""

    picture: Picture
    number: int | None = None


_SAY: Mapping[type[object], str] = {
    Add: "add",
    TakeAway: "take away",
    FillIn: "fill in",
    Circle: "circle",
    Hop: "hop",
    TurnOver: "turn over",
    MarkNumber: "mark",
    Count: "count",
}


class Picture(ABC):
    """A picture at one moment. Frozen: a change gives new pictures.

    Painters draw `drawing()` and nothing else, so nothing can be on the screen that the value does not hold.
    `kind` is the name in the script, `about` what the picture is (one line), `can` the changes that it understands;
    `bare` says that the name needs no article ("dots", "base ten").
    """

    kind: ClassVar[str]
    about: ClassVar[str]
    can: ClassVar[tuple[type[object], ...]] = ()
    bare: ClassVar[bool] = False

    @classmethod
    def named(cls) -> str:
        """The kind at the beginning of a sentence: "A ten frame", "Dots"."""
        return cls.kind.capitalize() if cls.bare else f"{'An' if cls.kind[0] in 'aeiou' else 'A'} {cls.kind}"

    @classmethod
    @abstractmethod
    def of(cls, details: Details) -> Picture:
        """The picture that the details of a script ask for. Raises CannotShow."""

    @property
    @abstractmethod
    def numbers(self) -> tuple[int, ...]:
        """The numbers a child can read off now: the numerals in reading order, or each sort of mark and then the
        total (7 dots and 2 crosses: 7, 2, 9). What is hidden or still `?` is not among them."""

    @property
    @abstractmethod
    def marks(self) -> Mapping[str, int]:
        """How many things of each sort are drawn and can be counted ({"dots": 7, "crosses": 2}); sorts that could be
        drawn and are not have 0. It always equals the shapes of `drawing()` counted by their `counts`."""

    @abstractmethod
    def steps(self, change: Change) -> tuple[Step, ...]:
        """The pictures that a change runs through, one or more; the last one is what stays.

        A change that counts has one step for each number word; any other has exactly one. Raises CannotShow.
        """

    @abstractmethod
    def drawing(self) -> Drawing:
        """The shapes that make the picture, in its own units (the same for all kinds: a counter's place is 100)."""

    @abstractmethod
    def description(self) -> str:
        """The picture in words ("Ten frame: 7 dots and 2 crosses, 9 in all")."""

    def refuse(self, change: Change) -> CannotShow:
        """The sentence for a change that this kind does not know."""
        what = _SAY[type(change)]
        if not self.can:
            return CannotShow(f"{self.named()} does not change, so it cannot '{what}'.")
        known = either([f"'{_SAY[change_type]}'" for change_type in self.can], "or")
        return CannotShow(f"{self.named()} cannot '{what}'; write {known}.")

    @classmethod
    def misfit(cls, details: Details) -> CannotShow:
        """The sentence for details that belong to another kind of picture."""
        return CannotShow(f"{cls.named()} cannot be made from {type(details).__name__.lower()}; it is {cls.about}.")


def either(words: list[str] | tuple[str, ...], last: str = "and") -> str:
    """Words in a row: "a, b and c"."""
    words = list(words)
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} {last} {words[-1]}" if words else ""


def several(count: int, noun: str, plural: str = "") -> str:
    """A number with its noun: "1 dot", "7 dots"."""
    return f"{count} {noun if count == 1 else plural or noun + 's'}"


def is_or_are(count: int) -> str:
    """The verb of a number with its noun."""
    return "is" if count == 1 else "are"


def with_count(said: str, counted: int) -> str:
    """A description, and how far the count has come (0: nothing is counted)."""
    return f"{said}; {counted} counted" if counted else said


def within(what: str, value: int, low: int, high: int, instead: str = "") -> None:
    """Raise CannotShow with the range where `value` lies outside it."""
    if not low <= value <= high:
        more = f" {instead}" if instead else ""
        raise CannotShow(f"{what} can show {low} to {high}, not {value}.{more}")


def counted(total: int, by: int) -> tuple[int, ...]:
    """The numbers said in counting to `total` by `by`, and by ones where no whole group is left (12 by 5: 5, 10, 11,
    12). Raises CannotShow."""
    if by < 1:
        raise CannotShow(f"Counting goes by 1 or more, so it cannot go by {by}.")
    if total < 1:
        raise CannotShow("There is nothing to count in an empty picture.")
    groups = total // by * by
    return (*range(by, groups + 1, by), *range(groups + 1, total + 1))
