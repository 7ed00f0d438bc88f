"""What the numbers around a place offer to stand there: one of them or what follows from one, two or three of them."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import numpy.typing as npt

from studio.agree.expect.ordered.stream import Stream

Values = npt.NDArray[np.int32]
HEADED, BEFORE, AFTER = 2, 9, 5
SEATS = HEADED + BEFORE + AFTER
"""Numbers that are looked at: of the titles, before (the nearest last) and after."""
NONE = -1
GREATEST = 120
HABITS = 22
"""Numbers from nought that may stand there by themselves; the last of them stands for every greater one."""
FIRST, SECOND = np.array([*combinations(range(HEADED, SEATS), 2)]).T
"""The seats of any two that are looked at together."""
IN_A_ROW = np.arange(HEADED, SEATS - 2) + np.arange(3)[:, None]
"""The first, the second and the third seat of any three that are."""


def of_one(v: Values) -> Values:
    """Of numbers (-1: none) what follows from each by itself, in a new last axis."""
    ten = v % 10
    rows = [
        v, v + 1, v - 1, v + 2, v - 2, v + 10, v - 10, 2 * v, np.where(v % 2 == 0, v // 2, NONE), 10 - v, 20 - v, 10 * v,
        np.where(v >= 10, v // 10, NONE), np.where(v >= 10, ten, NONE), v + 5, v - 5, 5 - v, np.where(v > 10, 10 - ten, NONE),
        np.where(v > 10, v - ten, NONE), np.where(v > 10, v - ten + 10, NONE), 100 - v, 5 * v, np.where(v % 5 == 0, v // 5, NONE),
    ]  # fmt: skip
    return _sound(np.stack(rows, axis=-1), v[..., None] >= 0)


def of_two(v: Values) -> Values:
    """Of the numbers in the seats (last axis) what follows from any two of them."""
    a, b = v[..., FIRST], v[..., SECOND]
    low, high = np.minimum(a, b), np.maximum(a, b)
    shared = np.where((low > 0) & (high % np.maximum(low, 1) == 0), high // np.maximum(low, 1), NONE)
    rows = [a + b, high - low, a * b, 10 * a + b, a + 10 * b, shared]
    return _sound(np.stack(rows, axis=-1), ((a >= 0) & (b >= 0))[..., None])


def of_three(v: Values) -> Values:
    """Of the numbers in the seats what follows from any three that stand one after the other."""
    a, b, c = (v[..., seats] for seats in IN_A_ROW)
    rows = [a + b + c, np.abs(a - b - c), a + b - c]
    return _sound(np.stack(rows, axis=-1), ((a >= 0) & (b >= 0) & (c >= 0))[..., None])


def _sound(values: Values, there: npt.NDArray[np.bool_]) -> Values:
    return np.where(there & (values >= 0) & (values <= GREATEST), values, NONE).astype(np.int32)


ONES = of_one(np.zeros(1, np.int32)).shape[-1]
TWOS = of_two(np.zeros(SEATS, np.int32)).shape[-1]
THREES = of_three(np.zeros(SEATS, np.int32)).shape[-1]


def seats(stream: Stream) -> Values:
    """For every number of a stream the indices of those in its seats (-1: nobody)."""
    titles = set(stream.titles)
    body = [at for at in range(len(stream.mentions)) if at not in titles]
    found = np.full((len(stream.mentions), SEATS), NONE, np.int32)
    heads = stream.titles[:1] + stream.titles[-1:] if len(stream.titles) > 1 else stream.titles
    found[:, : len(heads)] = heads
    for order, at in enumerate(body):
        before, after = body[max(0, order - BEFORE) : order], body[order + 1 : order + 1 + AFTER]
        found[at, HEADED + BEFORE - len(before) : HEADED + BEFORE] = before
        found[at, HEADED + BEFORE : HEADED + BEFORE + len(after)] = after
    return found


def values_of(stream: Stream) -> Values:
    return np.array([one.value for one in stream.mentions], np.int32)


def seated(values: Values, of: Values) -> Values:
    """The numbers in seats; -1 where nobody sits."""
    return np.where(of >= 0, values[of], NONE).astype(np.int32)
