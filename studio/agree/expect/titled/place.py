"""Where a number of a title stands: the other words and numbers of the title, and its segment, of which it tells what it is
about."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from studio.agree.case import Case
from studio.agree.expect.hints import Hint
from studio.agree.manners import LABELS
from studio.script.model import Segment, Word
from studio.talk.model import Number
from studio.talk.numbers import find_numbers, words_of

FORMS = ("word", "digits")
"""How a number is written that counts: "first" and "once" are none."""
_LABELS = LABELS - {"number"}  # "The number nine"


class TitledBook:
    """What is the same for all numbers in the titles of a lesson."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.segments: Sequence[Segment] = () if case.lesson is None else case.lesson.segments
        self.words: list[Sequence[Word]] = [words_of(segment.title) for segment in self.segments]
        self.numbers: list[Sequence[Number]] = [_numbers(words) for words in self.words]
        self.header = [] if case.lesson is None else [one.value for one in _numbers(words_of(case.lesson.header.title))]
        self.said_most = [value for value, _ in case.times_said.most_common(3)]
        self.hints: dict[int, tuple[Hint, ...]] = {}
        """What points to all numbers of a title, kept by `titled/clues.py`."""


class TitledPlace:
    """One number of a title: `index` is its own among the numbers of it."""

    __slots__ = ("book", "end", "index", "number", "numbers", "segment", "start", "words")

    def __init__(self, book: TitledBook, segment: int, index: int) -> None:
        self.book = book
        self.segment = segment
        self.index = index
        self.words = book.words[segment]
        self.numbers = book.numbers[segment]
        self.number = self.numbers[index]
        self.start, self.end = book.case.segments[segment]

    @property
    def value(self) -> int:
        return self.number.value

    @property
    def said(self) -> Sequence[Number]:
        """The numbers that are said in the segment."""
        return self.book.case.numbers_between(self.start, self.end)

    def times_said(self) -> Counter[int]:
        return Counter(number.value for number in self.said)


def places(case: Case) -> list[TitledPlace]:
    """All numbers in the titles of a lesson over segments in which something is said, but for those that only name a part
    of it ("Lesson 14")."""
    book = TitledBook(case)
    return [
        TitledPlace(book, segment.index, index)
        for segment in book.segments
        if segment.words
        for index, number in enumerate(book.numbers[segment.index])
        if not number.start or book.words[segment.index][number.start - 1].text.lower() not in _LABELS
    ]


def _numbers(words: Sequence[Word]) -> list[Number]:
    return [number for number in find_numbers(words) if number.form in FORMS]
