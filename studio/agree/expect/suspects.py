"""The numbers of a lesson that were hardly to be expected where they are said, with what is known of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from studio.agree.case import Case
from studio.agree.expect.doubt import judge
from studio.agree.expect.expectation import Expectation, expectation, pointing
from studio.agree.expect.network import Network, network
from studio.agree.expect.place import INEQUALITIES, Book, Place, book_of
from studio.agree.expect.traits import traits

LOOKED_AT = 1.5
"""The least surprise, in nats, at which a number is looked at more closely."""


@dataclass(frozen=True, slots=True)
class Suspect:
    """A number at its place, what was to be expected there, and its traits."""

    place: Place
    expectation: Expectation
    traits: tuple[float, ...]


def suspects(case: Case, learned: Network, segment: int | None = None) -> Iterator[Suspect]:
    """The suspects of a lesson, or of one segment."""
    book = book_of(case)
    places = [Place(book, index) for index in range(len(book.numbers))
              if (segment is None or book.words[book.numbers[index].start].segment == segment) and _open(book, index)]  # fmt: skip
    pointings = [pointing(place, learned) for place in places]
    for place, pointed, found in zip(places, pointings, learned.scores(pointings), strict=True):
        scores = found.scores
        best = scores[1:].max()
        if scores[0] > best:  # it is itself the likeliest
            continue
        expected = expectation(learned, pointed, found)
        if expected.surprise > LOOKED_AT:
            yield Suspect(place, expected, traits(place, expected))


def _open(book: Book, index: int) -> bool:
    """Whether a number may be a slip at all. What stands in a true statement or is counted by a picture hardly ever is."""
    start = book.numbers[index].start
    return start not in book.counted_at and not any(
        statement.holds and statement.kind not in INEQUALITIES for statement in book.case.covering.get(start, ())
    )


def judged(case: Case) -> list[tuple[Suspect, float]]:
    """The suspects of a lesson by the learned weights, each with its doubt; worked out once for a case."""
    kept: list[tuple[Suspect, float]] | None = case.__dict__.get("_suspects")
    if kept is None:
        judges = judge("said")
        kept = [(suspect, judges.doubt(suspect.traits)) for suspect in suspects(case, network("said"))]
        case.__dict__["_suspects"] = kept
    return kept
