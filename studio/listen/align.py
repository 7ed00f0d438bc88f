"""A recording laid against a script: which word of the script was said when, what was skipped, said twice, or added.

A global alignment of the two sequences of words (Needleman and Wunsch 1970), a row at a time in numpy; where both are
equally good the later words are taken, so that of a sentence said twice the last complete one counts.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain, pairwise
from typing import TYPE_CHECKING

from studio.listen.model import HeardWord
from studio.listen.tokens import ALIKE, FILLERS, SIGNS, VALUE, same, sound_alike, tokens
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
NUMBER_MISHEARD = 0.8
UNLIKE = 1.5
ACROSS = 0.8
"""Costs of the alignment, in units of our own: chosen on lesson talk with slips (see `benchmarks/listening.py`).
`ACROSS` is for each pause inside a sentence over which another word, or words that are none of it, are to be reached."""

PAUSE = 0.8
"""Seconds of quiet after which talk that is not in the script may begin, and a sentence seldom goes on."""

BREAK = 0.35
"""Seconds of quiet that part two sayings of the same words."""

_TOGETHER = 6
_PART = 8
_LIKELY, _SURELY = 0.7, 0.85
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
class Moved:
    """Words of the script (`word` to `end`) that were said at another place: the heard words `first` to `last`."""

    first: int
    last: int
    word: int
    end: int


@dataclass(frozen=True, slots=True)
class Alignment:
    """`pairs[i]` belongs to script word i; `extras` are heard words that stand for none; `repeats` and `moved` explain
    some."""

    pairs: tuple[Pair, ...]
    extras: tuple[int, ...]
    repeats: tuple[Repeat, ...]
    moved: tuple[Moved, ...] = ()

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
    rests = [
        at > 0 and by != heard_by[at - 1] and heard[by].start - heard[by - 1].end >= PAUSE
        for at, by in enumerate(heard_by)
    ]
    partner = _later(said, ears, _partners(said, ears, opens, rests), sentence)
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
    pairs = _to_the_pause(script, heard, pairs, used)
    extras = tuple(index for index in range(len(heard)) if index not in used)
    moved = _moved(script, heard, pairs, extras)
    elsewhere = {index for each in moved for index in range(each.first, each.last)}
    rest = [index for index in extras if index not in elsewhere]
    return Alignment(tuple(pairs), extras, tuple(_repeats(script, heard, pairs, rest)), tuple(moved))


def _spread(words: Sequence[tuple[str, ...]]) -> tuple[list[str], list[int]]:
    flat = [token for word in words for token in word]
    by = [index for index, word in enumerate(words) for _ in word]
    return flat, by


def _partners(
    said: Sequence[str], ears: Sequence[str], opens: Sequence[bool] = (), rests: Sequence[bool] = ()
) -> list[int]:
    """For each script token the index of its heard token, or -1. `opens` tells which script tokens open a sentence,
    `rests` which heard tokens come after a pause.

    Gaps are affine (Gotoh 1982): one long gap is likelier than several short ones, and a gap is likeliest between
    two sentences.
    """
    import numpy as np

    rows, columns = len(said), len(ears)
    if not rows or not columns:
        return [-1] * rows
    cost, row_of, column_of = _costs(said, ears)
    extra = np.array([FILLER if token in FILLERS else EXTRA for token in ears], np.float32)
    across = np.float32(ACROSS) * np.array(rests or [False] * columns, np.float32)
    running = np.concatenate([np.zeros(1, np.float32), np.cumsum(extra, dtype=np.float32)])
    running_inside = np.concatenate([np.zeros(1, np.float32), np.cumsum(extra + across, dtype=np.float32)])
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
        here = cost[row_of[i - 1]][column_of]
        if opens and not opens[i - 1]:
            here = np.where(here >= UNLIKE, here + across, here)
        new_pair[1:] = ways.min(axis=0)[:-1] + here
        row = np.zeros(columns + 1, np.uint8)
        row[1:] = ways.argmin(axis=0)[:-1]
        entering = np.stack([pair + opening, skip, more + opening])
        new_skip = entering.min(axis=0) + step
        row |= entering.argmin(axis=0).astype(np.uint8) << 2
        between = i == rows or (bool(opens) and opens[i])
        start = np.minimum(new_pair, new_skip) + np.float32(OPEN_SENTENCE if between else OPEN)
        new_more = np.full(columns + 1, infinite, np.float32)
        sums = running if between else running_inside
        new_more[1:] = np.minimum.accumulate(start - sums)[:-1] + sums[1:]
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
            near = [sound_alike(word, heard) for heard in right]
            cost[at, near] = np.minimum(cost[at, near], NUMBER_MISHEARD)
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


def _to_the_pause(script: Sequence[Word], heard: Sequence[HeardWord], pairs: list[Pair], used: set[int]) -> list[Pair]:
    """The pairs with what is heard between the last word of a sentence that was found and the next pause, where the
    rest of the sentence was not found: these are its words, misheard, and not the beginning of the talk after it."""
    result = list(pairs)
    for at in range(1, len(pairs)):
        before = pairs[at - 1]
        if pairs[at].found or not before.found or script[at].sentence != script[at - 1].sentence:
            continue
        end = at
        while end < len(pairs) and script[end].sentence == script[at].sentence and not pairs[end].found:
            end += 1
        if end < len(pairs) and script[end].sentence == script[at].sentence:
            continue
        last = before.last
        while last < len(heard) and last not in used and heard[last].start - heard[last - 1].end < PAUSE:
            last += 1
        count = last - before.last
        if not 0 < count <= end - at or (last < len(heard) and last in used):
            continue
        for number in range(count):
            index = before.last + number
            result[end - count + number] = Pair(end - count + number, index, index + 1, False)
            used.add(index)
    return result


def _moved(
    script: Sequence[Word], heard: Sequence[HeardWord], pairs: Sequence[Pair], extras: Sequence[int]
) -> list[Moved]:
    """Long runs of extra words that say what is not heard at its place: parts, or takes, in another order."""
    found: list[Moved] = []
    missing = [run for run in _runs([pair.word for pair in pairs if not pair.equal]) if len(run) >= _PART]
    for run in _runs([index for index in extras if tokens(heard[index].text)]) if missing else []:
        text, heard_by = _spread([tokens(heard[index].text) for index in run])
        if len(text) < _PART:
            continue
        for words in missing:
            flat, by = _spread([tokens(script[word].text) for word in words])
            opens = [at == 0 or script[words[b]].sentence != script[words[a]].sentence for at, (a, b) in _before(by)]
            hits = [
                (at, other)
                for at, other in enumerate(_partners(flat, text, opens))
                if other >= 0 and same(flat[at], text[other])
            ]
            if len(hits) < max(_PART, 0.6 * min(len(flat), len(text))):
                continue
            (first, begin), (last, end) = hits[0], hits[-1]
            found.append(Moved(run[heard_by[begin]], run[heard_by[end]] + 1, words[by[first]], words[by[last]] + 1))
            break
    return found


def _before(by: Sequence[int]) -> list[tuple[int, tuple[int, int]]]:
    """For each place the entry before it and its own."""
    return [(at, (by[max(0, at - 1)], each)) for at, each in enumerate(by)]


def _runs(indices: Sequence[int]) -> list[list[int]]:
    """Indices in runs that are broken by one other at most."""
    runs: list[list[int]] = []
    for index in indices:
        if runs and index - runs[-1][-1] <= 2:
            runs[-1].append(index)
        else:
            runs.append([index])
    return runs


def _repeats(
    script: Sequence[Word], heard: Sequence[HeardWord], pairs: Sequence[Pair], extras: Sequence[int]
) -> list[Repeat]:
    """Runs of extra words that say what the script's next or last words say."""
    words = []
    for index in extras:
        said = tokens(heard[index].text)
        if said and said[0] not in FILLERS:  # "…" is written down for a breath
            words.append(index)
    found: list[Repeat] = []
    for run in _runs(words):
        sayings = _sayings(run, heard)
        end = len(sayings)
        while end:
            # The longest stretch that the script has as a whole, as sentences may be said again together; else the
            # shortest that is heard again. From the last one back: what was said four times is heard again three times.
            begins = range(max(0, end - _TOGETHER), end)
            stretches = [(begin, [index for saying in sayings[begin:end] for index in saying]) for begin in begins]
            known = (
                again
                for begin, some in stretches
                if (again := _said_again(script, heard, pairs, some, _SURELY if end - begin > 1 else _LIKELY))
            )
            alike = (
                again for _, some in reversed(stretches) if (again := _heard_again(script, heard, pairs, found, some))
            )
            if again := next(chain(known, alike), None):
                found.append(again)
                end = next(begin for begin, some in stretches if some[0] == again.first)
            else:
                end -= 1
    return found


