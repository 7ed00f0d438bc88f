"""What a number may be to one or to two others: the same, one more, what is missing to ten; their sum, their difference, the
next one where they begin to count by steps. Worked out for many numbers at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np
import numpy.typing as npt

Numbers = npt.NDArray[np.int32]
GREATEST = 130
NONE = GREATEST + 1
"""Stands for a number that nobody looks at: below nought, over `GREATEST`, no whole number."""
_TEN, _TWENTY = 10, 20


def _half(number: Numbers) -> Numbers:
    return np.where(number % 2 == 0, number // 2, NONE)


def _where(holds: npt.NDArray[np.bool_], number: Numbers) -> Numbers:
    return np.where(holds, number, NONE)


TO_ONE: Mapping[str, Callable[[Numbers], Numbers]] = {
    "the same": lambda one: one,
    "one more": lambda one: one + 1,
    "one less": lambda one: one - 1,
    "two more": lambda one: one + 2,
    "two less": lambda one: one - 2,
    "ten more": lambda one: one + _TEN,
    "ten less": lambda one: one - _TEN,
    "the double": lambda one: 2 * one,
    "the half": _half,
    "missing to ten": lambda one: _TEN - one,
    "missing to twenty": lambda one: _TWENTY - one,
    "its tens": lambda one: _where(one >= _TEN, one // _TEN),
    "its ones": lambda one: _where(one >= _TEN, one % _TEN),
    "so many tens": lambda one: _TEN * one,
    "ten and it": lambda one: _where(one < _TEN, _TEN + one),
}
TO_TWO: Mapping[str, Callable[[Numbers, Numbers], Numbers]] = {
    "the sum": lambda one, other: one + other,
    "the difference": lambda one, other: np.abs(one - other),
    "tens and ones": lambda one, other: _where(other < _TEN, _TEN * one + other),
    "ones and tens": lambda one, other: _where(one < _TEN, _TEN * other + one),
    "the next step": lambda one, other: 2 * other - one,
    "the step before": lambda one, other: 2 * one - other,
    "between": lambda one, other: _half(one + other),
    "the product": lambda one, other: one * other,
}


def to_one(numbers: Numbers) -> Numbers:
    """The numbers that `TO_ONE` tells, along a new last axis; `NONE` stays none."""
    return _told([_where(numbers < NONE, tell(numbers)) for tell in TO_ONE.values()])


def to_two(one: Numbers, other: Numbers) -> Numbers:
    """The numbers that `TO_TWO` tells, along a new last axis; with `NONE` there is none."""
    both = (one < NONE) & (other < NONE)
    return _told([_where(both, tell(one, other)) for tell in TO_TWO.values()])


def within(numbers: npt.NDArray[Any]) -> Numbers:
    """The numbers, with `NONE` for those that are not looked at."""
    return np.where((numbers < 0) | (numbers > GREATEST), NONE, numbers).astype(np.int32)


def _told(numbers: list[Numbers]) -> Numbers:
    return within(np.stack(numbers, axis=-1))
