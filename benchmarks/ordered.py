"""What numbers ought to be by what is read in its order, learned from right lessons (`studio/agree/expect/ordered`).

    python benchmarks/ordered.py fit              # learn from benchmarks/lessons, write studio/agree/expect/ordered/ordered.npz
    python benchmarks/ordered.py fit --begun FILE # the same, and keep what is learned in a file from time to time, to go on from there
    python benchmarks/ordered.py measure FOLDER   # how much the numbers of other lessons surprise it (default: benchmarks/unlearned)

No wrong number is needed for it: every number of a right lesson is an example, said or shown, and what is learned is what the words
around it tell of those beside it. It learns from the sayings in benchmarks/sayings, too (`sayings.py`): they are worded in more ways.
Takes an hour with two processors. Needs the extra "bench".
"""

from __future__ import annotations

import argparse
import pickle
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Any

import jax
import jax.numpy as jnp
import numpy as np
from adam import stepped
from bare import bare_lessons
from sayings import FOLDER, scripts

from studio.agree.expect.ordered.chances import Told
from studio.agree.expect.ordered.offers import (
    FIRST,
    HABITS,
    IN_A_ROW,
    NONE,
    ONES,
    SEATS,
    SECOND,
    THREES,
    TWOS,
    of_one,
    of_three,
    of_two,
    seated,
    values_of,
)
from studio.agree.expect.ordered.pieces import LONGEST, pieces
from studio.agree.expect.ordered.reader import FAR, GREAT, HEADS, LAYERS, RARE, SIGN, WIDE, Reader
from studio.agree.expect.ordered.stream import Streams
from studio.files import whole_file
from studio.script.reader import read

HERE = Path(__file__).parent
LEARNED = HERE.parent / "studio" / "agree" / "expect" / "ordered" / "ordered.npz"
UNLEARNED = "unlearned"  # files with such names are for measuring alone
TIMES = 3  # that each saying comes, each time with others beside it
BARE = 5  # every fifth lesson is learned from without its pictures, too
RARE_TOKEN, RARE_END = 6, 20  # a token, and an ending of rare ones, that is seen so often has a vector of its own
ROWS, NUMBERS = 8, 352  # of a batch: rows of tokens, and numbers
DIMENSIONS = 112
ONE, TWO, TWICE, THREE = 16, 12, 8, 12  # how wide asking and answering is
ROUNDS = 4.0
RATE, WARM, LEAST_RATE = 2.5e-3, 200, 0.02
DECAY = 0.02  # of the matrices, times the rate
KEPT = 0.99  # of the running mean of the squares of the slopes
AVERAGED, AVERAGED_EVERY, AVERAGED_FROM = 0.99, 10, 0.6
TOKENS_OUT, SUMS_OUT, UNITS_OUT = 0.06, 0.15, 0.1
KEPT_EVERY = 500  # steps


@dataclass(frozen=True)
class Example:
    """A piece of a segment: its tokens; its numbers, those in their seats and the order of these; and which of them are told by it."""

    tokens: Any
    at: Any
    values: Any
    seated: Any
    seats: Any
    told: Any


def examples(path: Path) -> list[Example]:
    """The pieces of a lesson, with their tokens in words."""
    return in_pieces(path.read_text(encoding="utf-8").replace("\r\n", "\n"))


def in_pieces(text: str) -> list[Example]:
    """The same of the text of a script."""
    found = []
    for stream in Streams(read(text)):
        values = values_of(stream)
        for piece in pieces(stream):
            own = values[piece.mentions]
            found.append(Example(piece.tokens, piece.at, own, seated(own, piece.seats), piece.seats, piece.told))
    return found


def names_of(rows: Iterable[Sequence[str]]) -> list[str]:
    """The tokens that have a vector of their own, after the one for nothing and the one for all that are rare."""
    seen = Counter(token for row in rows for token in row)
    ends: Counter[str] = Counter()
    for token, times in seen.items():
        if times < RARE_TOKEN:
            ends[SIGN + token[-2:]] += times
    often = sorted(token for token, times in seen.items() if times >= RARE_TOKEN)
    return ["<pad>", RARE, *often, *sorted(end for end, times in ends.items() if times >= RARE_END)]


