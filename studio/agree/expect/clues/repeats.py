"""A number that is said in the same sentence, in the sentences next to it, further away; with digits of such numbers
and what is missing from them to ten."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator

from studio.agree.expect.place import MOST, OFTEN, Place

_FAR = 6  # sentences
_FAR_NAMES = ("", "far1", "far2", "far3", "far4")
_LESSON_NAMES = ("", "all1", "all2", "all3", "all4", "all5")
_SHARES = (OFTEN, 0.07, 0.11, 0.16, 0.22)
"""Shares of the numbers of a lesson from which a number is said often, and more often."""


def find(place: Place) -> Iterator[tuple[int, str]]:
    book, case, number = place.book, place.book.case, place.number
    sentences = case.sentences
    words = book.words
    sentence, at = place.sentence, place.sentence_index
    manner = "q" if "?" in words[sentence.end - 1].text else "n"
    if manner == "n" and len(sentence.numbers) == 1 and sentence.end - sentence.start <= 4:
        manner = "l"
    for other in place.others:
        yield other.value, "same:" + manner
    for step in (-1, 1, -2, 2):
        if 0 <= at + step < len(sentences) and sentences[at + step].segment == place.segment:
            name = f"s{step}:{manner}"
            numbers = sentences[at + step].numbers
            for other in numbers[:MOST] if step > 0 else numbers[-MOST:]:
                yield other.value, name
    for value, count in book.said_around(at, _FAR).items():
        count -= value == number.value
        if count:
            yield value, _FAR_NAMES[min(count, 4)]
    for value, count in case.times_said_in(place.segment).items():
        if count > 1 or value != number.value:
            yield value, "seg"
    rest = max(1, len(book.numbers) - 1)
    for value, count in book.often:
        share = (count - (value == number.value)) / rest
        if share >= _SHARES[0]:
            yield value, _LESSON_NAMES[bisect_right(_SHARES, share)]
    yield from _digits(place)
    yield from _nought(place)


def _digits(place: Place) -> Iterator[tuple[int, str]]:
    sort = place.after.sort
    for value, count in place.book.said_around(place.sentence_index, 2).items():
        if count == 1 and value == place.number.value:
            continue
        if value > 9:
            yield value // 10, "digt:" + sort
            yield value % 10, "digo:" + sort
            yield value // 10 * 10, "digT:" + sort
        if value < 20:
            yield abs(10 - value), "to10:" + sort


def _nought(place: Place) -> Iterator[tuple[int, str]]:
    """Another word for nought than the number itself."""
    book, at, number = place.book, place.sentence_index, place.number
    if any(not number.start <= word < number.end for word in book.noughts(at)):
        yield 0, "zw"
        return
    for beside in (at - 1, at + 1):
        if 0 <= beside < len(book.case.sentences) and book.noughts(beside):
            yield 0, "zw1"
            return
