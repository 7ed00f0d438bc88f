"""Counts said number by number: where a number between pauses was missed or misheard, the sound is asked again.

A recogniser that knows whole sentences is weakest where words stand alone: it drops the first number of a count, or
writes "for" and "nice". But in a count it is known what comes, a number word, and where, in each burst of sound
between two pauses. So a burst without a word, or with another word, is weighed with every number word in its place.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from studio.listen.ear import Ear, TimedWord
from studio.listen.onset import bursts
from studio.listen.recording import RATE
from studio.listen.tokens import ALIKE, VALUE, tokens

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

LONGEST = 1.3
"""Seconds of sound that can be one number word."""

REACH = 3
"""A burst belongs to a count when two of as many bursts before and after it are number words."""

CLEAR = 1.5
"""Nats by which the best number must win over the next where nothing was written down."""

CLEAR_WRITTEN = 2.5
"""The same where another word was written down, over which it must win as well."""

HEARD = -1.0
"""Nats by which the count with the number must win over the count without it; a cough loses by more."""

_NUMBERS = tuple(word for word, value in VALUE.items() if value <= 20)
_MARGIN = 0.15
_AROUND = 2


def number_of(text: str) -> str:
    """The number word that a heard word is or sounds like, else ""."""
    found = tokens(text)
    word = ALIKE.get(found[0], found[0]) if len(found) == 1 else ""
    return word if word in VALUE else ""


def mend(
    words: Sequence[TimedWord], samples: NDArray[np.float32], speech: Sequence[tuple[float, float]], ear: Ear
) -> list[TimedWord]:
    """The words of one window with the numbers of its counts mended; `speech` tells in seconds where someone speaks."""
    if sum(bool(number_of(word.text)) for word in words) < 2:
        return list(words)
    parts = [part for part in bursts(samples) if _spoken(part, speech)]
    said = _by_burst(words, parts)
    if said is None:
        return list(words)
    _spread(said, parts)
    for at, (start, end) in enumerate(parts):
        if end - start > LONGEST or len(said[at]) > 1 or not _in_count(said, at):
            continue
        written = said[at][0] if said[at] else None
        number = number_of(written.text) if written else ""
        if written is not None and number:
            if tokens(written.text) != (number,):
                said[at] = [TimedWord(number, written.start, written.end, written.probability)]
        elif found := _weighed(said, at, parts, samples, ear):
            begin, last = (written.start, written.end) if written else (start, end)
            said[at] = [TimedWord(found, begin, last, 0.5)]
    return [word for group in said for word in group]


def _spoken(part: tuple[float, float], speech: Sequence[tuple[float, float]]) -> bool:
    start, end = part
    inside = sum(max(0.0, min(end, last) - max(start, first)) for first, last in speech)
    return inside > 0.5 * (end - start)


def _by_burst(words: Sequence[TimedWord], parts: Sequence[tuple[float, float]]) -> list[list[TimedWord]] | None:
    """The words of each burst; None where a word lies in none, or the order would change."""
    said: list[list[TimedWord]] = [[] for _ in parts]
    last = 0
    for word in words:
        shared = [min(word.end, end) - max(word.start, start) for start, end in parts]
        if not shared or max(shared) <= 0 or (best := shared.index(max(shared))) < last:
            return None
        said[best].append(word)
        last = best
    return said


def _spread(said: list[list[TimedWord]], parts: Sequence[tuple[float, float]]) -> None:
    """Two number words in a short burst beside a burst without a word: one of them was said there."""
    for at, group in enumerate(said):
        start, end = parts[at]
        if len(group) != 2 or end - start > 0.7 or not all(number_of(word.text) for word in group):
            continue
        for beside, moved in ((at + 1, group[1]), (at - 1, group[0])):
            if 0 <= beside < len(parts) and not said[beside] and parts[beside][1] - parts[beside][0] <= LONGEST:
                stays = group[0] if moved is group[1] else group[1]
                said[beside] = [TimedWord(moved.text, *parts[beside], moved.probability)]
                said[at] = [TimedWord(stays.text, start, end, stays.probability)]
                break


def _in_count(said: Sequence[Sequence[TimedWord]], at: int) -> bool:
    around = [said[i] for i in range(max(0, at - REACH), min(len(said), at + REACH + 1)) if i != at]
    return sum(len(group) == 1 and bool(number_of(group[0].text)) for group in around) >= 2


def _weighed(
    said: Sequence[Sequence[TimedWord]], at: int, parts: Sequence[tuple[float, float]],
    samples: NDArray[np.float32], ear: Ear,
) -> str:  # fmt: skip
    """The number word that the sound of a burst speaks for clearly, else ""."""
    first, last = max(0, at - _AROUND), min(len(parts), at + _AROUND + 1)
    before = [number_of(word.text) or word.text for group in said[first:at] for word in group]
    after = [number_of(word.text) or word.text for group in said[at + 1 : last] for word in group]
    written = [word.text.lower().strip(".,!?;:") for word in said[at]]
    texts = [", ".join([*before, *own, *after]).capitalize() + "." for own in ([n] for n in _NUMBERS)]
    texts += [", ".join([*before, *own, *after]).capitalize() + "." for own in ([], written)]
    begin = max(0, round((parts[first][0] - _MARGIN) * RATE))
    sound = samples[begin : round((parts[last - 1][1] + _MARGIN) * RATE)]
    *scores, without, as_written = ear.weigh(ear.encode([sound], whole=False), texts)
    order = sorted(range(len(scores)), key=lambda index: -scores[index])
    best, clear = scores[order[0]], scores[order[0]] - scores[order[1]]
    if best - without < HEARD or clear < (CLEAR_WRITTEN if written else CLEAR):
        return ""
    if written and best - as_written < CLEAR_WRITTEN:
        return ""
    return _NUMBERS[order[0]]