def batches(found: Sequence[Example], chance: Any) -> Iterator[tuple[Any, ...]]:
    """All examples, several to a row, in arrays of one size."""
    rows: list[list[Example]] = [[]]
    room = LONGEST
    for at in chance.permutation(len(found)):
        many = len(found[at].tokens)
        if many > room:
            rows.append([])
            room = LONGEST
        rows[-1].append(found[at])
        room -= many
    batch: list[list[Example]] = []
    numbers = 0
    for row in rows:
        more = sum(len(one.at) for one in row)
        if len(batch) == ROWS or numbers + more > NUMBERS:
            yield _batch(batch)
            batch, numbers = [], 0
        batch.append(row)
        numbers += more
    yield _batch(batch)


def _batch(rows: Sequence[Sequence[Example]]) -> tuple[Any, ...]:
    """Tokens; whose they are; the token of each number; what it is; which numbers sit in its seats, and their order; whether it is learned."""
    tokens, whose = np.zeros((ROWS, LONGEST), np.int32), np.zeros((ROWS, LONGEST), np.int32)
    at, values, learned = np.zeros(NUMBERS, np.int32), np.full(NUMBERS, NONE, np.int32), np.zeros(NUMBERS, np.float32)
    sitting, seats = np.full((NUMBERS, SEATS), NONE, np.int32), np.zeros((NUMBERS, SEATS), np.int32)
    many = 0
    for index, row in enumerate(rows):
        start = 0
        for order, one in enumerate(row):
            end = start + len(one.tokens)
            tokens[index, start:end], whose[index, start:end] = one.tokens, order + 1
            more = slice(many, many + min(len(one.at), NUMBERS - many))
            new = more.stop - more.start
            at[more], values[more] = index * LONGEST + start + one.at[:new], one.values[:new]
            sitting[more], learned[more] = one.seated[:new], one.told[:new]
            seats[more] = np.minimum(np.where(one.seats[:new] >= 0, one.seats[:new] + many, 0), NUMBERS - 1)
            start, many = end, more.stop
    return tokens, whose, at, values, sitting, seats, learned


def begin(tokens: int, chance: Any) -> dict[str, Any]:
    """The arrays before anything is learned."""

    def some(*shape: int, size: float = 1.0) -> Any:
        return jnp.asarray(chance.normal(size=shape) * size * shape[0] ** -0.5, jnp.float32)

    wide = DIMENSIONS
    weights = {
        "emb": some(tokens, wide, size=0.1 * tokens**0.5),
        "conv": some(WIDE * wide, wide),
        "conv_b": jnp.zeros(wide),
        "nf": jnp.ones(wide),
    }
    for at in range(LAYERS):
        weights |= {
            f"n1{at}": jnp.ones(wide), f"n2{at}": jnp.ones(wide), f"qkv{at}": some(wide, 3 * wide), f"out{at}": some(wide, wide, size=0.5),
            f"rel{at}": jnp.zeros((HEADS, 2 * FAR + 1)), f"up{at}": some(wide, 2 * wide), f"ub{at}": jnp.zeros(2 * wide),
            f"dn{at}": some(2 * wide, wide, size=0.5), f"db{at}": jnp.zeros(wide),
        }  # fmt: skip
    return weights | {
        "q1": some(wide, ONES * ONE), "k1": some(wide, ONES * ONE, size=0.3), "b1": jnp.zeros((SEATS, ONES)),
        "q2a": some(wide, TWOS * TWO), "q2b": some(wide, TWOS * TWO), "k2a": some(wide, TWOS * TWO, size=0.3),
        "k2b": some(wide, TWOS * TWO, size=0.3), "pa": some(wide, TWOS * TWICE, size=0.5), "pb": some(wide, TWOS * TWICE, size=0.5),
        "b2": jnp.full((len(FIRST), TWOS), -2.0), "q3": some(wide, THREES * 3 * THREE), "k3": some(wide, THREES * 3 * THREE, size=0.3),
        "b3": jnp.full((IN_A_ROW.shape[1], THREES), -3.0), "hab": some(wide, HABITS, size=0.1), "habb": jnp.zeros(HABITS),
    }  # fmt: skip


_AWAY = np.clip(np.arange(LONGEST)[None] - np.arange(LONGEST)[:, None], -FAR, FAR) + FAR


def _norm(x: Any, gain: Any) -> Any:
    return x * gain * jax.lax.rsqrt((x * x).mean(-1, keepdims=True) + 1e-6)


