"""Learning the network of `studio/agree/expect/network.py` (needs the extra "bench", with jax).

Every number that is said in a right lesson is an example: its place, the numbers that may be said there, the clues
that point to each. The network shall find likely what is said (maximum likelihood); what is
kept is a running mean of the weights (Polyak and Juditsky 1992). Clues and tokens are left out at random while it
learns (dropout: Srivastava and others 2014), so that it does not trust a single one. Places of a lesson are learned from
together, for they share the numbers around them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from typing import Any

import jax
import jax.numpy as jnp
import numpy as np
import speaking
from adam import stepped
from speaking import FIRST, SECOND

from studio.agree.expect.company import AWAY, SEATS
from studio.agree.expect.network import Network
from studio.agree.expect.relations import NONE, to_one, to_two, within

RATE = 2e-3
FURTHER_RATE = 5e-4
"""For what goes on learning: with 1.2e-3 it forgot more than it learned."""
WARM = 50  # steps in which the rate of what goes on learning grows: Adam knows nothing of the slopes yet
DECAY = 0.4  # of the weights, times the rate: with a hundredth of it the network knew its lessons by heart
KEPT = 0.999  # of the running mean of the squares of the slopes
BATCH = 256  # places
IDLE = 0.3  # what a nat costs by which it is not foreseen that a number takes no part, in those of the number itself
AVERAGED = 0.99  # the share of the running mean that is kept when the weights are added to it
AVERAGED_EVERY = 10  # steps


@dataclass(frozen=True)
class Recipe:
    """How a network is learned: how wide its vectors and layers are, how often all examples are gone through, how many
    members there are, how often (by the number of places) a clue or token is seen at least that is learned, and how much
    of the clues, the tokens and the dimensions of their sums is left out while it learns. `company` is how wide the vectors
    and layers of the numbers around a place are (0: they are not looked at), and how much of the units and of the seats is
    left out."""

    dimensions: int = 64
    units: int = 128
    rounds: int = 10
    members: int = 1  # more are a little surer, and slower
    rare_clue: float = 1 / 550
    rare_token: float = 1 / 450
    clues_out: float = 0.3
    tokens_out: float = 0.4
    sums_out: float = 0.05
    company: int = 0
    units_out: float = 0.3
    seats_out: float = 0.2


MOST_NUMBERS, MOST_NEAR = 36 * BATCH, 3 * BATCH  # in a batch; larger arrays cost time
MOST_CLUES, MOST_TOKENS, MOST_NEAR_TOKENS = 380 * BATCH, 100 * BATCH, 48 * BATCH  # before any are left out
AT_ONCE = 120  # places of a lesson


@dataclass(frozen=True)
class Example:
    """A place: the clues for every number (`values`), the one that is said first; the tokens around it; whether the number
    takes no part in the lesson; its index among the numbers of the lesson, the indices of those in its seats, and how far
    away they are (`studio.agree.expect.company`)."""

    clues: list[list[str]]
    values: Any
    tokens: list[str]
    idle: bool = False
    own: int = 0
    near: Any = None
    away: Any = None


@dataclass(frozen=True)
class Told:
    """The places of a lesson; of all its numbers what they are, with none behind them, and the tokens around each."""

    places: list[Example]
    numbers: Any = ()
    around: list[list[str]] = field(default_factory=list)


@dataclass(frozen=True)
class _Coded:
    values: Any
    clues: Any
    owners: Any
    tokens: Any
    idle: bool
    own: int
    near: Any
    away: Any


@dataclass(frozen=True)
class _Part:
    """Places of a lesson that go into one batch, and the numbers around them."""

    places: list[_Coded]
    numbers: Any
    around: list[Any]


def learn(lessons: Sequence[Told], family: Callable[[str], int], recipe: Recipe) -> Network:
    """The network that finds what is said in these lessons likeliest; `family` tells the family of a clue."""
    clues, tokens = names(lessons, recipe)
    parts = code(lessons, clues, tokens)
    members = [member(parts, len(clues), len(tokens), seed, recipe) for seed in range(recipe.members)]
    return Network.of(clues, tokens, members, family)


def names(lessons: Sequence[Told], recipe: Recipe) -> tuple[list[str], list[str]]:
    """The clues and tokens that are seen often enough to be learned."""
    places = sum(len(lesson.places) for lesson in lessons)
    seen = Counter(name for lesson in lessons for one in lesson.places for names in one.clues for name in names)
    around = Counter(name for lesson in lessons for one in lesson.places for name in one.tokens)
    if recipe.company:
        around.update(name for lesson in lessons for names in lesson.around for name in names)
    clues = sorted(name for name, count in seen.items() if count >= recipe.rare_clue * places)
    return clues, sorted(name for name, count in around.items() if count >= recipe.rare_token * places)


def member(parts: Sequence[_Part], clues: int, tokens: int, seed: int, recipe: Recipe) -> dict[str, Any]:
    """The arrays of one member, from a beginning of its own."""
    chance = np.random.default_rng(seed)
    begun = _begin(chance, clues, tokens, recipe)
    mean_weights = {name: np.asarray(array) for name, array in begun.items()}
    step, weights = 0, begun
    for step, weights in _steps(begun, parts, chance, seed, recipe, RATE, recipe.rounds):
        if step % AVERAGED_EVERY == 0:
            mean_weights = _averaged(mean_weights, weights, step)
    found = _averaged(mean_weights, weights, step)
    if recipe.company:  # what was never seen around a number has learned nothing
        there = np.zeros(tokens, bool)
        there[np.concatenate([around for part in parts for around in part.around])] = True
        found["near_tokens"] = np.where(there[:, None], found["near_tokens"], 0)
    return found


def further(parts: Sequence[_Part], member: dict[str, Any], seed: int, recipe: Recipe) -> dict[str, Any]:
    """A member that goes on learning from parts, each once, by small steps: it keeps what it knows."""
    begun = {name: jnp.asarray(array, jnp.float32) for name, array in member.items()}
    chance, found = np.random.default_rng(seed), begun
    for _, found in _steps(begun, parts, chance, seed, recipe, FURTHER_RATE, 1, WARM):  # noqa: B007 - only the last is wanted
        pass
    return {name: np.asarray(array, np.float32) for name, array in found.items()}


def _steps(
    weights: Any,
    parts: Sequence[_Part],
    chance: Any,
    seed: int,
    recipe: Recipe,
    rate: float,
    rounds: int,
    warm: int = 1,
) -> Iterator[tuple[int, Any]]:
    """The weights after every step of the rounds; the rate grows for so many steps and then falls to nothing."""
    means, squares = (jax.tree.map(jnp.zeros_like, weights) for _ in range(2))
    key = jax.random.PRNGKey(seed)
    step = seen = 0
    places = rounds * sum(len(part.places) for part in parts)
    for _ in range(rounds):
        order = chance.permutation(len(parts))
        for batch in _batches([parts[at] for at in order], chance, recipe):
            step += 1
            key, now = jax.random.split(key)
            small = rate * (1 - seen / places) * min(1, step / warm)
            seen += int(batch[5].sum())
            weights, means, squares = _step(weights, means, squares, batch, now, step, small, recipe)
            yield step, weights


def _averaged(mean: dict[str, Any], weights: dict[str, Any], step: int) -> dict[str, Any]:
    """The running mean with the weights after so many steps; the first ones are soon forgotten."""
    kept = min(AVERAGED, step / (step + 1000))
    return {
        name: (kept * array + (1 - kept) * np.asarray(weights[name])).astype(np.float32) for name, array in mean.items()
    }


def code(lessons: Sequence[Told], clues: Sequence[str], tokens: Sequence[str]) -> list[_Part]:
    """Lessons with the indices of clues and tokens, in parts that fit into a batch."""
    clue = {name: at for at, name in enumerate(clues)}
    token = {name: at for at, name in enumerate(tokens)}

    def known(names: Sequence[str]) -> Any:
        return np.array([token[name] for name in names if name in token], dtype=np.int32)

    parts = []
    for lesson in lessons:
        around = [known(names) for names in lesson.around]
        for at in range(0, len(lesson.places), AT_ONCE):
            places = lesson.places[at : at + AT_ONCE]
            if not around:
                parts.append(_Part([_coded(one, clue, known) for one in places], np.array([NONE], np.int32), []))
                continue
            there = sorted(
                {len(around), *(one.own for one in places), *(at for one in places for at in one.near.tolist())}
            )
            index = {at: new for new, at in enumerate(there)}
            moved = [
                replace(one, own=index[one.own], near=np.array([index[at] for at in one.near.tolist()], np.int32))
                for one in places
            ]
            coded = [_coded(one, clue, known) for one in moved]
            parts.append(_Part(coded, lesson.numbers[there], [around[at] for at in there[:-1]]))
    return parts


def _coded(one: Example, clue: dict[str, int], known: Callable[[Sequence[str]], Any]) -> _Coded:
    told = [(clue[name], owner) for owner, names in enumerate(one.clues) for name in names if name in clue]
    pairs = np.array(told, dtype=np.int32).reshape(-1, 2)
    return _Coded(one.values, pairs[:, 0], pairs[:, 1], known(one.tokens), one.idle, one.own, one.near, one.away)


def _begin(chance: Any, clues: int, tokens: int, recipe: Recipe) -> dict[str, Any]:
    def some(*shape: int, size: float) -> Any:
        return jnp.asarray(chance.normal(size=shape) * size, jnp.float32)

    wide, high = recipe.dimensions, recipe.units
    company = speaking.begin(some, tokens, wide, high, recipe.company) if recipe.company else {}
    return company | {
        "worth": jnp.zeros(clues), "clues": some(clues, wide, size=0.1), "tokens": some(tokens, wide, size=0.1),
        "mix": some(wide, high, size=wide**-0.5), "mix_bias": jnp.zeros(high), "mixed": some(high, wide, size=0.3 * high**-0.5),
        "gate": jnp.zeros((wide, wide)), "clue_layer": some(wide, high, size=wide**-0.5),
        "token_layer": some(wide, high, size=wide**-0.5), "bias": jnp.zeros(high),
        "second": some(high, high, size=0.5 * high**-0.5), "second_bias": jnp.zeros(high), "last": some(high, size=0.1),
        "idle": jnp.zeros(wide), "idle_bias": jnp.zeros(1),
    }  # fmt: skip


def _batches(parts: Sequence[_Part], chance: Any, recipe: Recipe) -> Iterator[tuple[Any, ...]]:
    """Examples in arrays of one size, so that the step is compiled once."""
    at = 0
    while at < len(parts):
        places = numbers = 0
        first = at
        while at < len(parts):
            places += len(parts[at].places)
            numbers += len(parts[at].around)
            if at > first and (places > BATCH or numbers > MOST_NEAR):
                break
            at += 1
        yield _batch(parts[first:at], chance, recipe)


def _batch(parts: Sequence[_Part], chance: Any, recipe: Recipe) -> tuple[Any, ...]:
    """The clue, its number, its weight; the place of each number; the number that is said at each place; whether there is such
    a place; tokens and their places; whether the number takes no part; what each number is; the tokens around the numbers
    of the lessons and whose they are; of each place its own index among these, those in its seats, how far away they are;
    what is told by one and by two of them. What does not fit in is left out."""
    most_clues = round(MOST_CLUES * (1 - recipe.clues_out))
    most_tokens, most_near_tokens = (round(most * (1 - recipe.tokens_out)) for most in (MOST_TOKENS, MOST_NEAR_TOKENS))
    clue, owner = np.zeros(most_clues, np.int32), np.full(most_clues, MOST_NUMBERS - 1, np.int32)
    token, where = np.zeros(most_tokens, np.int32), np.full(most_tokens, BATCH, np.int32)
    weight, place = np.zeros(most_clues, np.float32), np.full(MOST_NUMBERS, BATCH, np.int32)
    said, there = np.zeros(BATCH + 1, np.int32), np.zeros(BATCH + 1, np.float32)
    idle, cell = np.zeros(BATCH + 1, np.float32), np.full(MOST_NUMBERS, NONE, np.int32)
    near_token, whose = np.zeros(most_near_tokens, np.int32), np.full(most_near_tokens, MOST_NEAR, np.int32)
    known = np.full(MOST_NEAR + 1, NONE, np.int32)
    own, near = np.full(BATCH + 1, MOST_NEAR, np.int32), np.full((BATCH + 1, SEATS), MOST_NEAR, np.int32)
    away = np.full((BATCH + 1, SEATS), AWAY - 1, np.int32)
    row = numbers = clues = tokens = others = near_tokens = 0
    for part in parts:
        many = len(part.around)
        for index, around in enumerate(part.around):
            kept = around[chance.random(len(around)) >= recipe.tokens_out][: most_near_tokens - near_tokens]
            near_token[near_tokens : near_tokens + len(kept)] = kept
            whose[near_tokens : near_tokens + len(kept)] = others + index
            near_tokens += len(kept)
        known[others : others + many] = part.numbers[:-1]
        for one in part.places:
            if row == BATCH or numbers + len(one.values) >= MOST_NUMBERS:
                break
            kept = chance.random(len(one.clues)) >= recipe.clues_out
            new = min(int(kept.sum()), most_clues - clues)
            clue[clues : clues + new] = one.clues[kept][:new]
            owner[clues : clues + new] = one.owners[kept][:new] + numbers
            weight[clues : clues + new] = 1 / (1 - recipe.clues_out)
            around = one.tokens[chance.random(len(one.tokens)) >= recipe.tokens_out][: most_tokens - tokens]
            token[tokens : tokens + len(around)], where[tokens : tokens + len(around)] = around, row
            more = slice(numbers, numbers + len(one.values))
            place[more], cell[more], said[row], there[row], idle[row] = row, one.values, numbers, 1, one.idle
            if many:
                own[row], away[row] = others + one.own, one.away
                near[row] = np.where(one.near == many, MOST_NEAR, others + one.near)
            row, numbers, clues, tokens = row + 1, more.stop, clues + new, tokens + len(around)
        others += many
    beside = known[near]
    told = to_one(beside), to_two(beside[:, FIRST], beside[:, SECOND])
    of_places = clue, owner, weight, place, said, there, token, where, idle, within(cell)
    return *of_places, near_token, whose, own, near, away, *told


def _loss(weights: dict[str, Any], batch: tuple[Any, ...], key: Any, recipe: Recipe) -> Any:
    """How unlikely the numbers are that are said, in nats a place, and in part how little is foreseen which take no part."""
    left = 1.0 - recipe.sums_out
    clue, owner, weight, place, said, there, token, where, idle, cell = batch[:10]
    pointed = jax.ops.segment_sum(weights["clues"][clue] * weight[:, None], owner, MOST_NUMBERS)
    around = jax.ops.segment_sum(weights["tokens"][token], where, BATCH + 1) / (1 - recipe.tokens_out)
    one, other = jax.random.split(key)
    pointed *= jax.random.bernoulli(one, left, pointed.shape) / left
    around *= jax.random.bernoulli(other, left, around.shape) / left
    around += jax.nn.relu(around @ weights["mix"] + weights["mix_bias"]) @ weights["mixed"]
    layer = pointed @ weights["clue_layer"] + (around @ weights["token_layer"] + weights["bias"])[place]
    scores = jax.ops.segment_sum(weights["worth"][clue] * weight, owner, MOST_NUMBERS)
    if recipe.company:
        left_out = speaking.LeftOut(recipe.tokens_out, recipe.units_out, recipe.seats_out)
        spoken = speaking.spoken(weights, around, MOST_NEAR, batch[10:], key, left_out)[place, cell]
        layer += spoken @ weights["relation_layer"]
        scores += spoken @ weights["relation_worth"]
    layer = jax.nn.relu(layer)
    layer += jax.nn.relu(layer @ weights["second"] + weights["second_bias"])
    scores += (pointed * (around @ weights["gate"])[place]).sum(-1) + layer @ weights["last"]
    top = jax.ops.segment_max(scores, place, BATCH + 1)
    total = jnp.log(jax.ops.segment_sum(jnp.exp(scores - top[place]), place, BATCH + 1)) + top
    odds = around @ weights["idle"] + weights["idle_bias"]
    unforeseen = jax.nn.softplus(odds) - idle * odds
    return jnp.where(there > 0, total - scores[said] + IDLE * unforeseen, 0).sum() / there.sum()


@partial(jax.jit, donate_argnums=(0, 1, 2), static_argnames="recipe")
def _step(weights: Any, means: Any, squares: Any, batch: Any, key: Any, step: int, rate: float, recipe: Recipe) -> Any:
    slope = jax.grad(_loss)(weights, batch, key, recipe)
    return stepped(weights, means, squares, slope, step, rate, KEPT, lambda _: DECAY)
