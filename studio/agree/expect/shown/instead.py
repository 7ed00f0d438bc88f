"""A direction with another number in one of its slots."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

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


def instead(direction: Show | ChangePicture, index: int, value: int) -> Show | ChangePicture | None:
    """The direction with `value` as its number of that index, as `slots.slots` counts them; None where it is written in words."""
    if isinstance(direction, ChangePicture):
        return replace(direction, change=_of_change(direction.change, index, value))
    details = _of_details(direction.details, index, value)
    return None if details is None else replace(direction, details=details)


def _of_details(details: Details, index: int, value: int) -> Details | None:
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


def _of_change(change: Change, index: int, value: int) -> Change:
    match change:
        case Add() | TakeAway():
            return replace(change, count=value)
        case FillIn() | Circle() | TurnOver() | MarkNumber():
            return replace(change, value=value)
        case Hop(start=start, end=end):
            return replace(change, start=start if index else value, end=value if index else end)
        case Count():
            return Count(value)
