"""The chance of each number at each place by all that is said and shown around it, read in its order.

A small network reads a segment of which all numbers are left out (two layers of attention with a place for how far away a token is:
Vaswani and others 2017, Shaw and others 2018). What stands at a number tells how likely it is one of those around it, or follows from one,
two or three of them, or is a habit; what those numbers are comes in only then. So a slip elsewhere changes nothing of how the words are
understood. Learned with `benchmarks/ordered.py`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from studio.agree.expect.ordered.offers import (
    FIRST,
    GREATEST,
    HABITS,
    IN_A_ROW,
    ONES,
    SECOND,
    THREES,
    TWOS,
    Values,
    of_one,
    of_three,
    of_two,
    seated,
)
from studio.agree.expect.ordered.pieces import Piece, pieces
from studio.agree.expect.ordered.stream import Stream
from studio.learned import packed, unpacked, write_arrays

Floats = npt.NDArray[np.float32]
LAYERS, HEADS, WIDE = 2, 4, 5
FAR = 24
"""Tokens from which on it makes no difference how far away one is."""
GREAT = 4.6
"""Nats of a number that is greater than the habits: there are about a hundred of them."""
RARE, SIGN = "<rare>", "~"
_HABITS = np.arange(GREATEST + 1)
_LEAST = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Offered:
    """What a piece tells of its numbers before it is known which they are: for each the scores of what one, two or three of those in its
    seats offer, and of habits."""

    piece: Piece
    offers: Floats
    habits: Floats

    def chances(self, values: Values) -> npt.NDArray[np.float64]:
        """The chance of each number from nought to `GREATEST` at each place; `values` are the numbers of the stream."""
        sitting = seated(values[self.piece.mentions], self.piece.seats)
        many = len(sitting)
        offers = np.concatenate([of(sitting).reshape(many, -1) for of in (of_one, of_two, of_three)], axis=1)
        scores = np.concatenate([np.where(offers >= 0, self.offers, -np.inf), self.habits], axis=1)
        shares = np.exp(scores - scores.max(axis=1, keepdims=True))
        shares /= shares.sum(axis=1, keepdims=True)
        of_offers, of_habits = np.split(shares, [offers.shape[1]], axis=1)
        where = np.arange(many)[:, None] * (GREATEST + 2) + np.where(offers >= 0, offers, GREATEST + 1)
        told = np.bincount(where.ravel(), of_offers.ravel(), many * (GREATEST + 2)).reshape(many, -1)[:, :-1]
        habits = of_habits[:, np.minimum(_HABITS, HABITS - 1)] * np.where(_HABITS < HABITS - 1, 1, np.exp(-GREAT))
        found: npt.NDArray[np.float64] = np.maximum(told + habits, _LEAST)
        return found


@dataclass(frozen=True, slots=True, eq=False)
class Reader:
    """`token` are the indices of the tokens that were learned; `arrays` the learned numbers."""

    token: Mapping[str, int]
    arrays: Mapping[str, Floats]

    def offered(self, stream: Stream) -> list[Offered]:
        """What is told of the numbers of a stream, piece by piece."""
        return [self._offered(piece) for piece in pieces(stream)]

    def indices(self, tokens: Sequence[str]) -> Values:
        """The index of each token; a rare one is known by how it ends."""
        rare = self.token[RARE]
        return np.array([self.token.get(one, self.token.get(SIGN + one[-2:], rare)) for one in tokens], np.int32)

    def _offered(self, piece: Piece) -> Offered:
        a, seats = self.arrays, piece.seats
        here = _read(a, self.indices(piece.tokens))[piece.at]
        many = len(here)

        def rows(name: str, kinds: int, *inner: int) -> Floats:
            return (here @ a[name]).reshape(many, kinds, *inner, -1)

        def heard(asked: str, asks: str, kinds: int) -> Floats:
            found: Floats = np.einsum("nrk,nsrk->nsr", rows(asked, kinds), rows(asks, kinds)[seats], optimize=True)
            return found

        one = heard("q1", "k1", ONES) + a["b1"]
        together = np.einsum("ark,brk->abr", rows("pa", TWOS), rows("pb", TWOS), optimize=True)
        two = heard("q2a", "k2a", TWOS)[:, FIRST] + heard("q2b", "k2b", TWOS)[:, SECOND]
        two = two + together[seats[:, FIRST], seats[:, SECOND]] + a["b2"]
        asked, asks = (rows(name, THREES, len(IN_A_ROW)) for name in ("q3", "k3"))
        each = np.einsum("nrjk,nsrjk->nsrj", asked, asks[seats], optimize=True)
        three = sum(each[..., at][:, row] for at, row in enumerate(IN_A_ROW)) + a["b3"]
        offers = np.concatenate([part.reshape(many, -1) for part in (one, two, three)], axis=1)
        return Offered(piece, offers, here @ a["hab"] + a["habb"])

    def write(self, path: Path) -> None:
        """Half precision is enough."""
        arrays = {name: array.astype(np.float16) for name, array in self.arrays.items()}
        write_arrays(path, {**arrays, "token_names": packed(self.token)})


def _read(a: Mapping[str, Floats], tokens: Values) -> Floats:
    """What each token means where it stands."""
    x = a["emb"][tokens]
    many = len(x)
    wide = np.pad(x, ((WIDE // 2, WIDE // 2), (0, 0)))
    x = x + np.maximum(
        np.concatenate([wide[at : at + many] for at in range(WIDE)], axis=1) @ a["conv"] + a["conv_b"], 0
    )
    away = np.clip(np.arange(many)[None] - np.arange(many)[:, None], -FAR, FAR) + FAR
    for layer in range(LAYERS):
        q, k, v = np.split(
            (_norm(x, a[f"n1{layer}"]) @ a[f"qkv{layer}"]).reshape(many, 3 * HEADS, -1).swapaxes(0, 1), 3
        )
        heed = q @ k.swapaxes(1, 2) * q.shape[-1] ** -0.5 + a[f"rel{layer}"][:, away]
        heed = np.exp(heed - heed.max(axis=-1, keepdims=True))
        heed /= heed.sum(axis=-1, keepdims=True)
        x = x + (heed @ v).swapaxes(0, 1).reshape(many, -1) @ a[f"out{layer}"]
        up = np.maximum(_norm(x, a[f"n2{layer}"]) @ a[f"up{layer}"] + a[f"ub{layer}"], 0)
        x = x + up @ a[f"dn{layer}"] + a[f"db{layer}"]
    return _norm(x, a["nf"])


def _norm(x: Floats, gain: Floats) -> Floats:
    found: Floats = x * gain / np.sqrt((x * x).mean(axis=-1, keepdims=True) + 1e-6)
    return found


def load(file: Any) -> Reader:
    """A reader as `Reader.write` wrote it."""
    with np.load(file) as held:
        arrays = {name: held[name].astype(np.float32) for name in held.files if name != "token_names"}
        names = unpacked(held["token_names"])
    return Reader({name: at for at, name in enumerate(names)}, arrays)


@lru_cache(maxsize=1)
def reader() -> Reader:
    """The reader that the studio has learned."""
    with files(__package__).joinpath("ordered.npz").open("rb") as file:
        return load(file)
