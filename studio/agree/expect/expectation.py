"""What number one would expect at a place, from everything that is said and shown around it: the probabilities of all
numbers that any clue points to, by a network that was learned from lessons in which every number is right."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from studio.agree.expect.clues import FINDERS
from studio.agree.expect.network import Network, Pointing, Scores
from studio.agree.expect.place import Place
from studio.agree.expect.surroundings import tokens

COMMON = range(21)
"""Numbers that may be said anywhere, without a clue."""
GREATEST = 130
_ITSELF = tuple(f"v{value}" for value in (*COMMON, "b"))
EDGE = "place"
"""A token of every place."""


@dataclass(frozen=True, slots=True)
class Expectation:
    """`surprise` is the negative logarithm of the probability of the number that is said, in nats; `likely` are the
    numbers that were rather expected, the likeliest first, with their probabilities; `lead` is by how much the score of
    the first of them exceeds its own (negative where it is itself the likeliest). `shares` are, for each family of
    clues, what it adds to the score of the number that is said and to that of the first other, and last what the
    clues add together."""

    surprise: float
    lead: float
    likely: tuple[tuple[int, float], ...]
    shares: tuple[tuple[float, float], ...]


def clues(place: Place) -> Iterator[tuple[int, str]]:
    """The numbers that may be said at a place, each with the name of the clue that points to it; a clue that points
    twice counts twice."""
    for finder in FINDERS:
        yield from finder(place)


def itself(value: int) -> str:
    """The clue that every number is to itself; those that are not common have one for all."""
    return _ITSELF[min(value, len(_ITSELF) - 1)]


def pointing(place: Place, network: Network) -> Pointing:
    """The clues and the surroundings of a place that the network knows."""
    return point(network, place.number.value, clues(place), tokens(place))


def point(network: Network, value: int, clues: Iterable[tuple[int, str]], tokens: Iterable[str]) -> Pointing:
    """The clues and tokens that the network knows, as it reads them. `value`, what is said or shown, comes first."""
    known = network.clue
    found: dict[int, list[int]] = {value: []}
    for common in COMMON:
        found.setdefault(common, [])
    for pointed, name in clues:
        clue = known.get(name)
        if clue is None:
            continue
        if pointed in found:
            found[pointed].append(clue)
        elif 0 <= pointed <= GREATEST:
            found[pointed] = [clue]
    starts: list[int] = []
    ids: list[int] = []
    for pointed, names in found.items():
        starts.append(len(ids))
        ids.append(known[itself(pointed)])
        ids += names
    token = network.token
    around = [token[EDGE]]
    around += [at for name in tokens if (at := token.get(name)) is not None]
    return Pointing(list(found), ids, starts, around)


def expectation(network: Network, pointing: Pointing, found: Scores) -> Expectation:
    """How well the number at a place was to be expected."""
    scores = found.scores.astype(float)
    best = scores.max()
    chances = np.exp(scores - best)
    total = chances.sum()
    others = (1 + np.argsort(-scores[1:], kind="stable")[:3]).tolist()
    rival = others[0]
    ends = [*pointing.starts[1:], len(pointing.clues)]
    own, other = (network.shares(pointing.clues[pointing.starts[at] : ends[at]], found.gates) for at in (0, rival))
    shares = (*zip(own, other, strict=True), (float(found.together[0]), float(found.together[rival])))
    return Expectation(
        float(np.log(total) + best - scores[0]),
        float(scores[rival] - scores[0]),
        tuple((pointing.values[at], float(chances[at] / total)) for at in others),
        shares,
    )
