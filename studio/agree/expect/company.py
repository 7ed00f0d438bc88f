"""The company of a number: the numbers that are said and shown around it, each with the words around it. A number is often
what another one was, and which of them, their words tell ("Six frogs sit on the log." and then "How many sat there? Six."). No
word of it tells a number: what the numbers are, `relations.py` looks at."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from studio.agree.expect.hints import Bundle, named
from studio.agree.expect.patterns import NUMBER, as_said, patterns
from studio.agree.expect.place import Book, Place
from studio.agree.expect.relations import NONE, Numbers
from studio.agree.expect.shown.place import ShownBook, ShownPlace
from studio.agree.expect.shown.surroundings import words_around
from studio.agree.expect.surroundings import sentence_words

SAID_BEFORE, SAID_AFTER, SHOWN_BEFORE, SHOWN_AFTER = 10, 6, 4, 3
SEATS = SAID_BEFORE + SAID_AFTER + SHOWN_BEFORE + SHOWN_AFTER
"""Numbers around a place that are looked at: those said before, the nearest first; said after; shown before; shown after."""
_FURTHEST = 4
AWAY = 2 * _FURTHEST + 3
"""Classes of how many sentences it is to another number: another segment, then from four before to four after, none there."""
_EMPTY = AWAY - 1


def _of_two() -> tuple[list[int], list[int]]:
    """The seats of the pairs that are looked at: of six numbers said before and three after any two, and each of the three
    nearest before and the two nearest after with each of the three last shown and the two next."""
    said = [*range(6), *range(SAID_BEFORE, SAID_BEFORE + 3)]
    near = [0, 1, 2, SAID_BEFORE, SAID_BEFORE + 1]
    first = SAID_BEFORE + SAID_AFTER
    shown = [*range(first, first + 3), *range(first + SHOWN_BEFORE, first + SHOWN_BEFORE + 2)]
    pairs = [(one, other) for at, one in enumerate(said) for other in said[at + 1 :]]
    pairs += [(one, other) for other in shown for one in near]
    return [one for one, _ in pairs], [other for _, other in pairs]


PAIRS = _of_two()


@dataclass(frozen=True, slots=True, eq=False)
class Company:
    """Of some places of one lesson: `around` is what stands around each number that is near one of them, `numbers` which it is
    (with none behind them for an empty seat). `own` is the index among them of each place, `near` a row for
    each place with the indices of those in its `SEATS`, `away` how far away they are, in the classes of `AWAY`."""

    around: Sequence[Sequence[Bundle]]
    numbers: Numbers
    own: Numbers
    near: Numbers
    away: Numbers

    def some(self, places: Numbers) -> tuple[Company, Numbers]:
        """The company of some of the places, and which of the numbers it has."""
        own, near = self.own[places], self.near[places]
        there = np.unique(np.concatenate((near.ravel(), own, [len(self.around)])))
        around = [self.around[at] for at in there[:-1].tolist()]
        own, near = (np.searchsorted(there, seats).astype(np.int32) for seats in (own, near))
        return Company(around, self.numbers[there], own, near, self.away[places]), there


class _Numbers:
    """All numbers of a lesson, those that are said and then those of the directions."""

    def __init__(self, book: Book) -> None:
        self._book = book
        said = [Place(book, index) for index in range(len(book.numbers))]
        shown_book = book.once(ShownBook)
        shown = shown_book.places
        self.said = len(said)
        self.words = np.array([place.number.start for place in said], dtype=np.int32)
        self.shown_words = np.array([place.slot.at for place in shown], dtype=np.int32)
        starts = [sentence.start for sentence in book.case.sentences]
        sentences = np.maximum(0, np.searchsorted(starts, self.shown_words, side="right") - 1)
        self.sentences = np.array([*(place.sentence_index for place in said), *sentences], dtype=np.int32)
        segments = [*(place.segment for place in said), *(place.segment for place in shown)]
        self.segments = np.array(segments, dtype=np.int32)
        values = [*(place.number.value for place in said), *(place.value for place in shown)]
        self.numbers = np.array([*(min(value, NONE) for value in values), NONE], dtype=np.int32)
        self.firsts = np.cumsum([0, *map(len, shown_book.groups)]).tolist()
        self._sentence: dict[int, Bundle] = {}
        self._direction: dict[int, Bundle] = {}
        self.around = [*map(self._of_said, said), *map(self._of_shown, shown)]

    def _of_said(self, place: Place) -> list[Bundle]:
        at = place.sentence_index
        kept = self._sentence.get(at)
        if kept is None:
            kept = self._sentence[at] = named(*sentence_words(self._book, at))
        counted = place.number.start in self._book.counted_at
        return [*patterns(place), kept, named(f"counts {counted}", f"form {place.number.form}")]

    def _of_shown(self, place: ShownPlace) -> list[Bundle]:
        kept = self._direction.get(place.group)
        if kept is None:
            kept = self._direction[place.group] = named(*self._words(place))
        slot = place.slot
        return [kept, named("shown", f"is {slot.kind}.{slot.name}", f"kind {slot.kind}", f"name {slot.name}",
                            f"mates {len(place.mates)}", type(slot.direction).__name__)]  # fmt: skip

    def _words(self, place: ShownPlace) -> Iterator[str]:
        words = as_said(self._book)
        for where, word in words_around(place):
            if words[word] != NUMBER:
                yield f"{where} {words[word]}"

    def of(self, own: Numbers, said: tuple[Numbers, Numbers], shown: tuple[Numbers, Numbers]) -> Company:
        """The company of places with these indices: for each how many numbers are said before it and from which on after it,
        and the same of those that are shown."""
        end = len(self.around)
        near = np.concatenate((
            _seats(said[0][:, None] - 1 - np.arange(SAID_BEFORE), 0, self.said, end),
            _seats(said[1][:, None] + np.arange(SAID_AFTER), 0, self.said, end),
            _seats(self.said + shown[0][:, None] - 1 - np.arange(SHOWN_BEFORE), self.said, end, end),
            _seats(self.said + shown[1][:, None] + np.arange(SHOWN_AFTER), self.said, end, end),
        ), axis=1)  # fmt: skip
        sentences, segments = np.append(self.sentences, 0), np.append(self.segments, -1)
        away = np.clip(sentences[near] - sentences[own][:, None], -_FURTHEST, _FURTHEST) + _FURTHEST + 1
        away = np.where(segments[near] == segments[own][:, None], away, 0)
        away = np.where(near == end, _EMPTY, away).astype(np.int32)
        return Company(self.around, self.numbers, own, near, away).some(np.arange(len(own), dtype=np.int32))[0]


def _seats(wanted: Numbers, first: int, last: int, none: int) -> Numbers:
    return np.where((wanted >= first) & (wanted < last), wanted, none).astype(np.int32)


def of_said(places: Sequence[Place]) -> Company:
    """The company of numbers that are said in one lesson (at least one)."""
    numbers = places[0].book.once(_Numbers)
    own = np.array([place.index for place in places], dtype=np.int32)
    shown = np.searchsorted(numbers.shown_words, numbers.words[own], side="right").astype(np.int32)
    return numbers.of(own, (own, own + 1), (shown, shown))


def of_shown(places: Sequence[ShownPlace]) -> Company:
    """The company of numbers of the directions of one lesson (at least one)."""
    numbers = places[0].book.book.once(_Numbers)
    own = np.array([numbers.firsts[place.group] + place.index for place in places], dtype=np.int32)
    said = np.searchsorted(numbers.words, numbers.shown_words[own], side="left").astype(np.int32)
    return numbers.of(numbers.said + own, (said, said), (own, own + 1))
