"""Numbers that stand written on the screen: in the words of a wait close by, in a text; what two of them make, and the next to the
one that was just said."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.place import Place
from studio.agree.expect.writing import Near, Writing


def find(place: Place) -> Iterator[Hint]:
    writing = place.book.once(Writing)
    for near in writing.near(place):
        if near.written.values:
            yield from _in_wait(near)
    for rank, text in enumerate(writing.texts(place)):
        yield from _in_text(place, rank, text.values)


def _in_wait(near: Near) -> Iterator[Hint]:
    values = near.written.values
    itself, beside, to_ten, together, apart = _of_wait(near.where, "L" if near.like else "", min(2, len(values)))
    for value in values:
        yield value, itself
    if len(values) == 1:
        yield values[0], beside
        yield abs(10 - values[0]), to_ten
    elif len(values) == 2:
        yield sum(values), together
        yield abs(values[0] - values[1]), apart


@lru_cache(maxsize=KEPT)
def _of_wait(where: str, like: str, count: int) -> tuple[Bundle, ...]:
    """The clues of a wait: its number, one more and one less, what is missing to ten, the sum of two, what lies between them."""
    name = f"pic1w{where}{like}"
    return (
        named(name, f"{name}{count}"),
        Bundle(tuple((step, f"{name}:{step}") for step in (1, -1, 10, -10))),
        *(named(f"{name}{sort}") for sort in ("c", "+", "-")),
    )


def _in_text(place: Place, rank: int, values: tuple[int, ...]) -> Iterator[Hint]:
    last = place.preceding[-1] if place.preceding else None
    following = place.following[0] if place.following else None
    for at, value in enumerate(values):
        before, after = values[at - 1] if at else None, values[at + 1] if at + 1 < len(values) else None
        goes_on = (before is not None and before == last) + 2 * (after is not None and after == following)
        yield value, _of_text(rank, at, goes_on)


@lru_cache(maxsize=KEPT)
def _of_text(rank: int, at: int, goes_on: int) -> Bundle:
    return named("pic1t", f"pic1t{rank}", f"pic1tp{at}", *([f"pic1tn{goes_on}"] if goes_on else []))
