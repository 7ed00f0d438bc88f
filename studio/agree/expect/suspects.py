"""The numbers of a lesson that were hardly to be expected where they are said, with what is known of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from studio.agree.case import Case
from studio.agree.expect.doubt import judge
from studio.agree.expect.expectation import Expectation, expect, pointers, shares, weights
from studio.agree.expect.place import INEQUALITIES, Book, Place
from studio.agree.expect.traits import Shares, traits
from studio.agree.looks import essential
from studio.talk.model import Number

LOOKED_AT = 2.5
"""The least surprise, in nats, at which a number is looked at more closely."""


@dataclass(frozen=True, slots=True)
class Suspect:
    """A number at its place, what was to be expected there, what each family of clues adds to that, and its traits."""

    place: Place
    expectation: Expectation
    shares: Shares
    traits: tuple[float, ...]


def suspects(case: Case, learned: Mapping[str, float], segment: int | None = None) -> Iterator[Suspect]:
    """The suspects of a lesson, or of one segment. What stands in a true statement, is counted by a picture,
    is said again right beside it or stands on the screen when it is said is none: slips are hardly ever among them."""
    book = Book(case)
    for index, number in enumerate(book.numbers):
        if segment is not None and book.words[number.start].segment != segment:
            continue
        if number.start in book.counted_at or any(
            statement.holds and statement.kind not in INEQUALITIES for statement in case.covering.get(number.start, ())
        ):
            continue
        if any(other.value == number.value for other in _beside(book, index)):
            continue
        if any(number.value in essential(seen.picture) for seen in book.screen(number.start, number.start + 1)):
            continue
        place = Place(book, index)
        pointing = pointers(place, learned)
        expectation = expect(place, pointing, learned)
        if expectation.surprise > LOOKED_AT:
            parts = shares(pointing, number.value, expectation.likely[0][0])
            yield Suspect(place, expectation, parts, traits(place, expectation, parts))


def _beside(book: Book, index: int) -> Iterator[Number]:
    """The two numbers before a number and the two after it, in its segment."""
    segment = book.words[book.numbers[index].start].segment
    for at in (index - 2, index - 1, index + 1, index + 2):
        if 0 <= at < len(book.numbers) and book.words[book.numbers[at].start].segment == segment:
            yield book.numbers[at]


def judged(case: Case) -> list[tuple[Suspect, float]]:
    """The suspects of a lesson by the learned weights, each with its doubt; worked out once for a case."""
    kept: list[tuple[Suspect, float]] | None = case.__dict__.get("_suspects")
    if kept is None:
        kept = [(suspect, judge().doubt(suspect.traits)) for suspect in suspects(case, weights())]
        case.__dict__["_suspects"] = kept
    return kept


def doubtful_lines(case: Case) -> list[tuple[int, float]]:
    """The lines of the suspects with their doubts."""
    return [(suspect.place.number.line, doubt) for suspect, doubt in judged(case)]