def _read(w: Any, tokens: Any, whose: Any, key: Any) -> Any:
    """`studio.agree.expect.ordered.reader._read` for several rows at once, with some tokens, sums and units left out."""
    keys = jax.random.split(key, 2 + 2 * LAYERS)

    def some_out(key: Any, x: Any, share: float) -> Any:
        return x * jax.random.bernoulli(key, 1 - share, x.shape) / (1 - share)

    def moved(x: Any, by: int) -> Any:
        return jnp.where((jnp.roll(whose, by, 1) == whose)[..., None], jnp.roll(x, by, 1), 0)

    tokens = jnp.where(jax.random.bernoulli(keys[0], TOKENS_OUT, tokens.shape) & (tokens > 1), 1, tokens)
    x = some_out(keys[1], w["emb"][tokens] * (whose > 0)[..., None], SUMS_OUT)
    beside = jnp.concatenate([moved(x, by) for by in range(WIDE // 2, -(WIDE // 2) - 1, -1)], -1)
    x = x + jax.nn.relu(beside @ w["conv"] + w["conv_b"])
    apart = jnp.where(whose[:, :, None] == whose[:, None, :], 0.0, -1e9)[:, None]
    for at in range(LAYERS):
        q, k, v = jnp.split((_norm(x, w[f"n1{at}"]) @ w[f"qkv{at}"]).reshape(ROWS, LONGEST, 3 * HEADS, -1), 3, axis=2)
        heed = jnp.einsum("bqhd,bkhd->bhqk", q, k) * q.shape[-1] ** -0.5 + w[f"rel{at}"][:, _AWAY][None] + apart
        told = jnp.einsum("bhqk,bkhd->bqhd", jax.nn.softmax(heed, -1), v).reshape(ROWS, LONGEST, -1) @ w[f"out{at}"]
        x = x + some_out(keys[2 + 2 * at], told, UNITS_OUT)
        up = jax.nn.relu(_norm(x, w[f"n2{at}"]) @ w[f"up{at}"] + w[f"ub{at}"])
        x = x + some_out(keys[3 + 2 * at], up @ w[f"dn{at}"] + w[f"db{at}"], UNITS_OUT)
    return _norm(x, w["nf"]).reshape(ROWS * LONGEST, -1)


def _scores(w: Any, here: Any, seats: Any) -> tuple[Any, ...]:
    """The scores of all that is offered (`Reader._offered`)."""

    def rows(name: str, many: int) -> Any:
        return (here @ w[name]).reshape(NUMBERS, many, -1)

    one = jnp.einsum("nrk,nsrk->nsr", rows("q1", ONES), rows("k1", ONES)[seats]) + w["b1"]
    first, second = (jnp.einsum("nrk,nsrk->nsr", rows(f"q2{at}", TWOS), rows(f"k2{at}", TWOS)[seats]) for at in "ab")
    mates = jnp.einsum("nsrk,nurk->nsur", rows("pa", TWOS)[seats], rows("pb", TWOS)[seats])
    two = first[:, FIRST] + second[:, SECOND] + mates[:, FIRST, SECOND] + w["b2"]
    asked, asks = (rows(name, THREES).reshape(NUMBERS, THREES, len(IN_A_ROW), -1) for name in ("q3", "k3"))
    each = jnp.einsum("nrjk,nsrjk->nsrj", asked, asks[seats])
    three = sum(each[..., at][:, row] for at, row in enumerate(IN_A_ROW)) + w["b3"]
    return (*(part.reshape(NUMBERS, -1) for part in (one, two, three)), here @ w["hab"] + w["habb"])


def _loss(w: Any, batch: tuple[Any, ...], offers: Sequence[Any], key: Any) -> Any:
    """How unlikely the numbers are, in nats."""
    tokens, whose, at, values, _, seats, learned = batch
    *scores, habits = _scores(w, _read(w, tokens, whose, key)[at], seats)
    flat = [offered.reshape(NUMBERS, -1) for offered in offers]
    score = jnp.concatenate([*(jnp.where(o >= 0, s, -1e9) for o, s in zip(flat, scores, strict=True)), habits], -1)
    by_habit = jnp.arange(HABITS) == jnp.minimum(values, HABITS - 1)[:, None]
    right = jnp.concatenate([*(o == values[:, None] for o in flat), by_habit], -1)
    great = jnp.where(values >= HABITS - 1, -GREAT, 0.0)[:, None] * (jnp.arange(score.shape[1]) == score.shape[1] - 1)
    found = jax.nn.logsumexp(jnp.where(right, score + great, -1e9), -1)
    return ((jax.nn.logsumexp(score, -1) - found) * learned).sum() / learned.sum()


@partial(jax.jit, donate_argnums=(0, 1, 2))
def _step(w: Any, means: Any, squares: Any, batch: Any, offers: Any, key: Any, step: Any, rate: Any) -> Any:
    """One step; slopes longer than 1 are cut."""
    loss, slope = jax.value_and_grad(_loss)(w, batch, offers, key)
    length = jnp.sqrt(sum((part * part).sum() for part in jax.tree.leaves(slope)))
    slope = jax.tree.map(lambda part: part * jnp.minimum(1, 1 / length), slope)
    return *stepped(w, means, squares, slope, step, rate, KEPT, lambda array: DECAY if array.ndim > 1 else 0), loss


def learn(found: Sequence[Example], tokens: int, seed: int, begun: Path | None) -> dict[str, Any]:
    """The arrays that find the numbers of these pieces likeliest; the running mean of the last steps."""
    w = begin(tokens, np.random.default_rng(seed))
    means, squares = (jax.tree.map(jnp.zeros_like, w) for _ in range(2))
    mean, step = None, 0
    if begun is not None and begun.exists():
        w, means, squares, mean, step = pickle.loads(begun.read_bytes())
    chance = np.random.default_rng(seed + step)
    total = round(ROUNDS * sum(len(one.tokens) for one in found) / (0.86 * ROWS * LONGEST))
    started, first, lost = time.monotonic(), step, 0.0
    while step < total:
        for batch in batches(found, chance):
            step += 1
            rate = RATE * min(1, step / WARM) * max(LEAST_RATE, 1 - step / total)
            offers = of_one(batch[4]), of_two(batch[4]), of_three(batch[4])
            w, means, squares, loss = _step(
                w, means, squares, batch, offers, jax.random.PRNGKey(seed * 1_000_003 + step), step, rate
            )
            lost = float(loss) if step == first + 1 else 0.99 * lost + 0.01 * float(loss)
            if step % AVERAGED_EVERY == 0 and step > AVERAGED_FROM * total:
                now = jax.tree.map(np.asarray, w)
                mean = now if mean is None else jax.tree.map(lambda a, b: AVERAGED * a + (1 - AVERAGED) * b, mean, now)
            if step % KEPT_EVERY == 0:
                print(
                    f"step {step} of {total}: {lost:.3f} nats, {(time.monotonic() - started) / (step - first):.2f} s a step",
                    flush=True,
                )
                if begun is not None:
                    state = *(jax.tree.map(np.asarray, part) for part in (w, means, squares)), mean, step
                    with whole_file(begun) as whole:
                        whole.write_bytes(pickle.dumps(state))
            if step == total:
                break
    return jax.tree.map(np.asarray, w) if mean is None else mean


def surprises(path: Path) -> tuple[float, int]:
    """How much all numbers of a lesson surprise, in nats, and how many they are."""
    lesson = read(path.read_text(encoding="utf-8").replace("\r\n", "\n"), path.name)
    found = [Told(stream) for stream in Streams(lesson)]
    nats = sum(float(one.surprises().sum()) for one in found)
    return nats, sum(len(one.stream.mentions) - one.stream.first for one in found)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("what", choices=("measure", "fit"))
    parser.add_argument("folders", type=Path, nargs="*")
    parser.add_argument("--begun", type=Path, help="a file to keep what is learned, to go on from there")
    options = parser.parse_args()
    fit = options.what == "fit"
    folders = options.folders or [HERE / ("lessons" if fit else "unlearned")]
    paths = sorted(path for folder in folders for path in folder.glob("*.lesson.md"))
    with tempfile.TemporaryDirectory() as made, ProcessPoolExecutor(2) as pool:
        if not fit:
            nats, many = (sum(part) for part in zip(*pool.map(surprises, paths, chunksize=16), strict=True))
            print(f"{len(paths)} lessons, {many} numbers: {nats / many:.4f} nats")
            return 0
        paths += bare_lessons(paths[::BARE], Path(made))
        said = [text for file in FOLDER.glob("*.txt") if not file.name.startswith(UNLEARNED)
                for seed in range(TIMES) for text, _ in scripts(file, seed)]  # fmt: skip
        rows = [*pool.map(examples, paths, chunksize=32), *pool.map(in_pieces, said, chunksize=32)]
        worded = [one for found in rows for one in found]
    names = names_of(one.tokens for one in worded)
    coder = Reader({name: at for at, name in enumerate(names)}, {})
    found = [replace(one, tokens=coder.indices(one.tokens)) for one in worded]
    arrays = learn(found, len(names), 0, options.begun)
    with whole_file(LEARNED) as whole:
        Reader(coder.token, arrays).write(whole)
    print(f"{len(paths)} lessons, {len(names)} tokens; {LEARNED} written")
    return 0


if __name__ == "__main__":
    sys.exit(main())
