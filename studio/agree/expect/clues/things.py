"""Numbers said of the same things ("four frogs … four frogs") and in the same phrase ("that makes nine.")."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from studio.agree.expect.hints import Hint, named
from studio.agree.expect.place import Place

_REACH = 20  # numbers on either side


def find(place: Place) -> Iterator[Hint]:
    book, index = place.book, place.index
    earlier = range(index - 1, max(-1, index - _REACH), -1)
    later = range(index + 1, min(len(book.numbers), index + _REACH))
    phrase = f":{place.before.sort}:{place.after.sort}"
    yield from _side(place, earlier, "b", phrase)
    yield from _side(place, later, "a", phrase)


def _side(place: Place, indices: Iterable[int], side: str, phrase: str) -> Iterator[Hint]:
    book = place.book
    after, before = place.after.word, place.before.word
    thing = "" if after in (".", ",") else after.removesuffix("s")
    found = 0
    same = False
    for other in indices:
        number = book.numbers[other]
        if not place.start <= number.start < place.end:
            return
        beside = book.after[other].word
        if thing and found < 2 and beside.removesuffix("s") == thing:
            yield number.value, named(f"noun{side}{found}:{place.after.sort}")
            found += 1
        if not same and beside == after and book.before[other].word == before:
            yield number.value, named(f"fr{side}{phrase}")
            same = True
