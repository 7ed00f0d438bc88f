"""A recording laid against a script: which word of the script was said when, what was skipped, said twice, or added.

A global alignment of the two sequences of words (Needleman and Wunsch 1970), a row at a time in numpy; where both are
equally good the later words are taken, so that of a sentence said twice the last complete one counts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from studio.listen.model import Heard, HeardWord
from studio.listen.tokens import FILLERS, SIGNS, VALUE, same, tokens
from studio.script.model import Word

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

SKIP = 0.7
EXTRA = 0.7
FILLER = 0.1
OPEN = 0.6
OPEN_SENTENCE = 0.2
NUMBER_FOR_NUMBER = 0.45
UNLIKE = 1.5
"""Costs of the alignment, in units of our own: chosen on lesson talk with slips (see `benchmarks/listening.py`)."""

_PAIR, _SKIP, _MORE = 0, 1, 2


@dataclass(frozen=True, slots=True)
class Pair:
    """A script word with the heard words that stand for it (none: skipped), as half-open indices into `Heard.words`."""

    word: int
    first: int
    last: int
    equal: bool

    @property
    def found(self) -> bool:
        return self.last > self.first


@dataclass(frozen=True, slots=True)
class Repeat:
    """Words of the script that were said again: the earlier, passed-over heard words are `first` to `last`."""

    first: int
    last: int
    word: int
    end: int


@dataclass(frozen=True, slots=True)
class Alignment:
    """`pairs[i]` belongs to script word i; `extras` are heard words that stand for none; `repeats` explain some."""

    pairs: tuple[Pair, ...]
    extras: tuple[int, ...]
    repeats: tuple[Repeat, ...]

    @property
    def matched(self) -> float:
        """The share of the script's words that were heard as written."""
        return sum(pair.equal for pair in self.pairs) / len(self.pairs) if self.pairs else 0.0


def lay(script: Sequence[Word], heard: Sequence[HeardWord]) -> Alignment:
    """Lay heard words against the words of a script."""
    said, said_by = _spread([tokens(word.text) for word in script])
    ears, heard_by = _spread([tokens(word.text) for word in heard])
    sentence = [script[by].sentence for by in said_by]
    opens = [at == 0 or sentence[at] != sentence[at - 1] for at in range(len(sentence))]
    partner = _later(said, ears, _partners(said, ears, opens), sentence)
    taken: dict[int, list[int]] = {}
    equal: dict[int, list[bool]] = {}
    for at, other in enumerate(partner):
        by = said_by[at]
        equal.setdefault(by, []).append(other >= 0 and same(said[at], ears[other]))
        if other >= 0:
            taken.setdefault(by, []).append(heard_by[other])
    pairs = []
    used: set[int] = set()
    floor = 0
    for word in range(len(script)):
        mine = [index for index in taken.get(word, []) if index >= floor or index in used]
        if mine:
            first, last = min(mine), max(mine) + 1
            used.update(range(first, last))
            floor = last
            pairs.append(Pair(word, first, last, all(equal[word])))
        else:
            # A word without anything to compare (punctuation alone) is as written where it stands.
            pairs.append(Pair(word, floor, floor, word not in equal))
    extras = tuple(index for index in range(len(heard)) if index not in used)
    return Alignment(tuple(pairs), extras, tuple(_repeats(script, heard, pairs, extras)))


def _spread(words: Sequence[tuple[str, ...]]) -> tuple[list[str], list[int]]:
    flat = [token for word in words for token in word]
    by = [index for index, word in enumerate(words) for _ in word]
    return flat, by


