"""Things in a row, each as near to where it belongs as the others let it."""

from __future__ import annotations

from collections.abc import Sequence


def spread(wished: Sequence[float], apart: Sequence[float], low: float, high: float) -> list[float]:
    """The places nearest to those wished, in their order, that are at least so far `apart` and from `low` to `high`: what
    is too close goes to both sides of its middle."""
    if not wished:
        return []
    offsets = [0.0]
    for step in apart:
        offsets.append(offsets[-1] + step)
    groups: list[list[float]] = []
    for wish, offset in zip(wished, offsets, strict=True):
        groups.append([wish - offset])
        while len(groups) > 1 and _mean(groups[-2]) > _mean(groups[-1]):
            groups[-2:] = [groups[-2] + groups[-1]]
    means = [_mean(group) for group in groups for _ in group]
    return [min(max(mean, low), high - offsets[-1]) + offset for mean, offset in zip(means, offsets, strict=True)]


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)
