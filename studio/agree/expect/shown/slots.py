"""The numbers of directions, each in its slot: the dots of a ten frame, the whole of a bond, the end of a hop; and a direction with
another number in a slot."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from studio.script.model import (
    Add,
    Amount,
    Change,
    ChangePicture,
    Circle,
    Count,
    Details,
    Equation,
    FillIn,
    Hop,
    Lesson,
    MarkNumber,
    Marks,
    NumberList,
    Parts,
    Phrase,
    Show,
    Span,
    TakeAway,
    TurnOver,
)
from studio.talk.numbers import find_numbers, words_of

_LISTED = 8
"""Numbers of a list that have a name of their own; the others share the last."""


@dataclass(frozen=True, slots=True)
class Slot:
    """A number of a direction. `kind` is that of the picture, `name` what the number is in it ("dots", "part 2", "end of a
    hop"), `at` the word with which it takes effect."""

    direction: Show | ChangePicture
    kind: str
    name: str
    value: int

    @property
    def at(self) -> int:
        return self.direction.at


def slots(lesson: Lesson) -> Iterator[Sequence[Slot]]:
    """The numbers of each direction that has any, in the order of the script."""
    kinds: dict[str, str] = {}
    for segment in lesson.segments:
        for direction in segment.directions:
            match direction:
                case Show():
                    kinds[direction.name] = direction.kind
                    found = list(_of_details(direction.details))
                case ChangePicture():
                    found = list(_of_change(direction.change))
                case _:
                    continue
            if found:
                kind = kinds.get(direction.name, "")
                yield tuple(Slot(direction, kind, name, value) for name, value in found)


def _of_details(details: Details) -> Iterator[tuple[str, int]]:
    match details:
        case Marks():
            if details.dots:
                yield "dots", details.dots
            if details.crosses:
                yield "crosses", details.crosses
        case Parts():
            if details.whole is not None:
                yield "whole", details.whole
            for at, part in enumerate(details.parts):
                if part is not None:
                    yield f"part {min(at, _LISTED)}", part
        case Equation():
            for side, terms in enumerate(details.sides):
                for at, term in enumerate(terms):
                    if term.value is not None:
                        yield f"term {min(side, 2)} {min(at, _LISTED)} {term.sign}{len(terms)}", term.value
        case NumberList():
            for at, value in enumerate(details.values):
                yield f"item {min(at, _LISTED)}", value
        case Amount():
            yield "amount", details.value
        case Span():
            yield "start", details.start
            yield "end", details.end
            if details.mark is not None:
                yield "mark", details.mark
        case Phrase():
            for at, number in enumerate(find_numbers(words_of(details.text))):
                if number.form in ("word", "digits"):
                    yield f"written {min(at, _LISTED)}", number.value


def _of_change(change: Change) -> Iterator[tuple[str, int]]:
    match change:
        case Add():
            yield f"add {change.mark or ''}", change.count
        case TakeAway():
            yield "take away", change.count
        case FillIn():
            if change.value is not None:
                yield "fill in", change.value
        case Circle():
            yield "ring", change.value
        case Hop():
            yield "hop from", change.start
            yield "hop to", change.end
        case TurnOver():
            yield "turn over", change.value
        case MarkNumber():
            yield "mark", change.value
        case Count():
            if change.by != 1:
                yield "count by", change.by


def renumbered(direction: Show | ChangePicture, index: int, value: int) -> Show | ChangePicture | None:
    """The direction with `value` as its number of that index, as `slots` counts them; None where it is written in words."""
    if isinstance(direction, ChangePicture):
        return replace(direction, change=_change_with(direction.change, index, value))
    details = _details_with(direction.details, index, value)
    return None if details is None else replace(direction, details=details)


def _details_with(details: Details, index: int, value: int) -> Details | None:
    match details:
        case Marks():
            dots, crosses = _put((details.dots or None, details.crosses or None), index, value)
            return Marks(dots or 0, crosses or 0)
        case Parts():
            whole, *parts = _put((details.whole, *details.parts), index, value)
            return Parts(whole, tuple(parts))
        case Equation():
            values = iter(_put([term.value for side in details.sides for term in side], index, value))
            return Equation(tuple(tuple(replace(term, value=next(values)) for term in side) for side in details.sides))
        case NumberList():
            return NumberList(tuple(value if at == index else old for at, old in enumerate(details.values)))
        case Amount():
            return Amount(value)
        case Span():
            start, end, mark = _put((details.start, details.end, details.mark), index, value)
            return Span(start or 0, end or 0, mark)
        case Phrase():
            return None


def _put(values: Sequence[int | None], index: int, value: int) -> Iterator[int | None]:
    """The same with another number as the one of that index among those that are known."""
    known = 0
    for old in values:
        yield value if old is not None and known == index else old
        known += old is not None


def _change_with(change: Change, index: int, value: int) -> Change:
    match change:
        case Add() | TakeAway():
            return replace(change, count=value)
        case FillIn() | Circle() | TurnOver() | MarkNumber():
            return replace(change, value=value)
        case Hop(start=start, end=end):
            return replace(change, start=start if index else value, end=value if index else end)
        case Count():
            return Count(value)
