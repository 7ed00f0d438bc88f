"""What stands around a number, read once more, as it is or with another number in its place."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import cached_property

from studio.agree.expect.expectation import pointing
from studio.agree.expect.network import network
from studio.agree.expect.place import Place, book_of
from studio.agree.expect.shown.suspects import places as shown_places
from studio.agree.expect.shown.suspects import pointing as shown_pointing
from studio.agree.expect.suspicion import surprises
from studio.agree.reading import case_of
from studio.agree.wording import spelled
from studio.script.model import Direction, Lesson, Word
from studio.script.model import Place as InScript

WIDE = 120  # words before and after that are read once more
_WORD = re.compile(r"[^\W_]+(?:[-'’][^\W_]+)*")
Span = tuple[int, int]


def around(start: int, end: int, at: int) -> Span:
    """The words around word `at` that are read once more: those of its segment, from `start` to before `end`, of a long one those
    near by."""
    if end - start <= 2 * WIDE:
        return start, end
    return max(start, at - WIDE), min(end, at + WIDE)


class Retold:
    """The words of a span as a lesson of their own, with other numbers at some words, or another direction in the place of one:
    how much each number surprises, what is true and what is false, and what the rules mind."""

    def __init__(self, lesson: Lesson, span: Span, changed: Mapping[int, int], other: Direction | None = None) -> None:
        self._start = span[0]
        self.case = case_of(part(lesson, span, changed, other))

    @cached_property
    def surprises(self) -> Mapping[int, float]:
        """How much each number that is said surprises, in nats, by its word in the whole lesson."""
        book = book_of(self.case)
        places = [Place(book, at) for at, number in enumerate(book.numbers) if number.start not in book.counted_at]
        found = surprises(places, network("said"), pointing) if places else ()
        return {
            place.number.start + self._start: float(surprise) for place, surprise in zip(places, found, strict=True)
        }

    @cached_property
    def shown_surprises(self) -> Mapping[tuple[InScript, int], float]:
        """How much each number of a direction surprises, by the place of the direction and its own index in it."""
        places = shown_places(self.case)
        found = surprises(places, network("shown"), shown_pointing) if places else ()
        return {
            (place.slot.direction.place, place.index): float(surprise)
            for place, surprise in zip(places, found, strict=True)
        }

    def told(self, holds: bool) -> int:
        """How many statements hold, or do not."""
        return sum(statement.holds is holds for statement in self.case.talk.statements)

    def told_at(self, word: int, holds: bool) -> int:
        """The same of those that cover a word of the whole lesson."""
        return sum(statement.holds is holds for statement in self.case.covering.get(word - self._start, ()))

    @cached_property
    def minded(self) -> tuple[int, int]:
        """How many errors and how many notes the rules have that doubt nothing."""
        from studio.agree.check import rules_findings  # those that doubt try numbers

        errors = [finding.level == "error" for finding in rules_findings(self.case)]
        return sum(errors), len(errors) - sum(errors)


def part(lesson: Lesson, span: Span, changed: Mapping[int, int], other: Direction | None = None) -> Lesson:
    """The words of a span, all in one segment, as a lesson of their own; `other` takes the place of the direction that stood where
    it stands."""
    start, end = span
    segment = lesson.segments[lesson.words[start].segment]
    words = tuple(
        said(replace(word, index=at, segment=0), changed.get(start + at))
        for at, word in enumerate(lesson.words[start:end])
    )
    directions = tuple(
        replace(
            other if other is not None and other.place == direction.place else direction,
            at=direction.at - start,
            segment=0,
        )
        for direction in segment.directions
        if start <= direction.at <= end
    )
    return replace(lesson, segments=(replace(segment, index=0, words=words, directions=directions),))


def said(word: Word, value: int | None) -> Word:
    """A word with another number in it, in the same form, or as it is."""
    match = _WORD.search(word.text)
    if value is None or match is None:
        return word
    new = str(value) if match[0][0].isdigit() else spelled(value)
    text = new.capitalize() if match[0][0].isupper() else new
    return replace(word, text=word.text[: match.start()] + text + word.text[match.end() :], plain=new)