def _partners(said: Sequence[str], ears: Sequence[str], opens: Sequence[bool] = ()) -> list[int]:
    """For each script token the index of its heard token, or -1. `opens` tells which script tokens open a sentence.

    Gaps are affine (Gotoh 1982): one long gap is likelier than several short ones, and a gap is likeliest between
    two sentences.
    """
    import numpy as np

    rows, columns = len(said), len(ears)
    if not rows or not columns:
        return [-1] * rows
    cost, row_of, column_of = _costs(said, ears)
    extra = np.array([FILLER if token in FILLERS else EXTRA for token in ears], np.float32)
    running = np.concatenate([np.zeros(1, np.float32), np.cumsum(extra, dtype=np.float32)])
    infinite = np.float32(1e9)
    # The cheapest ways to (row, column) that end in a pair, in a skipped script word, in an extra heard word.
    pair = np.full(columns + 1, infinite, np.float32)
    pair[0] = 0.0
    skip = np.full(columns + 1, infinite, np.float32)
    more = running + np.float32(OPEN_SENTENCE)
    more[0] = infinite
    # What came before: bits 0-1 before a pair, bits 2-3 before a skip, bits 4-5 before an extra word.
    back = np.zeros((rows + 1, columns + 1), np.uint8)
    back[0, 2:] = _MORE << 4
    for i in range(1, rows + 1):
        token = said[i - 1]
        opening = np.float32(OPEN_SENTENCE if opens and opens[i - 1] else OPEN)
        step = np.float32(SKIP * (0.3 if token in SIGNS else 1.0))
        ways = np.stack([pair, skip, more])
        new_pair = np.full(columns + 1, infinite, np.float32)
        new_pair[1:] = ways.min(axis=0)[:-1] + cost[row_of[i - 1]][column_of]
        row = np.zeros(columns + 1, np.uint8)
        row[1:] = ways.argmin(axis=0)[:-1]
        entering = np.stack([pair + opening, skip, more + opening])
        new_skip = entering.min(axis=0) + step
        row |= entering.argmin(axis=0).astype(np.uint8) << 2
        between = i == rows or (bool(opens) and opens[i])
        start = np.minimum(new_pair, new_skip) + np.float32(OPEN_SENTENCE if between else OPEN)
        new_more = np.full(columns + 1, infinite, np.float32)
        new_more[1:] = np.minimum.accumulate(start - running)[:-1] + running[1:]
        before = np.where(new_more[:-1] <= start[:-1], _MORE, np.where(new_pair[:-1] <= new_skip[:-1], _PAIR, _SKIP))
        row[1:] |= before.astype(np.uint8) << 4
        back[i] = row
        pair, skip, more = new_pair, new_skip, new_more
    # On equal costs a pair comes first, so that of two equal sayings the later is taken.
    partner = [-1] * rows
    i, j, state = rows, columns, int(np.argmin([pair[-1], skip[-1], more[-1]]))
    while i > 0 or j > 0:
        came = int(back[i, j]) >> (2 * state) & 3
        if state == _PAIR:
            i, j = i - 1, j - 1
            partner[i] = j
        elif state == _SKIP:
            i -= 1
        else:
            j -= 1
        state = came
    return partner


def _costs(said: Sequence[str], ears: Sequence[str]) -> tuple[NDArray[np.float32], list[int], NDArray[np.intp]]:
    """What it costs to take one word for another, for every pair of different words."""
    import numpy as np

    left, right = sorted(set(said)), sorted(set(ears))
    left_at = {word: at for at, word in enumerate(left)}
    right_at = {word: at for at, word in enumerate(right)}
    alike = _likeness(left, right)
    cost = np.where(alike > 0.45, 1.3 - 0.9 * alike, UNLIKE).astype(np.float32)
    numbers = np.array([word in VALUE for word in right])
    for at, word in enumerate(left):
        if word in VALUE:
            cost[at, numbers] = np.minimum(cost[at, numbers], NUMBER_FOR_NUMBER)
        for other, heard in enumerate(right):
            if word == heard:
                cost[at, other] = 0.0
            elif same(word, heard):
                cost[at, other] = 0.1
    return cost, [left_at[word] for word in said], np.array([right_at[word] for word in ears])


