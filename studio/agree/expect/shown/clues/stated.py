"""The numbers of statements that follow and went before."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.shown.place import ShownPlace

_STATEMENTS = 8
_STATED = 4  # numbers of a statement


def find(place: ShownPlace) -> Iterator[Hint]:
    case = place.book.book.case
    mates = {mate.value for mate in place.mates}
    for start, end, side in (
        (place.slot.at, place.until, "n"),
        (max(place.start, place.slot.at - 25), place.slot.at, "p"),
    ):
        for statement in case.statements_between(start, end)[:_STATEMENTS]:
            values = statement.values[: -_STATED - 1 : -1]
            yield from zip(values, _of_statement(side, statement.kind, not mates.isdisjoint(values)), strict=False)
            if statement.expected is not None and not isinstance(statement.expected, bool):
                yield statement.expected, named(f"sx{side}")


@lru_cache(maxsize=KEPT)
def _of_statement(side: str, kind: str, with_mate: bool) -> tuple[Bundle, ...]:
    """The clues of the last numbers of a statement, the very last first."""
    kind = kind.split(" by")[0]
    return tuple(named(f"st{side}{at}{'m' if with_mate else ''}:{kind}") for at in range(_STATED))