def _sayings(run: Sequence[int], heard: Sequence[HeardWord]) -> list[list[int]]:
    """Heard words cut where a sentence ends or the voice rests."""
    sayings: list[list[int]] = [[]]
    for index in run:
        if sayings[-1]:
            before = heard[sayings[-1][-1]]
            if before.text.endswith((".", "?", "!")) or heard[index].start - before.end >= BREAK:
                sayings.append([])
        sayings[-1].append(index)
    return sayings


def _said_again(
    script: Sequence[Word], heard: Sequence[HeardWord], pairs: Sequence[Pair], run: Sequence[int], enough: float
) -> Repeat | None:
    """What a stretch of extra words says again: words of the script about the place where it stands, `enough` of which
    (a share) are the same."""
    text = [token for index in run for token in tokens(heard[index].text)]
    if len(text) < 2:
        return None
    after = next((pair.word for pair in pairs if pair.found and pair.first > run[-1]), len(script))
    best: tuple[float, int, int] | None = None
    for start in range(max(0, after - len(text) - 8), min(len(script), after + 3)):
        flat, by = _spread([tokens(word.text) for word in script[start : start + len(text) + 2]])
        if not _shares(text, flat[: len(text) + 1], enough):
            continue
        hits = [
            at
            for at, other in enumerate(_partners(flat[: len(text) + 1], text))
            if other >= 0 and same(flat[at], text[other])
        ]
        share = len(hits) / len(text)
        if hits and share >= enough and (best is None or share > best[0]):
            best = (share, start + by[hits[0]], start + by[hits[-1]] + 1)
    if best is None:
        return None
    return Repeat(run[0], run[-1] + 1, *_whole(script, best[1], best[2]))


