"""Counts in the talk: numbers said one after the other that go up or down in even steps."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from studio.talk.model import Number

_STEPS = frozenset((1, -1, 2, 5, 10, -2, -5, -10))
_APART = 12  # words between two numbers of a count
_LONGEST = 30  # numbers


class Run(NamedTuple):
    """How a count goes on from a number: in which step (0: no count), to what end, how many numbers it has."""

    step: int
    end: int
    length: int


def run_from(numbers: Sequence[Number], at: int) -> Run:
    """The count that begins with the number at an index."""
    number = numbers[at]
    step, length = 0, 1
    for other in numbers[at + 1 : at + _LONGEST]:
        further = other.value - number.value
        if other.start - number.end > _APART or further != (step or further) or further not in _STEPS:
            break
        number, step, length = other, further, length + 1
    return Run(step, number.value, length)
