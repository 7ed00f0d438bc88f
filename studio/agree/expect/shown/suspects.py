"""The numbers of directions that were hardly to be expected, with what is known of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from studio.agree.case import Case
from studio.agree.expect.doubt import judge
from studio.agree.expect.expectation import Expectation, expectation, point
from studio.agree.expect.network import Network, Pointing, network
from studio.agree.expect.place import book_of
from studio.agree.expect.shown.clues import find
from studio.agree.expect.shown.place import ShownBook, ShownPlace
from studio.agree.expect.shown.surroundings import tokens
from studio.agree.expect.shown.traits import traits

LOOKED_AT = 1.0
"""The least surprise, in nats, at which a number is looked at more closely."""


@dataclass(frozen=True, slots=True)
class ShownSuspect:
    """A number of a direction, what was to be expected there, and its traits."""

    place: ShownPlace
    expectation: Expectation
    traits: tuple[float, ...]


def places(case: Case, segment: int | None = None) -> list[ShownPlace]:
    """All numbers in the directions of a lesson, or of one segment."""
    book = ShownBook(book_of(case))
    return [
        ShownPlace(book, group, index)
        for group, slots in enumerate(book.groups)
        if segment is None or slots[0].direction.segment == segment
        for index in range(len(slots))
    ]


def pointing(place: ShownPlace, network: Network) -> Pointing:
    """The clues and the surroundings of a place that the network knows."""
    return point(network, place.value, find(place), tokens(place))


def suspects(case: Case, learned: Network, segment: int | None = None) -> Iterator[ShownSuspect]:
    """The suspects of a lesson, or of one segment."""
    found = places(case, segment)
    pointings = [pointing(place, learned) for place in found]
    for place, pointed, scores in zip(found, pointings, learned.scores(pointings), strict=True):
        if scores.scores[0] > scores.scores[1:].max():  # it is itself the likeliest
            continue
        expected = expectation(learned, pointed, scores)
        if expected.surprise > LOOKED_AT:
            yield ShownSuspect(place, expected, traits(place, expected))


def judged(case: Case) -> list[tuple[ShownSuspect, float]]:
    """The suspects of a lesson by the learned network, each with its doubt; worked out once for a case."""
    kept: list[tuple[ShownSuspect, float]] | None = case.__dict__.get("_shown_suspects")
    if kept is None:
        judges = judge("shown")
        kept = [(suspect, judges.doubt(suspect.traits)) for suspect in suspects(case, network("shown"))]
        case.__dict__["_shown_suspects"] = kept
    return kept
