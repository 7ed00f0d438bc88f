"""Learning the network of `studio/agree/expect/network.py` (needs the extra "bench", with jax).

Every number that is said in a right lesson is an example: its place, the numbers that may be said there, the clues
that point to each. The network shall find likely what is said (maximum likelihood, Adam: Kingma and Ba 2014); what is
kept is a running mean of the weights (Polyak and Juditsky 1992). Clues and tokens are left out at random while it
learns (dropout: Srivastava and others 2014), so that it does not trust a single one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

import jax
import jax.numpy as jnp
import numpy as np

from studio.agree.expect.network import Network

RATE = 2e-3
DECAY = 0.4  # of the weights, times the rate: with a hundredth of it the network knew its lessons by heart
BATCH = 256  # places
IDLE = 0.3  # what a nat costs by which it is not foreseen that a number takes no part, in those of the number itself
AVERAGED = 0.99  # the share of the running mean that is kept when the weights are added to it
AVERAGED_EVERY = 10  # steps


@dataclass(frozen=True)
class Recipe:
    """How a network is learned: how wide its vectors and layers are, how often all examples are gone through, how many
    members there are, how often (by the number of places) a clue or token is seen at least that is learned, and how much
    of the clues, the tokens and the dimensions of their sums is left out while it learns."""

    dimensions: int = 64
    units: int = 128
    rounds: int = 10
    members: int = 1  # more are a little surer, and slower
    rare_clue: float = 1 / 550
    rare_token: float = 1 / 450
    clues_out: float = 0.3
    tokens_out: float = 0.4
    sums_out: float = 0.05


MOST_NUMBERS, MOST_CLUES, MOST_TOKENS = 40 * BATCH, 220 * BATCH, 75 * BATCH  # in a batch


@dataclass(frozen=True)
class Example:
    """A place: the clues for every number, the one that is said first; the tokens around it; whether the number takes no part
    in the lesson."""

    clues: list[list[str]]
    tokens: list[str]
    idle: bool = False


@dataclass(frozen=True)
class _Coded:
    numbers: int
    clues: Any
    owners: Any
    tokens: Any
    idle: bool


def learn(examples: Sequence[Example], family: Callable[[str], int], recipe: Recipe) -> Network:
    """The network that finds what is said in these examples likeliest; `family` tells the family of a clue."""
    seen = Counter(name for one in examples for names in one.clues for name in names)
    around = Counter(name for one in examples for name in one.tokens)
    clues = sorted(name for name, count in seen.items() if count >= recipe.rare_clue * len(examples))
    tokens = sorted(name for name, count in around.items() if count >= recipe.rare_token * len(examples))
    coded = _code(examples, clues, tokens)
    members = [_member(coded, len(clues), len(tokens), seed, recipe) for seed in range(recipe.members)]
    return Network.of(clues, tokens, members, family)


def _member(coded: Sequence[_Coded], clues: int, tokens: int, seed: int, recipe: Recipe) -> dict[str, Any]:
    chance = np.random.default_rng(seed)
    weights = _begin(chance, clues, tokens, recipe)
    means, squares = (jax.tree.map(jnp.zeros_like, weights) for _ in range(2))
    mean_weights = {name: np.asarray(array) for name, array in weights.items()}
    key = jax.random.PRNGKey(seed)
    step = seen = 0
    for _ in range(recipe.rounds):
        order = chance.permutation(len(coded))
        for batch in _batches([coded[at] for at in order], chance, recipe):
            step += 1
            key, now = jax.random.split(key)
            rate = RATE * (1 - seen / (recipe.rounds * len(coded)))
            seen += int(batch[5].sum())
            weights, means, squares = _step(weights, means, squares, batch, now, step, rate, recipe)
            if step % AVERAGED_EVERY == 0:
                mean_weights = _averaged(mean_weights, weights, step)
    return _averaged(mean_weights, weights, step)


def _averaged(mean: dict[str, Any], weights: dict[str, Any], step: int) -> dict[str, Any]:
    """The running mean with the weights after so many steps; the first ones are soon forgotten."""
    kept = min(AVERAGED, step / (step + 1000))
    return {
        name: (kept * array + (1 - kept) * np.asarray(weights[name])).astype(np.float32) for name, array in mean.items()
    }


def _code(examples: Sequence[Example], clues: Sequence[str], tokens: Sequence[str]) -> list[_Coded]:
    clue = {name: at for at, name in enumerate(clues)}
    token = {name: at for at, name in enumerate(tokens)}
    coded = []
    for one in examples:
        known = [(clue[name], owner) for owner, names in enumerate(one.clues) for name in names if name in clue]
        pairs = np.array(known, dtype=np.int32).reshape(-1, 2)
        around = np.array([token[name] for name in one.tokens if name in token], dtype=np.int32)
        coded.append(_Coded(len(one.clues), pairs[:, 0], pairs[:, 1], around, one.idle))
    return coded


def _begin(chance: Any, clues: int, tokens: int, recipe: Recipe) -> dict[str, Any]:
    def some(*shape: int, size: float) -> Any:
        return jnp.asarray(chance.normal(size=shape) * size, jnp.float32)

    wide, high = recipe.dimensions, recipe.units
    return {
        "worth": jnp.zeros(clues), "clues": some(clues, wide, size=0.1), "tokens": some(tokens, wide, size=0.1),
        "mix": some(wide, high, size=wide**-0.5), "mix_bias": jnp.zeros(high), "mixed": some(high, wide, size=0.3 * high**-0.5),
        "gate": jnp.zeros((wide, wide)), "clue_layer": some(wide, high, size=wide**-0.5),
        "token_layer": some(wide, high, size=wide**-0.5), "bias": jnp.zeros(high),
        "second": some(high, high, size=0.5 * high**-0.5), "second_bias": jnp.zeros(high), "last": some(high, size=0.1),
        "idle": jnp.zeros(wide), "idle_bias": jnp.zeros(1),
    }  # fmt: skip


def _batches(coded: Sequence[_Coded], chance: Any, recipe: Recipe) -> Iterator[tuple[Any, ...]]:
    """Examples in arrays of one size, so that the step is compiled once: the clue, its number, its weight; the place of
    each number; the number that is said at each place; whether there is such a place; tokens and their places; whether the
    number takes no part."""
    at = 0
    while at < len(coded):
        clue, owner = np.zeros(MOST_CLUES, np.int32), np.full(MOST_CLUES, MOST_NUMBERS - 1, np.int32)
        token, where = np.zeros(MOST_TOKENS, np.int32), np.full(MOST_TOKENS, BATCH, np.int32)
        weight, place = np.zeros(MOST_CLUES, np.float32), np.full(MOST_NUMBERS, BATCH, np.int32)
        said, there = np.zeros(BATCH + 1, np.int32), np.zeros(BATCH + 1, np.float32)
        idle = np.zeros(BATCH + 1, np.float32)
        numbers = clues = tokens = 0
        for row in range(min(BATCH, len(coded) - at)):
            one = coded[at + row]
            kept = chance.random(len(one.clues)) >= recipe.clues_out
            around = one.tokens[chance.random(len(one.tokens)) >= recipe.tokens_out]
            new = int(kept.sum())
            if row and (
                numbers + one.numbers >= MOST_NUMBERS or clues + new > MOST_CLUES or tokens + len(around) > MOST_TOKENS
            ):
                break
            new = min(new, MOST_CLUES - clues)
            clue[clues : clues + new] = one.clues[kept][:new]
            owner[clues : clues + new] = one.owners[kept][:new] + numbers
            weight[clues : clues + new] = 1 / (1 - recipe.clues_out)
            token[tokens : tokens + len(around)], where[tokens : tokens + len(around)] = around, row
            place[numbers : numbers + one.numbers], said[row], there[row], idle[row] = row, numbers, 1, one.idle
            numbers, clues, tokens = numbers + one.numbers, clues + new, tokens + len(around)
        at += int(there.sum())
        yield clue, owner, weight, place, said, there, token, where, idle


def _loss(weights: dict[str, Any], batch: tuple[Any, ...], key: Any, recipe: Recipe) -> Any:
    """How unlikely the numbers are that are said, in nats a place, and in part how little is foreseen which take no part."""
    left = 1.0 - recipe.sums_out
    clue, owner, weight, place, said, there, token, where, idle = batch
    pointed = jax.ops.segment_sum(weights["clues"][clue] * weight[:, None], owner, MOST_NUMBERS)
    around = jax.ops.segment_sum(weights["tokens"][token], where, BATCH + 1) / (1 - recipe.tokens_out)
    one, other = jax.random.split(key)
    pointed *= jax.random.bernoulli(one, left, pointed.shape) / left
    around *= jax.random.bernoulli(other, left, around.shape) / left
    around += jax.nn.relu(around @ weights["mix"] + weights["mix_bias"]) @ weights["mixed"]
    layer = jax.nn.relu(pointed @ weights["clue_layer"] + (around @ weights["token_layer"] + weights["bias"])[place])
    layer += jax.nn.relu(layer @ weights["second"] + weights["second_bias"])
    scores = jax.ops.segment_sum(weights["worth"][clue] * weight, owner, MOST_NUMBERS)
    scores += (pointed * (around @ weights["gate"])[place]).sum(-1) + layer @ weights["last"]
    top = jax.ops.segment_max(scores, place, BATCH + 1)
    total = jnp.log(jax.ops.segment_sum(jnp.exp(scores - top[place]), place, BATCH + 1)) + top
    odds = around @ weights["idle"] + weights["idle_bias"]
    unforeseen = jax.nn.softplus(odds) - idle * odds
    return jnp.where(there > 0, total - scores[said] + IDLE * unforeseen, 0).sum() / there.sum()


@partial(jax.jit, donate_argnums=(0, 1, 2), static_argnames="recipe")
def _step(weights: Any, means: Any, squares: Any, batch: Any, key: Any, step: int, rate: float, recipe: Recipe) -> Any:
    """One step of Adam with decay of the weights."""
    slope = jax.grad(_loss)(weights, batch, key, recipe)
    means = jax.tree.map(lambda mean, g: 0.9 * mean + 0.1 * g, means, slope)
    squares = jax.tree.map(lambda square, g: 0.999 * square + 0.001 * g * g, squares, slope)

    def moved(w: Any, mean: Any, square: Any) -> Any:
        return w - rate * (mean / (1 - 0.9**step) / (jnp.sqrt(square / (1 - 0.999**step)) + 1e-8) + DECAY * w)

    return jax.tree.map(moved, weights, means, squares), means, squares
