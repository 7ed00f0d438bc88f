"""What number one would expect at a place, from everything that is said and shown around it: a conditional logit over
the numbers that any clue points to. The score of a number is the sum of the weights of its clues; the weights were
learned from lessons in which every number is right (`benchmarks/expect.py`)."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

from studio.agree.expect.clues import FINDERS
from studio.agree.expect.families import FAMILIES, family
from studio.agree.expect.place import Place

COMMON = range(21)
"""Numbers that may be said anywhere, without a clue."""
GREATEST = 130
BIG = "big"
"""The clue of every number that is not common."""


@dataclass(frozen=True, slots=True)
class Expectation:
    """`surprise` is the negative logarithm of the probability of the number that is said, in nats; `likely` are the
    numbers that were rather expected, the likeliest first, with their probabilities; `lead` is by how much the score of
    the first of them exceeds its own (negative where it is itself the likeliest)."""

    surprise: float
    lead: float
    likely: tuple[tuple[int, float], ...]


def clues(place: Place) -> Iterator[tuple[int, str]]:
    """The numbers that may be said at a place, each with the name of the clue that points to it; a clue that points
    twice counts twice."""
    for finder in FINDERS:
        yield from finder(place)


Pointers = list[tuple[int, str, float]]
"""The learned clues of a place: the number that each points to, its name, its weight."""


def pointers(place: Place, weights: Mapping[str, float]) -> Pointers:
    """The clues of a place that have a weight."""
    weight = weights.get
    return [
        (value, name, worth)
        for finder in FINDERS
        for value, name in finder(place)
        if (worth := weight(name)) is not None
    ]


def expect(place: Place, pointing: Pointers, weights: Mapping[str, float]) -> Expectation:
    """How well the number at a place was to be expected."""
    scores = dict.fromkeys(COMMON, 0.0)
    said = place.number.value
    scores.setdefault(said, 0.0)
    for value, _, worth in pointing:
        scores[value] = scores.get(value, 0.0) + worth
    big = weights.get(BIG, 0.0)
    for value in scores:
        if value > COMMON[-1]:
            scores[value] += big
    own = scores[said]
    ranked = sorted(
        ((score, -value) for value, score in scores.items() if 0 <= value <= GREATEST or value == said), reverse=True
    )
    best = ranked[0][0]
    total = sum([math.exp(score - best) for score, _ in ranked])
    others = [(score, -value) for score, value in ranked[:4] if -value != said][:3]
    return Expectation(
        math.log(total) + best - own,
        others[0][0] - own,
        tuple((value, math.exp(score - best) / total) for score, value in others),
    )


def shares(pointing: Pointers, said: int, other: int) -> tuple[tuple[float, float], ...]:
    """For each family of clues, how much of the score it gives to the number that is said and to another."""
    own = [0.0] * len(FAMILIES)
    rival = [0.0] * len(FAMILIES)
    for value, name, worth in pointing:
        if value == said:
            own[family(name)] += worth
        elif value == other:
            rival[family(name)] += worth
    return tuple(zip(own, rival, strict=True))


@lru_cache(maxsize=1)
def weights() -> Mapping[str, float]:
    """The learned weights of the clues."""
    learned: dict[str, float] = json.loads(files(__package__).joinpath("weights.json").read_text(encoding="utf-8"))
    return learned
