"""What the numbers around a place speak for, while it is learned: `studio/agree/expect/spoken.py` in jax, for all places of a batch at
once, with some of the tokens, units and seats left out."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

import jax
import jax.numpy as jnp
import numpy as np

from studio.agree.expect.company import AWAY, PAIRS, SEATS
from studio.agree.expect.relations import NONE, TO_ONE, TO_TWO
from studio.agree.expect.spoken import HEADS

HEAD = 16  # the width of a head
FIRST, SECOND = (np.array(seats) for seats in PAIRS)
RELATIONS = len(TO_ONE) + len(TO_TWO)


class LeftOut(NamedTuple):
    """The shares of the tokens, of the units and of the seats that are left out."""

    tokens: float
    units: float
    seats: float


def begin(some: Callable[..., Any], tokens: int, wide: int, high: int, near: int) -> dict[str, Any]:
    """The arrays as they are before anything is learned; `some` draws one of a shape, `wide` and `high` are how wide the vectors
    and the layers of the places are, `near` those of the numbers around them."""
    return {
        "near_tokens": some(tokens, near, size=0.1), "near_mix": some(near, 2 * near, size=near**-0.5),
        "near_mix_bias": jnp.zeros(2 * near), "near_mixed": some(2 * near, near, size=0.3 * (2 * near) ** -0.5),
        "one_place": some(wide, near, size=wide**-0.5), "one_own": some(near, near, size=near**-0.5),
        "one_near": some(near, near, size=near**-0.5), "one_seat": some(SEATS, near, size=0.3),
        "one_away": some(AWAY, near, size=0.3), "one_bias": jnp.zeros(near), "ask": some(near, HEADS * HEAD, size=near**-0.5),
        "answer": some(near, HEADS * HEAD, size=near**-0.5), "one": some(near, len(TO_ONE), size=0.1 * near**-0.5),
        "one_alike": some(HEADS, len(TO_ONE), size=0.1), "two_place": some(wide, near, size=wide**-0.5),
        "two_first": some(near, near, size=near**-0.5), "two_second": some(near, near, size=near**-0.5),
        "two_seats": some(len(FIRST), near, size=0.3), "two_first_away": some(AWAY, near, size=0.3),
        "two_second_away": some(AWAY, near, size=0.3), "two": some(near, len(TO_TWO), size=0.1 * near**-0.5),
        "relation_worth": some(RELATIONS, size=0.1), "relation_layer": some(RELATIONS, high, size=0.1),
    }  # fmt: skip


def spoken(w: dict[str, Any], around: Any, numbers: int, company: tuple[Any, ...], key: Any, left_out: LeftOut) -> Any:
    """What the numbers around each place say for each number, by relation. `w` are the arrays, `around` the vectors of the places;
    there are so many `numbers` around them at most, and one that stands for none."""
    places = len(around)
    token, whose, own, near, away, told_by_one, told_by_two = company
    keys = jax.random.split(jax.random.fold_in(key, 1), 4)

    def some_out(key: Any, array: Any, share: float, *shape: int) -> Any:
        return array * jax.random.bernoulli(key, 1 - share, shape) / (1 - share)

    vectors = jax.ops.segment_sum(w["near_tokens"][token], whose, numbers + 1) / (1 - left_out.tokens)
    vectors += jax.nn.relu(vectors @ w["near_mix"] + w["near_mix_bias"]) @ w["near_mixed"]
    asked = around @ w["one_place"] + w["one_bias"] + (vectors @ w["one_own"])[own]
    units = jax.nn.relu(asked[:, None] + (vectors @ w["one_near"])[near] + w["one_seat"] + w["one_away"][away])
    ask, answer = ((vectors @ w[name]).reshape(-1, HEADS, HEAD) for name in ("ask", "answer"))
    alike = jnp.einsum("phw,pshw->psh", ask[own], answer[near]) * HEAD**-0.5
    units = some_out(keys[0], units, left_out.units, 1, *units.shape[1:])
    one = some_out(keys[1], units @ w["one"] + alike @ w["one_alike"], left_out.seats, places, SEATS, 1)
    first = (vectors @ w["two_first"])[near] + w["two_first_away"][away]
    second = (vectors @ w["two_second"])[near] + w["two_second_away"][away]
    units = jax.nn.relu((around @ w["two_place"])[:, None] + first[:, FIRST] + second[:, SECOND] + w["two_seats"])
    units = some_out(keys[2], units, left_out.units, 1, *units.shape[1:])
    two = some_out(keys[3], units @ w["two"], left_out.seats, places, len(FIRST), 1)
    place = jnp.arange(places)[:, None, None] * (NONE + 1)
    cells = [
        (place + told) * RELATIONS + jnp.arange(at, at + told.shape[-1])
        for told, at in ((told_by_one, 0), (told_by_two, len(TO_ONE)))
    ]
    spoken = jnp.concatenate((one.ravel(), two.ravel()))
    table = jax.ops.segment_sum(
        spoken, jnp.concatenate([cell.ravel() for cell in cells]), places * (NONE + 1) * RELATIONS
    )
    return table.reshape(places, NONE + 1, RELATIONS).at[:, NONE].set(0.0)
