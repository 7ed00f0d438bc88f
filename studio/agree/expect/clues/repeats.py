"""A number that is said in the same sentence, in the sentences next to it, further away; with digits of such numbers
and what is missing from them to ten."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.place import MOST, OFTEN, Place

_FAR = 6  # sentences
_TIMES = tuple(named(f"far{count}") for count in range(5))
_OFTEN = tuple(named(f"all{share}") for share in range(6))
_SEGMENT = named("seg")
_SHARES = (OFTEN, 0.07, 0.11, 0.16, 0.22)
"""Shares of the numbers of a lesson from which a number is said often, and more often."""


def find(place: Place) -> Iterator[Hint]:
    book, case, number = place.book, place.book.case, place.number
    sentences = case.sentences
    words = book.words
    sentence, at = place.sentence, place.sentence_index
    manner = "q" if "?" in words[sentence.end - 1].text else "n"
    if manner == "n" and len(sentence.numbers) == 1 and sentence.end - sentence.start <= 4:
        manner = "l"
    same, steps = _of_manner(manner)
    for other in place.others:
        yield other.value, same
    for step, beside in steps:
        if 0 <= at + step < len(sentences) and sentences[at + step].segment == place.segment:
            values = book.said_in_sentence[at + step]
            for value in values[:MOST] if step > 0 else values[-MOST:]:
                yield value, beside
    for value, count in book.said_around(at, _FAR).items():
        count -= value == number.value
        if count:
            yield value, _TIMES[min(count, 4)]
    for value, count in case.times_said_in(place.segment).items():
        if count > 1 or value != number.value:
            yield value, _SEGMENT
    rest = max(1, len(book.numbers) - 1)
    for value, count in book.often:
        share = (count - (value == number.value)) / rest
        if share >= _SHARES[0]:
            yield value, _OFTEN[bisect_right(_SHARES, share)]
    yield from _digits(place)
    yield from _nought(place)


@lru_cache(maxsize=KEPT)
def _of_manner(manner: str) -> tuple[Bundle, tuple[tuple[int, Bundle], ...]]:
    """The clues of numbers of the same sentence, and of those one and two sentences away."""
    return named("same:" + manner), tuple((step, named(f"s{step}:{manner}")) for step in (-1, 1, -2, 2))


@lru_cache(maxsize=KEPT)
def _of_digits(sort: str) -> tuple[Bundle, ...]:
    return tuple(named(f"{name}:{sort}") for name in ("digt", "digo", "digT", "to10"))


def _digits(place: Place) -> Iterator[Hint]:
    tens, ones, full, to_ten = _of_digits(place.after.sort)
    for value, count in place.book.said_around(place.sentence_index, 2).items():
        if count == 1 and value == place.number.value:
            continue
        if value > 9:
            yield value // 10, tens
            yield value % 10, ones
            yield value // 10 * 10, full
        if value < 20:
            yield abs(10 - value), to_ten


def _nought(place: Place) -> Iterator[Hint]:
    """Another word for nought than the number itself."""
    book, at, number = place.book, place.sentence_index, place.number
    if any(not number.start <= word < number.end for word in book.noughts(at)):
        yield 0, named("zw")
        return
    for beside in (at - 1, at + 1):
        if 0 <= beside < len(book.case.sentences) and book.noughts(beside):
            yield 0, named("zw1")
            return
