"""The chance of each number at each place by all that is said and shown around it, read in its order.

A network reads a segment of which all numbers are left out (four layers of attention, with learned places: Vaswani and others 2017, Devlin
and others 2019). What stands at a number tells how likely it is one of those around it, or follows from one,
two or three of them, or is a habit; what those numbers are comes in only then. So a slip elsewhere changes nothing of how the words are
understood. Learned with `benchmarks/ordered.py`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
from scipy.special import erf

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
from studio.agree.expect.ordered.wordpieces import Wordpieces
from studio.learned import packed, unpacked, write_arrays

Floats = npt.NDArray[np.float32]
LAYERS, HEADS = 4, 12
GREAT = 4.6
"""Nats of a number that is greater than the habits: there are about a hundred of them."""
_EVEN = 127
"""Steps from nought to the greatest number of a row of an array."""
_SMALL = 2048
"""Numbers up to which an array is kept as it is."""
_HABITS = np.arange(GREATEST + 1)
_LEAST = 1e-9
_LEAST_SQUARE = 1e-12
_ROOT_HALF = np.float32(0.5**0.5)
_ADDED, _STEP = "_b", "_step"


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
    """`pieces` are those of words that are known; `arrays` the learned numbers."""

    pieces: Wordpieces
    arrays: Mapping[str, Floats]

    def offered(self, stream: Stream) -> list[Offered]:
        """What is told of the numbers of a stream, piece by piece."""
        return [self._offered(piece) for piece in pieces(stream)]

    def _offered(self, piece: Piece) -> Offered:
        a, seats = self.arrays, piece.seats
        tokens, first = self.pieces.all_of(piece.tokens)
        here = _read(a, tokens, first[piece.at])
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
        """Great arrays in steps of a 127th of the greatest number of each row."""
        arrays: dict[str, npt.NDArray[Any]] = {}
        for name, array in self.arrays.items():
            if array.size <= _SMALL:
                arrays[name] = array
                continue
            step = np.abs(array).max(axis=-1, keepdims=True) / _EVEN
            arrays[name] = np.rint(array / np.maximum(step, _LEAST)).astype(np.int8)
            arrays[name + _STEP] = step.astype(np.float32)
        write_arrays(path, {**arrays, "piece_names": packed(self.pieces.names)})


def _read(a: Mapping[str, Floats], tokens: Values, at: Values) -> Floats:
    """What stands at the tokens `at`."""
    x = _norm(a["emb"][tokens] + a["pos"][: len(tokens)], a, "ne")
    for layer in range(LAYERS):
        q, k, v = np.split(_linear(x, a, f"qkv{layer}").reshape(len(x), 3 * HEADS, -1).swapaxes(0, 1), 3)
        if layer == LAYERS - 1:  # of the last only what stands at numbers is heard
            q, x = q[:, at], x[at]
        heed = q @ k.swapaxes(1, 2) * q.shape[-1] ** -0.5
        heed = np.exp(heed - heed.max(axis=-1, keepdims=True))
        heed /= heed.sum(axis=-1, keepdims=True)
        x = _norm(x + _linear((heed @ v).swapaxes(0, 1).reshape(len(x), -1), a, f"out{layer}"), a, f"n1{layer}")
        up = _linear(x, a, f"up{layer}")
        up *= 0.5 * (1 + erf(up * _ROOT_HALF))
        x = _norm(x + _linear(up, a, f"dn{layer}"), a, f"n2{layer}")
    return x


def _linear(x: Floats, a: Mapping[str, Floats], name: str) -> Floats:
    found: Floats = x @ a[name].T + a[name + _ADDED]
    return found


def _norm(x: Floats, a: Mapping[str, Floats], name: str) -> Floats:
    x = x - x.mean(axis=-1, keepdims=True)
    found: Floats = x / np.sqrt((x * x).mean(axis=-1, keepdims=True) + _LEAST_SQUARE) * a[name] + a[name + _ADDED]
    return found


def load(file: Any) -> Reader:
    """A reader as `Reader.write` wrote it."""
    with np.load(file) as held:
        names = unpacked(held["piece_names"])
        arrays = {name: held[name] for name in held.files if name != "piece_names"}
    steps = {name.removesuffix(_STEP): array for name, array in arrays.items() if name.endswith(_STEP)}
    return Reader(
        Wordpieces(names),
        {
            name: array.astype(np.float32) * steps.get(name, np.float32(1))
            for name, array in arrays.items()
            if not name.endswith(_STEP)
        },
    )


@lru_cache(maxsize=1)
def reader() -> Reader:
    """The reader that the studio has learned."""
    with files(__package__).joinpath("ordered.npz").open("rb") as file:
        return load(file)