def _likeness(left: Sequence[str], right: Sequence[str]) -> NDArray[np.float32]:
    """Dice's coefficient of letter pairs, 0 to 1, for every two words."""
    import numpy as np

    def pairs(words: Sequence[str]) -> NDArray[np.float32]:
        table = np.zeros((len(words), 32 * 32), np.float32)
        for row, word in enumerate(words):
            edged = f"^{word}$"
            for first, second in pairwise(edged):
                table[row, (ord(first) % 32) * 32 + ord(second) % 32] = 1.0
        return table

    a, b = pairs(left), pairs(right)
    size = a.sum(1)[:, None] + b.sum(1)[None, :]
    likeness: NDArray[np.float32] = 2.0 * (a @ b.T) / np.maximum(size, 1.0)
    return likeness


def _later(said: Sequence[str], ears: Sequence[str], partner: list[int], sentence: Sequence[int]) -> list[int]:
    """Move sentences to a later complete saying, even where that one has a slip: the last complete one counts."""
    spans: dict[int, tuple[int, int]] = {}
    for at, number in enumerate(sentence):
        first, _ = spans.get(number, (at, at))
        spans[number] = (first, at + 1)
    for first, end in sorted(spans.values(), reverse=True):
        length = end - first
        if length < 3:
            continue
        mine = [other for other in partner[first:end] if other >= 0]
        if len(mine) < 0.6 * length:
            continue
        after = max(mine) + 1
        following = next((other for other in partner[end:] if other >= 0), len(ears))
        if following - after < 0.7 * length:
            continue
        again = _partners(said[first:end], ears[after:following])
        hits = sum(1 for at, other in enumerate(again) if other >= 0 and same(said[first + at], ears[after + other]))
        if again[-1] >= 0 and hits >= 0.7 * length:
            partner[first:end] = [after + other if other >= 0 else -1 for other in again]
    return partner


def _repeats(
    script: Sequence[Word], heard: Sequence[HeardWord], pairs: Sequence[Pair], extras: Sequence[int]
) -> list[Repeat]:
    """Runs of extra words that say what the script's next or last words say."""
    runs: list[list[int]] = []
    for index in extras:
        said = tokens(heard[index].text)
        if not said or said[0] in FILLERS:  # "…" is written down for a breath
            continue
        if runs and index - runs[-1][-1] <= 2:
            runs[-1].append(index)
        else:
            runs.append([index])
    found = []
    for run in runs:
        text = [token for index in run for token in tokens(heard[index].text)]
        after = next((pair.word for pair in pairs if pair.found and pair.first > run[-1]), len(script))
        best: tuple[float, int, int] | None = None
        for start in range(max(0, after - len(text) - 8), min(len(script), after + 3)):
            flat, by = _spread([tokens(word.text) for word in script[start : start + len(text) + 2]])
            hits = [
                at
                for at, other in enumerate(_partners(flat[: len(text) + 1], text))
                if other >= 0 and same(flat[at], text[other])
            ]
            share = len(hits) / len(text)
            if hits and share >= 0.7 and (best is None or share > best[0]):
                best = (share, start + by[hits[0]], start + by[hits[-1]] + 1)
        if best is None:
            best = _heard_again(heard, pairs, run, text)
        if best is not None and len(text) >= 2:
            found.append(Repeat(run[0], run[-1] + 1, best[1], best[2]))
    return found


def _heard_again(
    heard: Sequence[HeardWord], pairs: Sequence[Pair], run: Sequence[int], text: Sequence[str]
) -> tuple[float, int, int] | None:
    """A run of extra words that is heard once more directly after: said twice and misheard in the same way twice."""
    after = range(run[-1] + 1, min(len(heard), run[-1] + len(run) + 4))
    flat, by = _spread([tokens(heard[index].text) for index in after])
    partners = _partners(text, flat)
    hits = [other for at, other in enumerate(partners) if other >= 0 and same(text[at], flat[other])]
    if len(text) < 3 or len(hits) < 0.8 * len(text):
        return None
    first, last = after[by[hits[0]]], after[by[hits[-1]]]
    words = [pair.word for pair in pairs if pair.found and pair.first <= last and pair.last > first]
    return (len(hits) / len(text), words[0], words[-1] + 1) if words else None


def lay_heard(script: Sequence[Word], heard: Heard) -> Alignment:
    """`lay` for everything that was heard in a recording."""
    return lay(script, heard.words)
