"""How much each number is to be expected at a place: a small network over clues and surroundings.

A clue points to a number; a token says what stands around the place. Each has learned a vector. The vectors of all clues that
point to a number are summed, and so are those of all tokens of the place; the score of the number is the sum of
what each clue is worth by itself, what it is worth at such a place (the product of the vectors), and what the clues say
together (two layers of rectified units). The softmax of the scores are the probabilities of the numbers: a conditional logit
(McFadden 1974) whose utility is learned. Learned with `benchmarks/expect.py fit`.

What the numbers around a place speak for (`spoken.py`) goes to the score and to the layers, too."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
from scipy.sparse import csr_matrix

from studio.agree.expect.company import Company
from studio.agree.expect.families import family as said_family
from studio.agree.expect.products import Floats, product
from studio.agree.expect.rows import Indices, Rows
from studio.agree.expect.shown.families import family as shown_family
from studio.agree.expect.spoken import COMPANY_ARRAYS, Spoken
from studio.agree.expect.titled.families import family as titled_family
from studio.learned import packed, unpacked, write_arrays

Surprises = npt.NDArray[np.float64]
_AT_ONCE = 2048  # numbers: what they need stays in the memory close to the processor
SURE = 1.5
"""Where the score of the number at a place exceeds all others by so much, by the first member, the others are not asked. Of 1,928
right numbers in 40 lessons that nothing was learned from one in five is asked about; of the 173 that the mean of all members finds
hardly to be expected, and of 176 changed ones, none is left out."""
ARRAYS = ("worth", "clues", "tokens", "mix", "mixed", "gate", "clue_layer", "token_layer", "bias", "second", "second_bias",
          "last", "mix_bias", "idle", "idle_bias")  # fmt: skip
"""The learned arrays of a member, C clues, T tokens, D dimensions, H units: worth C, clues C x D, tokens T x D, mix D x H with
mix_bias H and mixed H x D (what tokens say together), gate D x D, clue_layer and token_layer D x H with bias H,
second H x H with second_bias H, last H, idle D with idle_bias 1 (whether any number stands idle there)."""


@dataclass(frozen=True, slots=True, eq=False)
class Pointing:
    """What is pointed to at places. `values` are the numbers of each place, first the one that is said or shown there;
    `clues` are, for each number of each place, the indices of the clues that point to it (at least one); `tokens` are,
    for each place, the indices of its tokens (at least one). `company` are the numbers around the places, `near_tokens` the
    tokens around each of them and none around the empty seat; where the network does not look at them, none."""

    values: Rows
    clues: Rows
    tokens: Rows
    company: Company | None = None
    near_tokens: Rows | None = None

    def some(self, places: Indices) -> Pointing:
        """The same of some of the places."""
        numbers = self.values.where(places)
        values, clues = Rows(self.values.items[numbers.items], numbers.ends), self.clues.some(numbers.items)
        if self.company is None or self.near_tokens is None:
            return Pointing(values, clues, self.tokens.some(places))
        company, there = self.company.some(places)
        return Pointing(values, clues, self.tokens.some(places), company, self.near_tokens.some(there))


@dataclass(frozen=True, slots=True, eq=False)
class Scores:
    """Of the numbers of places: the score of each and how much of it comes from the clues together; the gates, for each
    member a row for each place: by them each clue counts there; of each place, by what stands around it, the log-odds that
    a number takes no part in the lesson there ("I had two cups of tea"); and how many members were asked about it."""

    scores: Floats
    together: Floats
    gates: Floats
    idle: Floats
    asked: Indices

    def gates_of(self, place: int) -> Floats:
        """The gates of a place, a row for each member that was asked."""
        gates: Floats = self.gates[: self.asked[place], place]
        return gates

    def surprises(self, values: Rows) -> Surprises:
        """Of the first number of each place, the negative logarithm of its probability, in nats."""
        firsts, scores = values.ends[:-1], self.scores.astype(np.float64)
        best = np.maximum.reduceat(scores, firsts)
        chances = np.exp(scores - np.repeat(best, np.diff(values.ends)))
        surprises: Surprises = np.log(np.add.reduceat(chances, firsts)) + best - scores[firsts]
        return surprises

    def leads(self, values: Rows) -> Floats:
        """By how much the best other number of each place exceeds the first (negative where that is the likeliest)."""
        firsts = values.ends[:-1]
        others = self.scores.copy()
        others[firsts] = -np.inf
        leads: Floats = np.maximum.reduceat(others, firsts) - self.scores[firsts]
        return leads


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """`clue` and `token` are the indices of their names. `members` are the arrays of `ARRAYS`, learned several times from
    other beginnings: the mean of their scores is surer than any of them (Hansen and Salamon 1990)."""

    clue: dict[str, int]
    token: dict[str, int]
    members: tuple[dict[str, Floats], ...]
    families: Indices

    @property
    def has_company(self) -> bool:
        """Whether it looks at the numbers around a place."""
        return "near_tokens" in self.members[0]

    @classmethod
    def of(
        cls,
        clues: Sequence[str],
        tokens: Sequence[str],
        members: Sequence[dict[str, Floats]],
        family: Callable[[str], int],
    ) -> Network:
        """`family` tells the index of the family of a clue."""
        families = np.array([family(name) for name in clues], dtype=np.int32)
        return cls(
            {name: at for at, name in enumerate(clues)},
            {name: at for at, name in enumerate(tokens)},
            tuple(members),
            families,
        )

    def scores(self, pointing: Pointing) -> Scores:
        """The scores of the numbers at places (at least one): by all members where the first number is not surely the likeliest
        by the first member, elsewhere by that alone."""
        first = self._scores(self.members[:1], pointing)
        places = np.flatnonzero(first.leads(pointing.values) > -SURE).astype(np.int32)
        if len(self.members) == 1 or not len(places):
            return first
        others = self._scores(self.members[1:], pointing.some(places))
        numbers = pointing.values.where(places).items
        share = 1 / len(self.members)
        for all_of, asked, at in (
            (first.scores, others.scores, numbers), (first.together, others.together, numbers), (first.idle, others.idle, places)
        ):  # fmt: skip
            all_of[at] += (1 - share) * (asked - all_of[at])
        gates = np.zeros((len(self.members), *first.gates.shape[1:]), dtype=np.float32)
        gates[:1] = first.gates
        gates[1:, places] = others.gates
        first.asked[places] = len(self.members)
        return Scores(first.scores, first.together, gates, first.idle, first.asked)

    def _scores(self, members: Sequence[dict[str, Floats]], pointing: Pointing) -> Scores:
        """The mean of the scores by these members."""
        owner = np.repeat(np.arange(len(pointing.values), dtype=np.int32), np.diff(pointing.values.ends))
        tokens = pointing.tokens.summing(len(self.token))
        clues = [(pointing.clues.part(at, at + _AT_ONCE).summing(len(self.clue)), owner[at : at + _AT_ONCE])
                 for at in range(0, len(owner), _AT_ONCE)]  # fmt: skip
        spoken = None
        if pointing.company is not None and pointing.near_tokens is not None:
            spoken = Spoken(pointing.company, pointing.near_tokens.summing(len(self.token)), pointing.values)
        found = [_score(member, clues, tokens, spoken) for member in members]
        scores, together, gates, idle = (np.array(part) for part in zip(*found, strict=True))
        asked = np.full(len(pointing.values), len(members), dtype=np.int32)
        return Scores(scores.mean(axis=0), together.mean(axis=0), gates, idle.mean(axis=0), asked)

    def shares(self, clues: Indices, gates: Floats) -> list[float]:
        """For each family of clues, how much these clues of one number add to its score each by itself, at a place with these
        gates."""
        asked = self.members[: len(gates)]
        worths = [m["worth"][clues] + m["clues"][clues] @ gate for m, gate in zip(asked, gates, strict=True)]
        families = int(self.families.max()) + 1
        shares: list[float] = np.bincount(self.families[clues], np.mean(worths, axis=0), families).tolist()
        return shares

    def write(self, path: Path) -> None:
        """Half precision is enough: the scores differ by less than a hundredth."""
        arrays = {
            name: np.array([member[name] for member in self.members], dtype=np.float16) for name in self.members[0]
        }
        names = {"clue_names": packed(self.clue), "token_names": packed(self.token)}
        write_arrays(path, {**arrays, **names})


def _score(
    a: dict[str, Floats], clues: Sequence[tuple[csr_matrix, Indices]], tokens: csr_matrix, spoken: Spoken | None
) -> tuple[Floats, Floats, Floats, Floats]:
    """By one member: the score of each number, what of it comes from the clues together, the gate of each place (a row of
    `tokens`), and how likely a number is idle there. `clues` are some numbers after the other, each a row, with the place of each."""
    around = tokens @ a["tokens"]
    around = around + product(np.maximum(product(around, a["mix"]) + a["mix_bias"], 0), a["mixed"])
    gates = product(around, a["gate"])
    told = product(around, a["token_layer"]) + a["bias"]
    said = None if spoken is None else spoken.spoken(a, around)
    parts = []
    at = 0
    for some, owner in clues:
        part = None if said is None else said[at : at + len(owner)]
        parts.append(_of_numbers(a, some, gates[owner], told[owner], part))
        at += len(owner)
    scores, together = zip(*parts, strict=True)
    return np.concatenate(scores), np.concatenate(together), gates, product(around, a["idle"]) + a["idle_bias"]


def _of_numbers(
    a: dict[str, Floats], clues: csr_matrix, gates: Floats, told: Floats, spoken: Floats | None
) -> tuple[Floats, Floats]:
    """The scores of some numbers and what of them comes from the clues together; `gates` and `told`, what the tokens add to
    the first layer, are those of the place of each; `spoken` is what the company says for each, which comes to "together"."""
    pointed = clues @ a["clues"]
    layer = product(pointed, a["clue_layer"])
    layer += told
    if spoken is not None:
        layer += product(spoken, a["relation_layer"])
    np.maximum(layer, 0, out=layer)
    second = product(layer, a["second"])
    second += a["second_bias"]
    layer += np.maximum(second, 0, out=second)
    together = product(layer, a["last"])
    if spoken is not None:
        together += product(spoken, a["relation_worth"])
    return clues @ a["worth"] + np.einsum("nd,nd->n", pointed, gates) + together, together


def load(file: Any, family: Callable[[str], int]) -> Network:
    """A network as `Network.write` wrote it."""
    with np.load(file) as held:
        arrays = {name: held[name].astype(np.float32) for name in (*ARRAYS, *COMPANY_ARRAYS) if name in held}
        members = [{name: array[at] for name, array in arrays.items()} for at in range(len(arrays["worth"]))]
        clues, tokens = (unpacked(held[name]) for name in ("clue_names", "token_names"))
    return Network.of(clues, tokens, members, family)


FAMILY: dict[str, Callable[[str], int]] = {"said": said_family, "shown": shown_family, "titled": titled_family}
"""What there are networks for: numbers that are said, numbers that directions show, numbers in titles."""


@lru_cache(maxsize=len(FAMILY))
def network(what: str) -> Network:
    """The network that the studio has learned for numbers that are "said" or "shown" or "titled"."""
    with files(__package__).joinpath(f"{what}.npz").open("rb") as file:
        return load(file, FAMILY[what])
