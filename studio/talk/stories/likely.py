"""What situation of Table 1 a story is likely to tell, by the signs in its words (`signs.py`): small networks, learned from
labelled stories (`benchmarks/situations.py`). The readers know the grammar of what they can read; this knows how often
they are right, and ventures upon what they cannot read."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from pathlib import Path

import numpy as np
import numpy.typing as npt

from studio.learned import packed, unpacked, write_arrays
from studio.talk.stories.clauses import Quantity
from studio.talk.stories.readings import Reading, add_to, addend, bigger, difference, smaller, take_from, total
from studio.talk.stories.signs import Pair, Told, pairs, signs

PLUS = ("AR", "PT", "TS", "CB")
"""Situations whose answer is the sum: add to with the result unknown, put together, take from with the start unknown,
compare with the greater unknown."""
MINUS = ("AC", "AS", "TR", "TC", "PA", "CD", "CS")
"""Those whose answer is the difference: add to with change or start unknown, take from with result or change unknown, put
together with a part unknown, compare with the difference or the smaller unknown."""
NEITHER = "X"
KINDS = (*PLUS, *MINUS, NEITHER)


@dataclass(frozen=True, slots=True)
class Guess:
    """Two numbers of a story, the likeliest situation with the likelier answer, and the chances of sum and difference."""

    pair: Pair
    kind: str
    plus: float
    minus: float

    @property
    def chance(self) -> float:
        return max(self.plus, self.minus)

    @property
    def values(self) -> tuple[int, int]:
        one, other = (token.number or 0 for token in self.pair)
        return one, other

    def chance_of(self, answer: int) -> float:
        """How likely an answer is."""
        one, other = self.values
        return self.plus * (answer == one + other) + self.minus * (answer == abs(one - other))

    def reading(self, quantities: Sequence[Quantity]) -> Reading:
        """The story read so."""
        one, other = self.values
        small, great = sorted((one, other))
        match self.kind:
            case "AR":
                return add_to(one, other, None)
            case "TS":
                left, went = (one, other) if _is_left(quantities, self.pair) else (other, one)
                return take_from(None, went, left)
            case "PT":
                return total((one, other))
            case "CB":
                return bigger(one, other)
            case "AC":
                return add_to(small, None, great)
            case "AS":
                return add_to(None, small, great)
            case "TR":
                return take_from(great, small, None)
            case "TC":
                return take_from(great, None, small)
            case "CD":
                return difference(one, other)
            case "CS":
                return smaller(great, small)
            case _:
                return addend(great, small)


def _is_left(quantities: Sequence[Quantity], pair: Pair) -> bool:
    """Whether the first of two numbers tells what is left."""
    return any(quantity.start == pair[0].start and quantity.afterwards for quantity in quantities)


Floats = npt.NDArray[np.float32]
_ARRAYS = ("first", "first_bias", "last", "last_bias")


@dataclass(frozen=True, slots=True, eq=False)
class Guesser:
    """`index` of each sign that was learned, S of them. Each of M members has a layer of U rectified units and one for the K
    `KINDS`: `first` M x S x U, `first_bias` M x U, `last` M x U x K, `last_bias` M x K. The mean of what the members find is surer
    than any of them (Hansen and Salamon 1990)."""

    index: dict[str, int]
    first: Floats
    first_bias: Floats
    last: Floats
    last_bias: Floats

    def guess(self, told: Told) -> Guess | None:
        """The likeliest two numbers with their situation; None where there are too few numbers or too many."""
        best: Guess | None = None
        for pair in pairs(told.tokens):
            by_kind = dict(zip(KINDS, self.chances(signs(told, pair)).tolist(), strict=True))
            plus, minus = (sum(by_kind[kind] for kind in kinds) for kinds in (PLUS, MINUS))
            if best is None or max(plus, minus) > best.chance:
                kinds = PLUS if plus > minus else MINUS
                best = Guess(pair, max(kinds, key=lambda kind: by_kind[kind]), plus, minus)
        return best

    def chances(self, found: Iterable[str]) -> Floats:
        """How likely each of `KINDS` is where these signs are found; one that comes twice counts once."""
        known = [self.index[sign] for sign in set(found) if sign in self.index]
        units = np.maximum(self.first[:, known].sum(axis=1) + self.first_bias, 0)
        scores = np.einsum("mu,muk->mk", units, self.last) + self.last_bias
        chances = np.exp(scores - scores.max(axis=1, keepdims=True))
        mean: Floats = (chances / chances.sum(axis=1, keepdims=True)).mean(axis=0)
        return mean

    def write(self, path: Path) -> None:
        """Half precision is enough."""
        arrays = {name: getattr(self, name).astype(np.float16) for name in _ARRAYS}
        write_arrays(path, {**arrays, "names": packed(self.index)})


@lru_cache(maxsize=1)
def guesser() -> Guesser:
    """What was learned."""
    with files(__package__).joinpath("likely.npz").open("rb") as file, np.load(file) as held:
        names = unpacked(held["names"])
        arrays = (held[name].astype(np.float32) for name in _ARRAYS)
        return Guesser({name: at for at, name in enumerate(names)}, *arrays)
