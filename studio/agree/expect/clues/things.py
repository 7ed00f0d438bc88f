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
    book, things = place.book, place.book.things
    after, before, thing = place.after.word, place.before.word, things[place.index]
    found = 0
    same = False
    for other in indices:
        number = book.numbers[other]
        if not place.start <= number.start < place.end:
            return
        if thing and found < 2 and things[other] == thing:
            yield number.value, named(f"noun{side}{found}:{place.after.sort}")
            found += 1
        if not same and book.after[other].word == after and book.before[other].word == before:
            yield number.value, named(f"fr{side}{phrase}")
            same = True
