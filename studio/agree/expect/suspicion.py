"""Numbers that were hardly to be expected where they stand, said or shown: those by which a lesson is doubted."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

import numpy as np

from studio.agree.case import Case
from studio.agree.expect.doubt import judge
from studio.agree.expect.expectation import Expectation, expectation
from studio.agree.expect.network import Network, Pointing, Scores, Surprises, network
from studio.agree.expect.oddness import oddness

P = TypeVar("P")
_AT_ONCE = 2048
"""Places that are looked at together: all clues of a script of 10 MB would need more memory than a laptop has."""


@dataclass(frozen=True, slots=True)
class Suspect(Generic[P]):
    """A number at its place, what was to be expected there, and its traits, last those of `oddness`."""

    place: P
    expectation: Expectation
    traits: tuple[float, ...]


def surprises(places: Sequence[P], learned: Network, pointing: Callable[[Sequence[P], Network], Pointing]) -> Surprises:
    """How much the number at each of these places (at least one) surprises, in nats."""
    return np.concatenate([found.surprises(pointed.values) for _, pointed, found in _scored(places, learned, pointing)])


def _scored(
    places: Sequence[P], learned: Network, pointing: Callable[[Sequence[P], Network], Pointing]
) -> Iterator[tuple[int, Pointing, Scores]]:
    """Some places after the other: the index of the first, what is pointed to at them, and the scores."""
    for first in range(0, len(places), _AT_ONCE):
        pointed = pointing(places[first : first + _AT_ONCE], learned)
        yield first, pointed, learned.scores(pointed)


def suspected(
    places: Sequence[P],
    learned: Network,
    pointing: Callable[[Sequence[P], Network], Pointing],
    traits: Callable[[P, Expectation], tuple[float, ...]],
    looked_at: float,
) -> Iterator[Suspect[P]]:
    """Of all places of a lesson those whose number is not itself the likeliest and whose surprise, in nats, is over
    `looked_at`."""
    if not places:
        return
    found_surprises: list[Surprises] = []
    unlikely: list[tuple[int, Expectation]] = []
    for first, pointed, found in _scored(places, learned, pointing):
        found_surprises.append(found.surprises(pointed.values))
        doubtful = np.flatnonzero((found.leads(pointed.values) >= 0) & (found_surprises[-1] > looked_at)).tolist()
        unlikely += [(first + at, expectation(learned, pointed, found, at)) for at in doubtful]
    odd_ones = oddness(np.concatenate(found_surprises), [at for at, _ in unlikely])
    for (at, expected), odd in zip(unlikely, odd_ones, strict=True):
        place = places[at]
        yield Suspect(place, expected, (*traits(place, expected), *odd))


def with_doubts(
    case: Case, what: str, suspects: Callable[[Case, Network], Iterable[Suspect[P]]]
) -> list[tuple[Suspect[P], float]]:
    """The suspects of a lesson by what was learned of "said" or "shown" numbers, each with its doubt; worked out once for a
    case."""
    kept: list[tuple[Suspect[P], float]] | None = case.__dict__.get(f"_suspects_{what}")
    if kept is None:
        judges = judge(what)
        kept = [(suspect, judges.doubt(suspect.traits)) for suspect in suspects(case, network(what))]
        case.__dict__[f"_suspects_{what}"] = kept
    return kept
