"""Where a number of a title stands: the other words and numbers of the title, and its segment, of which it tells what it is
about."""

from __future__ import annotations

from collections.abc import Sequence

from studio.agree.case import Case
from studio.agree.expect.hints import Hint
from studio.agree.manners import LABELS
from studio.script.model import Segment
from studio.talk.model import Number

_LABELS = LABELS - {"number"}  # "The number nine"
_BEHIND_NUMBERS = ".:)—–-"
_FEWEST_NUMBERED = 2


class TitledBook:
    """What is the same for all numbers in the titles of a lesson."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.segments: Sequence[Segment] = () if case.lesson is None else case.lesson.segments
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
        self.words = book.case.title_words[segment]
        self.numbers = book.case.title_numbers[segment]
        self.number = self.numbers[index]
        self.start, self.end = book.case.segments[segment]

    @property
    def value(self) -> int:
        return self.number.value

    @property
    def said(self) -> Sequence[Number]:
        """The numbers that are said in the segment."""
        return self.book.case.numbers_between(self.start, self.end)


def places(case: Case) -> list[TitledPlace]:
    """All numbers in the titles of a lesson over segments in which something is said, but for those that only name a part
    of it ("Lesson 14")."""
    book = TitledBook(case)
    numbered = _numbered(case)
    return [
        TitledPlace(book, segment.index, index)
        for segment in book.segments
        if segment.words
        for index, number in enumerate(case.title_numbers[segment.index])
        if (index or segment.index not in numbered)
        and (not number.start or case.title_words[segment.index][number.start - 1].text.lower() not in _LABELS)
    ]


def _numbered(case: Case) -> set[int]:
    """The segments whose titles begin with numbers that only number them ("One", "Two"; "1. Warm-up", "2. A story")."""
    found: list[int] = []
    for segment, (words, numbers) in enumerate(zip(case.title_words, case.title_numbers, strict=True)):
        if numbers and numbers[0].start == 0 and numbers[0].value == len(found) + 1:
            end = numbers[0].end
            if end == len(words) or words[end - 1].text[-1] in _BEHIND_NUMBERS:
                found.append(segment)
    return set(found) if len(found) >= _FEWEST_NUMBERED else set()
