"""A stream in pieces that are read at once: a segment without an end, too, is read in proportion to its length."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from studio.agree.expect.ordered.offers import NONE, Values, seats
from studio.agree.expect.ordered.stream import Stream

LONGEST = 256
"""Tokens of a piece."""
_BEFORE, _AFTER = 48, 32
"""Tokens at the edges of a piece whose numbers are told by the piece beside it."""


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """Tokens of a stream that follow one another, and the numbers among them: which of the stream's they are, where their tokens stand in the
    piece, who sits in their seats (by their order in the piece), and whether it is this piece that tells them."""

    tokens: tuple[str, ...]
    mentions: Values
    at: Values
    seats: Values
    told: npt.NDArray[np.bool_]


def pieces(stream: Stream) -> Iterator[Piece]:
    """The pieces of a stream that have numbers; each number is told by one of them."""
    all_seats, where = seats(stream), np.array([one.token for one in stream.mentions], np.int32)
    start, many = 0, len(stream.tokens)
    while True:
        end = min(start + LONGEST, many)
        inside = np.flatnonzero((where >= start) & (where < end)).astype(np.int32)
        if len(inside):
            first, last = (start + _BEFORE if start else 0), (end - _AFTER if end < many else end)
            order = np.full(len(where) + 1, NONE, np.int32)
            order[inside] = np.arange(len(inside))
            at = where[inside]
            told = (at >= first) & (at < last) & (inside >= stream.first)
            yield Piece(stream.tokens[start:end], inside, at - start, order[all_seats[inside]], told)
        if end == many:
            return
        start = end - _BEFORE - _AFTER
