"""One step of learning: Adam (Kingma and Ba 2014) with decay of the weights (Loshchilov and Hutter 2019), for `network.py` and `ordered.py`."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import jax
import jax.numpy as jnp

_FIRST = 0.9  # of the running mean of the slopes is kept


def stepped(
    weights: Any, means: Any, squares: Any, slope: Any, step: Any, rate: Any, kept: float, decay: Callable[[Any], float]
) -> tuple[Any, Any, Any]:
    """The weights, and the running means of the slopes and of their squares, after a step; `kept` is the share of the squares that is kept,
    `decay` how fast an array decays, times the rate."""
    means = jax.tree.map(lambda mean, g: _FIRST * mean + (1 - _FIRST) * g, means, slope)
    squares = jax.tree.map(lambda square, g: kept * square + (1 - kept) * g * g, squares, slope)

    def moved(w: Any, mean: Any, square: Any) -> Any:
        by = mean / (1 - _FIRST**step) / (jnp.sqrt(square / (1 - kept**step)) + 1e-8)
        return w - rate * (by + decay(w) * w)

    return jax.tree.map(moved, weights, means, squares), means, squares
