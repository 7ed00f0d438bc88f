"""Numbers that are said in like words: of the numbers of the lesson those whose sentences share the rarest words with that of
the place ("Three hedgehogs climbed on the raft … how many are on the raft? Three.")."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import lru_cache
from math import log, sqrt

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.place import Book, Place

_REACH = 6  # words on each side
_SHORT = 4  # words of an answer
_ASKED = 12  # words
_EARLIER, _LATER = 24, 12  # numbers
_MOST = 3
_ELSEWHERE = 2
_RARE = 20  # numbers with the word around them
_LEVELS = (0.15, 0.3, 0.5, 0.75)


def find(place: Place) -> Iterator[Hint]:
    kin, index = place.book.once(_Kin), place.index
    numbers = place.book.numbers
    beside = place.preceding[-1] if place.preceding else None
    for side, indices, most in (
        ("b", range(index - 1, max(-1, index - _EARLIER), -1), _MOST),
        ("a", range(index + 1, min(len(numbers), index + _LATER)), _MOST - 1),
    ):
        like: list[tuple[float, int, int]] = []
        changed = False
        for at in indices:
            if not place.start <= numbers[at].start < place.end:
                break
            likeness = kin.likeness(index, at)
            if likeness > _LEVELS[0]:
                like.append((-likeness, len(like), at))
        for rank, (likeness, _, at) in enumerate(sorted(like)[:most]):
            level, value = _level(-likeness), numbers[at].value
            yield value, _akin(side, rank, level, place.after.sort)
            if not rank:
                yield value, _steps(side, level)
            if value != beside and beside is not None and not changed:
                changed = True
                together, apart = _by_number(side, level)
                yield value + beside, together
                yield abs(value - beside), apart
    elsewhere = sorted(
        (-likeness, abs(at - index), at)
        for at, likeness in kin.elsewhere(index, place.start, place.end)
        if likeness > _LEVELS[1]
    )
    for rank, (likeness, _, at) in enumerate(elsewhere[:_ELSEWHERE]):
        yield numbers[at].value, _akin("x", rank, _level(-likeness), "")


@lru_cache(maxsize=KEPT)
def _steps(side: str, level: int) -> Bundle:
    """One more and one less than a number that is said in like words."""
    return Bundle(tuple((step, f"nounk{side}{level}:{step:+}") for step in (1, -1)))


@lru_cache(maxsize=KEPT)
def _by_number(side: str, level: int) -> tuple[Bundle, Bundle]:
    """Such a number, changed by the one before the place."""
    return named(f"nounk{side}+", f"nounk{side}{level}+"), named(f"nounk{side}-", f"nounk{side}{level}-")


def _level(likeness: float) -> int:
    return sum(likeness > level for level in _LEVELS)


@lru_cache(maxsize=KEPT)
def _akin(side: str, rank: int, level: int, sort: str) -> Bundle:
    return named(f"nounk{side}{rank}", f"nounk{side}{level}", f"nounk{side}{rank}{level}", f"nounk{side}:{sort}")


class _Kin:
    """The words around each number of a lesson, each with its weight: the rarer the more."""

    def __init__(self, book: Book) -> None:
        self._book = book
        words, case = book.words, book.case
        numbers = {word for number in book.numbers for word in range(number.start, number.end)}
        sentences = case.sentences
        stems = [_stem(word.plain) for word in words]
        often = Counter(
            stem for one in sentences for stem in {stems[at] for at in range(one.start, one.end) if at not in numbers}
        )
        weights = {stem: log(len(sentences) / count) for stem, count in often.items()}
        self._around: list[dict[str, float]] = []
        self._lengths: list[float] = []
        self._with: dict[str, list[int]] = {}
        for index, number in enumerate(book.numbers):
            at = book.sentence_of[index]
            one = sentences[at]
            near = [*range(max(one.start, number.start - _REACH), min(one.end, number.end + _REACH))]
            if one.end - one.start <= _SHORT and at and case.asks(sentences[at - 1]):
                near += range(max(sentences[at - 1].start, sentences[at - 1].end - _ASKED), sentences[at - 1].end)
            here = {stems[word]: weights[stems[word]] for word in near if word not in numbers and len(stems[word]) > 2}
            self._around.append(here)
            self._lengths.append(sqrt(sum(weight * weight for weight in here.values())) or 1.0)
            for stem in here:
                self._with.setdefault(stem, []).append(index)

    def likeness(self, one: int, other: int) -> float:
        """The cosine of the angle between the weights of the words around two numbers."""
        a, b = self._around[one], self._around[other]
        shared = a.keys() & b.keys()
        return (
            sum(a[stem] * a[stem] for stem in shared) / (self._lengths[one] * self._lengths[other]) if shared else 0.0
        )

    def elsewhere(self, index: int, start: int, end: int) -> Iterator[tuple[int, float]]:
        """The numbers outside of a segment that share a rare word, with how like they are."""
        numbers = self._book.numbers
        near = {
            at
            for stem in self._around[index]
            if len(self._with[stem]) <= _RARE
            for at in self._with[stem]
            if not start <= numbers[at].start < end
        }
        for at in near:
            yield at, self.likeness(index, at)


def _stem(word: str) -> str:
    return word.removesuffix("s") if not word.endswith("ss") else word
