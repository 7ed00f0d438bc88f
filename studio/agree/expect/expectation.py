"""What number one would expect at a place, from everything that is said and shown around it: the probabilities of all
numbers that any clue points to, by a network that was learned from lessons in which every number is right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from studio.agree.expect import clues, surroundings
from studio.agree.expect.company import of_said
from studio.agree.expect.network import Network, Pointing, Scores
from studio.agree.expect.place import Place
from studio.agree.expect.pointing import point


@dataclass(frozen=True, slots=True)
class Expectation:
    """`surprise` is the negative logarithm of the probability of the number that is said, in nats; `likely` are the
    numbers that were rather expected, the likeliest first, with their probabilities; `lead` is by how much the score of
    the first of them exceeds its own (negative where it is itself the likeliest). `shares` are, for each family of
    clues, what it adds to the score of the number that is said and to that of the first other, and last what the
    clues add together. `idle` are the log-odds that a number takes no part in the lesson there."""

    surprise: float
    lead: float
    likely: tuple[tuple[int, float], ...]
    shares: tuple[tuple[float, float], ...]
    idle: float


def pointing(places: Sequence[Place], network: Network) -> Pointing:
    """The clues and the surroundings of places that the network knows."""
    values = [place.number.value for place in places]
    return point(network, places, values, clues.FINDERS, surroundings.FINDERS, of_said)


def expectation(network: Network, pointing: Pointing, found: Scores, place: int) -> Expectation:
    """How well the number at a place was to be expected; `place` is its index among those that are pointed to."""
    first, last = pointing.values.ends[place : place + 2].tolist()
    values = pointing.values.items[first:last].tolist()
    scores, together = found.scores[first:last].astype(float), found.together[first:last]
    best = scores.max()
    chances = np.exp(scores - best)
    total = chances.sum()
    others = (1 + np.argsort(-scores[1:], kind="stable")[:3]).tolist()
    rival = others[0]
    gates = found.gates_of(place)
    own, other = (network.shares(pointing.clues.row(first + at), gates) for at in (0, rival))
    shares = (*zip(own, other, strict=True), (float(together[0]), float(together[rival])))
    return Expectation(
        float(np.log(total) + best - scores[0]),
        float(scores[rival] - scores[0]),
        tuple((values[at], float(chances[at] / total)) for at in others),
        shares,
        float(found.idle[place]),
    )