def _shares(text: Sequence[str], other: Sequence[str], share: float) -> bool:
    """Whether so many of the words can be found in the other text, in whatever order: this is quickly told, and where
    they cannot no alignment finds them."""
    mine = Counter(ALIKE.get(token, token) for token in text)
    signs = sum(token in SIGNS for token in other)
    return (mine & Counter(ALIKE.get(token, token) for token in other)).total() + signs >= share * len(text)


def _whole(script: Sequence[Word], first: int, end: int) -> tuple[int, int]:
    """A stretch of the script with the rest of the sentences it begins and ends in, where it holds most of them."""
    while first > 0 and script[first - 1].sentence == script[first].sentence and _holds(script, first, end, first):
        first -= 1
    while (
        end < len(script) and script[end].sentence == script[end - 1].sentence and _holds(script, first, end, end - 1)
    ):
        end += 1
    return first, end


def _holds(script: Sequence[Word], first: int, end: int, at: int) -> bool:
    sentence = script[at].sentence
    size = sum(word.sentence == sentence for word in script)
    return sum(word.sentence == sentence for word in script[first:end]) > 0.6 * size


def _heard_again(
    script: Sequence[Word], heard: Sequence[HeardWord], pairs: Sequence[Pair],
    found: Sequence[Repeat], run: Sequence[int],
) -> Repeat | None:  # fmt: skip
    """A run of extra words that is heard once more directly after: said twice and misheard in the same way twice."""
    text = [token for index in run for token in tokens(heard[index].text)]
    after = range(run[-1] + 1, min(len(heard), run[-1] + len(run) + 4))
    flat, by = _spread([tokens(heard[index].text) for index in after])
    if len(text) < 3 or not _shares(text, flat, 0.8):
        return None
    partners = _partners(text, flat)
    hits = [other for at, other in enumerate(partners) if other >= 0 and same(text[at], flat[other])]
    if len(hits) < 0.8 * len(text):
        return None
    begin, end = after[by[hits[0]]], after[by[hits[-1]]]
    words = [pair.word for pair in pairs if pair.found and pair.first <= end and pair.last > begin]
    words += [word for each in found if each.first <= end and each.last > begin for word in (each.word, each.end - 1)]
    return Repeat(run[0], run[-1] + 1, *_whole(script, min(words), max(words) + 1)) if words else None
