"""Which numerals a long number line has, and where they stand so that none is on another."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from itertools import pairwise

from studio.pictures.metrics import text_width
from studio.pictures.spread import spread

BETWEEN = 14.0
"""The least space between two numerals, in units."""
ASIDE = 105.0
"""How far to the side of its number a numeral of the second row may stand."""
LANE = 11.0
"""How far a thread keeps from another, and, where it can, from a numeral that it passes."""
TIGHT = 6.0
"""How far it keeps from a numeral in any case."""

At = Callable[[int], float]


@dataclass(frozen=True, slots=True)
class Label:
    """A numeral with its middle at `x`. Where it is of the second row, a thread goes down to it from its tick, and
    passes the first row at `lane`; None where it stands right under its tick."""

    number: int
    x: float
    lane: float | None = None


def labels(
    ends: tuple[int, int], every: int, wanted: Sequence[int], together: Collection[int], at: At, size: float
) -> tuple[Label, ...]:
    """The numerals of a line, from left to right: in the first row its ends and the multiples of `every`; in a second row
    below as many of those `wanted` (the most wanted first) as there is room for. Of those that belong `together` either
    all stand there, or none: a few of them would look chosen.

    `at` says where a number stands; `size` is the em of the numerals.
    """
    first: list[int] = []
    start, end = ends
    for number in (*ends, *range(start + -start % every, end + 1, every)):
        if number not in first and all(abs(at(number) - at(other)) >= _pitch(number, other, size) for other in first):
            first.append(number)
    first.sort()
    second: tuple[Label, ...] = ()
    for group in (*((number,) for number in wanted), together):
        new = set(group) - set(first) - {label.number for label in second}
        if new:
            second = _second_row(sorted({*new, *(label.number for label in second)}), first, at, size) or second
    return tuple(sorted((*(Label(number, at(number)) for number in first), *second), key=lambda label: label.number))


def wide(number: int, size: float) -> float:
    """The greatest width of a numeral."""
    return text_width(str(number), size)


def _pitch(one: int, other: int, size: float) -> float:
    """How far apart the middles of two numerals are at least."""
    return (wide(one, size) + wide(other, size)) / 2 + BETWEEN


def _second_row(numbers: Sequence[int], first: Sequence[int], at: At, size: float) -> tuple[Label, ...]:
    """The numerals below the first row, each as near to its number as the others let it; none where one would be too
    far from it, or its thread would cross a numeral."""
    left, right = at(first[0]), at(first[-1])
    pitches = [_pitch(one, other, size) for one, other in pairwise(numbers)]
    places = spread([at(number) for number in numbers], pitches, left, right)
    lanes: list[float] = []
    for low, high in pairwise(first):
        here = [at(number) for number in numbers if low < number < high]
        begin, stop = at(low) + wide(low, size) / 2, at(high) - wide(high, size) / 2
        aside = min(LANE, (stop - begin - (len(here) - 1) * LANE) / 2)
        if here and aside < TIGHT:
            return ()
        lanes += spread(here, [LANE] * (len(here) - 1), begin + aside, stop - aside)
    found = tuple(map(Label, numbers, places, lanes))
    return found if all(abs(label.x - at(label.number)) <= ASIDE for label in found) else ()
