"""How oddly a lesson is told: how little its other numbers were to be expected. Who talks in a manner of her own has many
numbers that are hardly expected and right all the same; among numbers that are all expected, one that is not is a slip."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from studio.agree.expect.network import Surprises

NAMES = (
    "surprise of the others",
    "share of odd ones",
    "very odd ones",
    "numbers in all",
    "odd ones near",
    "surprise near",
)
_ODD, _VERY_ODD = 1.5, 3.0  # nats
_NEAR = 3  # numbers before and after


def oddness(surprises: Surprises, places: Sequence[int]) -> Iterator[tuple[float, ...]]:
    """For each of these places the traits in the order of `NAMES`; `surprises` are those of all numbers of the lesson in
    their order, in nats. Of the others: their mean surprise, the share (of all) that is odd, how many are very odd, how many
    numbers there are with this one; of those close to it, how many are odd, and the sum of their surprises."""
    many, total = len(surprises), float(surprises.sum())
    odd, very_odd = (int((surprises > least).sum()) for least in (_ODD, _VERY_ODD))
    for at in places:
        own = float(surprises[at])
        near = surprises[max(0, at - _NEAR) : at + _NEAR + 1]
        yield (
            (total - own) / max(1, many - 1),
            (odd - (own > _ODD)) / many,
            very_odd - (own > _VERY_ODD),
            many,
            int((near > _ODD).sum()) - (own > _ODD),
            float(near.sum()) - own,
        )
