"""What a number sentence, a bond or a bar needs so that its sides are equal. An unknown is what is filled in later, or what
is said when it is filled in."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable

from studio.agree.expect.hints import Hint, named
from studio.agree.expect.shown.place import ShownPlace
from studio.script.model import ChangePicture, Equation, FillIn, Parts, Show

_SOON = 15  # words
_Sides = list[list[tuple[int, int | None]]]
"""The sides, each term with its sign and its value."""


def find(place: ShownPlace) -> Iterable[Hint]:
    direction = place.slot.direction
    if isinstance(direction, Show):
        if not isinstance(direction.details, Equation | Parts):
            return ()
        kept = place.book.balances.get(place.group)
        if kept is None:
            kept = place.book.balances[place.group] = _of_all(place, direction, direction.details)
        return kept[place.index]
    return _filled(place, direction) if isinstance(direction.change, FillIn) else ()


def _of_all(place: ShownPlace, show: Show, details: Equation | Parts) -> list[list[Hint]]:
    """For each number of a direction what balances the sides, worked out once."""
    sides = _sides(details)
    known = [(side, at) for side, terms in enumerate(sides) for at, term in enumerate(terms) if term[1] is not None]
    state = _solve(place, show, sides, None)
    return [_balanced(sides, own, state, place.slot.kind) for own in known]


def _filled(place: ShownPlace, direction: ChangePicture) -> Iterable[Hint]:
    """The same for a number that is filled in."""
    show = place.book.courses.show(direction)
    if show is None or not isinstance(show.details, Equation | Parts):
        return ()
    sides = _sides(show.details)
    unknown = [(side, at) for side, terms in enumerate(sides) for at, term in enumerate(terms) if term[1] is None]
    before = sum(isinstance(change.change, FillIn) for change in place.book.courses.earlier(direction))
    if before >= len(unknown):
        return ()
    _solve(place, show, sides, direction)
    return _balanced(sides, unknown[before], "i", place.slot.kind)


def _sides(details: Equation | Parts) -> _Sides:
    if isinstance(details, Parts):
        return [[(1, details.whole)], [(1, part) for part in details.parts]]
    return [[(-1 if term.sign == "-" else 1, term.value) for term in side] for side in details.sides]


def _solve(place: ShownPlace, show: Show, sides: _Sides, but: ChangePicture | None) -> str:
    """Put in what is filled in later, but for one of these changes. The answer tells how it is known: "" nothing was
    unknown, "f" by the change, "s" by what is said."""
    unknown = [(side, at) for side, terms in enumerate(sides) for at, term in enumerate(terms) if term[1] is None]
    if not unknown:
        return ""
    state = "f"
    fills = [change for change in place.book.courses.later(show) if isinstance(change.change, FillIn)]
    for (side, at), fill in zip(unknown, fills, strict=False):
        if fill is not but and isinstance(fill.change, FillIn):
            value = fill.change.value
            if value is None:
                state, value = "s", _said_at(place, fill)
            sides[side][at] = (sides[side][at][0], value)
    return state


def _said_at(place: ShownPlace, change: ChangePicture) -> int | None:
    """The first number that is said when a change takes effect."""
    at = bisect_left(place.book.starts, change.at)
    if at < len(place.book.starts) and place.book.starts[at] < min(place.end, change.at + _SOON):
        return place.book.book.said[at]
    return None


def _balanced(sides: _Sides, own: tuple[int, int], state: str, kind: str) -> list[Hint]:
    """The values of a term with which its side is as much as each other side."""
    mine = sides[own[0]]
    rest = _sum(mine, own[1])
    if rest is None:
        return []
    totals = [_sum(side) for side in sides if side is not mine]
    clue = named(f"bl{state}:{kind}:{'n' if len(mine) > 1 else '1'}{len(sides)}")
    return [(mine[own[1]][0] * (total - rest), clue) for total in totals if total is not None]


def _sum(side: list[tuple[int, int | None]], without: int = -1) -> int | None:
    """The value of a side, one term left out; None where a term is unknown."""
    found = 0
    for at, (sign, value) in enumerate(side):
        if at != without:
            if value is None:
                return None
            found += sign * value
    return found
