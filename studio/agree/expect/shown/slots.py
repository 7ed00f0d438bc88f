"""The numbers of directions, each in its slot: the dots of a ten frame, the whole of a bond, the end of a hop."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

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
