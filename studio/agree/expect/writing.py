"""What stands written on the screen around a place: the words of the waits before it and after it ("[wait 5 s: How many more to
20?]"), and texts."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass

from studio.agree.expect.place import Book, Place
from studio.pictures.kinds.text import Text
from studio.script.model import Wait
from studio.talk.numbers import counting_numbers, words_of

_SOON, _SINCE = 24, 14  # words to a wait, and since one
_TEXTS = 3
_MOST = 6  # numbers of a text


@dataclass(frozen=True, slots=True)
class Written:
    """Numbers that are written on the screen, in order, and the other words beside them, without an s at their end."""

    values: tuple[int, ...]
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Near:
    """What is written near a place: `where` is "a" for a wait after it, "b" before it, with how many sentences lie between, at
    most 2; `like` tells whether the wait shares two words with the sentence of the place."""

    where: str
    like: bool
    written: Written


def written(text: str) -> Written:
    """What a text on the screen says."""
    words = words_of(text)
    numbers = counting_numbers(words)
    inside = {at for number in numbers for at in range(number.start, number.end)}
    others = tuple(word.plain.removesuffix("s") for at, word in enumerate(words) if at not in inside)
    return Written(tuple(number.value for number in numbers[:_MOST]), others)


class Writing:
    """The waits of a lesson, with words or without, and its texts."""

    def __init__(self, book: Book) -> None:
        self._book = book
        lesson = book.case.lesson
        waits = [] if lesson is None else [one for one in lesson.directions if isinstance(one, Wait)]
        self._waits = [(wait, written(wait.words)) for wait in waits]
        self._at = [wait.at for wait in waits]
        self._texts = {
            id(seen): written(seen.picture.text) for seen in book.case.pictures if isinstance(seen.picture, Text)
        }
        self._stems: dict[int, frozenset[str]] = {}
        self._near: dict[int, tuple[Near, ...]] = {}

    def numbers_between_waits(self, place: Place) -> tuple[int, int]:
        """How many numbers are said from the last wait of the segment to the place, and from it to the next (those of the
        segment where there is none)."""
        numbers = self._book.case.number_starts
        at = bisect_right(self._at, place.number.start)
        last = max(place.start, self._at[at - 1] if at else 0)
        following = min(place.end, self._at[at] if at < len(self._at) else place.end)
        return place.index - bisect_left(numbers, last), bisect_left(numbers, following) - place.index - 1

    def near(self, place: Place) -> tuple[Near, ...]:
        """The waits next to a place, after it and before it; the same for all numbers of a sentence between two waits."""
        first = bisect_right(self._at, place.number.start)
        key = place.sentence_index * (len(self._at) + 1) + first
        kept = self._near.get(key)
        if kept is None:
            kept = self._near[key] = tuple(self._find(place, first))
        return kept

    def texts(self, place: Place) -> list[Written]:
        """The texts on the screen at a place, the newest first."""
        if not self._texts:
            return []
        seen = self._book.case.on_screen_at(place.number.start)
        found = [self._texts[id(one)] for one in reversed(seen) if id(one) in self._texts]
        return [one for one in found if one.values][:_TEXTS]

    def _find(self, place: Place, first: int) -> Iterator[Near]:
        sentence, case = place.sentence, self._book.case
        for side, at in (("a", first), ("b", first - 1)):
            if not 0 <= at < len(self._waits):
                continue
            wait, said = self._waits[at]
            if wait.segment != place.segment:
                continue
            if side == "a":
                if wait.at - sentence.end > _SOON:
                    continue
                away = case.sentence_index(max(0, wait.at - 1)) - place.sentence_index
            else:
                if sentence.start - wait.at > _SINCE:
                    continue
                away = place.sentence_index - case.sentence_index(wait.at)
            yield Near(
                f"{side}{max(0, min(2, away))}", len(self._of_sentence(place).intersection(said.words)) > 1, said
            )

    def _of_sentence(self, place: Place) -> frozenset[str]:
        kept = self._stems.get(place.sentence_index)
        if kept is None:
            sentence = place.sentence
            inside = {at for number in sentence.numbers for at in range(number.start, number.end)}
            kept = self._stems[place.sentence_index] = frozenset(
                self._book.words[at].plain.removesuffix("s")
                for at in range(sentence.start, sentence.end)
                if at not in inside
            )
        return kept
