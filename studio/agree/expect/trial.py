"""A number that is doubted is tried: what stands around it is read once more with the number that was rather to be expected in its
place. Where a slip was made the numbers beside it fit better than before, and sums come true; where only an odd thing was said, they
do not. How sure one can be by that was learned (`benchmarks/trials.py`)."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from studio.agree.case import Case
from studio.agree.expect.expectation import pointing
from studio.agree.expect.network import network
from studio.agree.expect.place import Place, book_of
from studio.agree.expect.suspicion import Suspect, surprises
from studio.agree.reading import case_of
from studio.agree.wording import spelled
from studio.script.model import Lesson, Word
from studio.talk.model import Statement

NAMES = (
    "doubt",
    "many would do",
    "chance of the expected",
    "surprise",
    "surprise as it is told here",
    "surprise of the expected",
    "how much less the others surprise",
    "true where it stands",
    "true where the expected stands",
    "false where it stands",
    "false where the expected stands",
    "more that is true",
    "more that is false",
)
"""What is learned from: the statements are counted where the number stands, and in all that is read once more."""
_WIDE = 120  # words before and after that are read once more
_WORD = re.compile(r"[^\W_]+(?:[-'’][^\W_]+)*")


@dataclass(frozen=True, slots=True)
class _Told:
    """How some words are told: how much each number surprises, by its word in the lesson; the statements that are true and that
    are false, in all and by the words that they cover."""

    surprises: Mapping[int, float]
    true: int
    false: int
    covering: Mapping[int, tuple[Statement, ...]]

    def at(self, word: int, holds: bool) -> int:
        """How many statements hold, or do not, where a word stands."""
        return sum(statement.holds is holds for statement in self.covering.get(word, ()))


def tried(case: Case, suspect: Suspect[Place], doubt: float, loose: bool) -> tuple[float, ...] | None:
    """What comes of the trial of a doubted number, in the order of `NAMES`; `loose` is whether many numbers would do there.
    None where the number has several words."""
    number, expectation = suspect.place.number, suspect.expectation
    expected, chance = expectation.likely[0]
    if case.lesson is None or number.end != number.start + 1:
        return None
    at, span = number.start, _around(suspect.place)
    told: dict[tuple[int, int], _Told] = case.__dict__.setdefault("_told_parts", {})
    if span not in told:
        told[span] = _told(case.lesson, span, {})
    now, then = told[span], _told(case.lesson, span, {at: expected})
    others = now.surprises.keys() & then.surprises.keys() - {at}
    return (
        doubt,
        loose,
        chance,
        expectation.surprise,
        now.surprises.get(at, -1.0),
        then.surprises.get(at, -1.0),
        sum(now.surprises[other] - then.surprises[other] for other in sorted(others)),
        now.at(at, True),
        then.at(at, True),
        now.at(at, False),
        then.at(at, False),
        then.true - now.true,
        then.false - now.false,
    )


def _around(place: Place) -> tuple[int, int]:
    """The words that are read once more: those of the segment, of a long one those near by."""
    if place.end - place.start <= 2 * _WIDE:
        return place.start, place.end
    return max(place.start, place.number.start - _WIDE), min(place.end, place.number.start + _WIDE)


def _told(lesson: Lesson, span: tuple[int, int], changed: Mapping[int, int]) -> _Told:
    """How the words of a span are told, with other numbers at some of them."""
    start = span[0]
    case = case_of(_part(lesson, span, changed))
    book = book_of(case)
    places = [Place(book, at) for at, number in enumerate(book.numbers) if number.start not in book.counted_at]
    found = surprises(places, network("said"), pointing) if places else ()
    statements = case.talk.statements
    return _Told(
        {place.number.start + start: float(surprise) for place, surprise in zip(places, found, strict=True)},
        sum(statement.holds is True for statement in statements),
        sum(statement.holds is False for statement in statements),
        {word + start: tuple(covering) for word, covering in case.covering.items()},
    )


def _part(lesson: Lesson, span: tuple[int, int], changed: Mapping[int, int]) -> Lesson:
    """The words of a span, all in one segment, as a lesson of their own."""
    start, end = span
    segment = lesson.segments[lesson.words[start].segment]
    words = tuple(
        _said(replace(word, index=at, segment=0), changed.get(start + at))
        for at, word in enumerate(lesson.words[start:end])
    )
    directions = tuple(
        replace(direction, at=direction.at - start, segment=0)
        for direction in segment.directions
        if start <= direction.at <= end
    )
    return replace(lesson, segments=(replace(segment, index=0, words=words, directions=directions),))


def _said(word: Word, value: int | None) -> Word:
    """A word with another number in it, in the same form, or as it is."""
    match = _WORD.search(word.text)
    if value is None or match is None:
        return word
    new = str(value) if match[0][0].isdigit() else spelled(value)
    text = new.capitalize() if match[0][0].isupper() else new
    return replace(word, text=word.text[: match.start()] + text + word.text[match.end() :], plain=new)
