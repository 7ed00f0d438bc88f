"""The other numbers of the direction, by themselves and with what is said."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.shown.place import ShownPlace

_NEAR = 5  # numbers
_BEFORE = 3  # numbers
_Pairs = tuple[tuple[Bundle, Bundle], ...]


def find(place: ShownPlace) -> Iterator[Hint]:
    """From the other numbers of the direction."""
    mates = place.mates[:6]
    after = [place.book.book.said[index] for index in place.after[:_NEAR]]
    before = [place.book.book.said[index] for index in place.before[:_BEFORE]]
    for mate in mates:
        value = mate.value
        by_itself, with_after, with_before = _of_mate(mate.name)
        yield value, by_itself
        for said, (less, more) in zip(after, with_after, strict=False):
            yield abs(said - value), less
            yield said + value, more
        for said, (less, more) in zip(before, with_before, strict=False):
            yield abs(said - value), less
            yield said + value, more
    if len(mates) > 1:
        yield sum(mate.value for mate in mates), named(f"qs{min(len(mates), 4)}")
        yield abs(mates[0].value - mates[1].value), named("qm")
        greatest = max(mate.value for mate in mates)
        yield 2 * greatest - sum(mate.value for mate in mates), named(f"qw{min(len(mates), 4)}")


@lru_cache(maxsize=KEPT)
def _of_mate(name: str) -> tuple[Bundle, _Pairs, _Pairs]:
    """The clues of a mate: by itself; taken from and added to each number that is said later; and that was said before."""
    return (
        Bundle(((0, f"q{name}"), (1, f"q>{name}"), (-1, f"q<{name}"))),
        tuple((named(f"q-{rank}{name}"), named(f"q+{rank}{name}")) for rank in range(_NEAR)),
        tuple((named(f"Q-{rank}{name}"), named(f"Q+{rank}{name}")) for rank in range(_BEFORE)),
    )
