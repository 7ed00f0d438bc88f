"""When words begin and end, refined on the sound itself.

The model places a word where it attends to it, which is late in running speech and takes in the pause before a word
that stands alone. Two rules mend that: after a pause a word begins where the sound comes up to a share of the word's
own loudness; in running speech it begins at the strongest rise of the spectrum shortly before the model's time.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from studio.listen.ear import TimedWord
from studio.listen.recording import RATE

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_HOP = RATE // 200
"""5 ms between frames."""

PAUSE = 0.1
"""Seconds of quiet that count as a pause before a word; the closures of stop consonants are mostly shorter."""

CLOSURE = 0.15
"""Seconds of quiet that end a word; shorter ones can be the closure of a stop consonant inside it."""

AUDIBLE = 0.08
"""A word is heard from where its level (rms over 10 ms) reaches this share of its peak (-22 dB)."""

LATE = 0.12
"""Seconds by which the model's times are late in running speech, measured on four voices of flite."""

LATE_HISS = 0.18
"""The same for words that begin with a hiss (s, f, th), which the model hears by their vowel."""

LATE_VOWEL = 0.06
"""The same for words that begin with a vowel."""

WEAK_HISS = 0.15
"""Seconds of quiet in running speech that can be a weak hiss (f, th), which then is the start of the word."""

_AROUND = 0.05
_BACK = 0.4
_ENDING = 0.15
_SOFT = 0.2
_SPREAD = 0.04
_RANGE = 50.0
_ABOVE = 8.0


@dataclass(frozen=True)
class _Curves:
    level: NDArray[np.float32]
    quiet: NDArray[np.bool_]
    rise: NDArray[np.float32]


def refine(
    words: Sequence[TimedWord], samples: NDArray[np.float32], speech: Sequence[tuple[float, float]] = ()
) -> list[TimedWord]:
    """The words with their starts and ends moved to what is heard in `samples`; starts only grow.

    `speech` tells in seconds where someone speaks: what sounds elsewhere is a cough, a laugh or music, and no word.
    """
    import numpy as np

    if not words or len(samples) < 4 * _HOP:
        return list(words)
    curves = _curves(samples)
    if speech:
        silent = np.ones(len(curves.quiet), np.bool_)
        for start, end in speech:
            silent[_frame(start - _AROUND) : _frame(end + _AROUND)] = False
        curves = replace(curves, quiet=curves.quiet | silent)
    pauses = _pauses(curves.quiet)
    starts: list[float] = []
    for word in words:
        starts.append(_start(word, starts[-1] if starts else -1.0, curves, pauses))
    refined = []
    for at, word in enumerate(words):
        limit = starts[at + 1] if at + 1 < len(words) else len(samples) / RATE
        end = _end(starts[at], limit, curves)
        refined.append(TimedWord(word.text, starts[at], max(end, min(limit, starts[at] + 0.02)), word.probability))
    return refined


def bursts(samples: NDArray[np.float32], gap: float = CLOSURE) -> list[tuple[float, float]]:
    """Where there is sound, in seconds: stretches of at least 0.1 s with at least `gap` of quiet between them."""
    import numpy as np

    if len(samples) < 4 * _HOP:
        return []
    loud = ~_curves(samples).quiet
    edges = np.flatnonzero(np.diff(np.concatenate([[False], loud, [False]]).astype(np.int8))) * (_HOP / RATE)
    found: list[tuple[float, float]] = []
    for start, end in zip(edges[::2], edges[1::2], strict=True):
        if found and start - found[-1][1] < gap:
            found[-1] = (found[-1][0], float(end))
        else:
            found.append((float(start), float(end)))
    return [(start, end) for start, end in found if end - start >= 0.1]


def _pauses(quiet: NDArray[np.bool_]) -> list[tuple[int, int]]:
    """The first frame of each pause, and the first after it."""
    import numpy as np

    edges = np.flatnonzero(np.diff(np.concatenate([[False], quiet, [False]]).astype(np.int8)))
    return [(int(a), int(b)) for a, b in zip(edges[::2], edges[1::2], strict=True) if (b - a) * _HOP >= PAUSE * RATE]


def _start(word: TimedWord, before: float, curves: _Curves, pauses: Sequence[tuple[int, int]]) -> float:
    """Where a word begins: behind the longest pause about its expected start, else at the strongest rise there."""
    import numpy as np

    floor = max(0.0, before + 0.06)
    low = max(floor, word.start - _BACK)
    high = max(low + 0.02, word.end - _ENDING)
    first, last = _frame(low), _frame(high)
    near = [
        (b - max(a, _frame(floor)), b)
        for a, b in pauses
        if first < b <= last and b < len(curves.level) and not _inside(a, b, word)
    ]
    if near:
        gap, found = max(near)
        if gap * _HOP < WEAK_HISS * RATE and _weak(word.text) and found - gap <= _frame(word.start):
            return (found - gap) * _HOP / RATE
        peak = float(curves.level[_frame(max(low, word.start)) : max(_frame(word.end), found + 10)].max(initial=1e-6))
        audible = curves.level[found : found + _frame(_SOFT)] > AUDIBLE * peak
        return (found + (int(np.argmax(audible)) if audible.any() else 0)) * _HOP / RATE
    late = LATE_HISS if _hisses(word.text) else LATE_VOWEL if _opens(word.text) else LATE
    expected = word.start - late
    frames = np.arange(max(_frame(floor), _frame(expected - 0.15)), min(_frame(expected + 0.15) + 1, len(curves.rise)))
    if not len(frames):
        return max(floor, expected)
    weight = np.exp(-0.5 * ((frames * _HOP / RATE - expected) / _SPREAD) ** 2)
    return float(frames[int(np.argmax((curves.rise[frames] + 0.01) * weight))]) * _HOP / RATE


def _inside(start: int, end: int, word: TimedWord) -> bool:
    """Whether a short quiet lies within the word: the closure of a stop ("six"), and no pause before it."""
    return (end - start) * _HOP < CLOSURE * RATE and _frame(word.start) < start and end < _frame(word.end)


def _weak(text: str) -> bool:
    return text.lower().startswith(("f", "th"))


def _hisses(text: str) -> bool:
    return text.lower().startswith(("s", "f", "th", "z"))


def _opens(text: str) -> bool:
    """Whether a word begins with a vowel; "one" begins with a w."""
    word = text.lower()
    return word.startswith(("a", "e", "i", "o", "u")) and not word.startswith("one")


def _end(start: float, limit: float, curves: _Curves) -> float:
    """Where a word ends that starts at `start`, at the latest at `limit`, where the next one starts."""
    at, last = _frame(start), min(_frame(limit), len(curves.quiet))
    while at < last and curves.quiet[at]:
        at += 1
    end = last
    while at < last:
        if not curves.quiet[at]:
            at += 1
            continue
        run = at
        while run < last and curves.quiet[run]:
            run += 1
        if run == last or (run - at) * _HOP >= CLOSURE * RATE:
            end = at
            break
        at = run
    return min(limit, end * _HOP / RATE) if end < last else limit


def _frame(seconds: float) -> int:
    return max(0, int(seconds * RATE / _HOP + 1e-6))


def _curves(samples: NDArray[np.float32]) -> _Curves:
    import numpy as np

    size = 256
    frames = np.lib.stride_tricks.sliding_window_view(np.pad(samples, (size // 2, size // 2)), size)[::_HOP]
    power = np.abs(np.fft.rfft(frames * np.hanning(size).astype(np.float32), axis=1)).astype(np.float32) ** 2
    edges = np.unique(np.round(np.geomspace(2, size // 2 + 1, 17)).astype(int))
    bands = 10 * np.log10(np.add.reduceat(power, edges[:-1], axis=1) + 1e-7)
    # Each band is measured from its own noise, so that a hum or a hiss of the room hides little.
    loudest = float(np.percentile(bands, 98, axis=0).max())
    floor = np.maximum(np.percentile(bands, 15, axis=0), loudest - _RANGE)
    activity = np.clip(bands - floor - _ABOVE, 0.0, 30.0).mean(axis=1)
    activity = (activity + np.roll(activity, 1) + np.roll(activity, -1)) / 3
    usual, busy = np.percentile(activity, (25, 95))
    quiet = activity < 0.1 * busy + 1.5 * usual
    bands = np.maximum(bands, floor)
    width = 4
    summed = np.cumsum(np.pad(bands, ((width, 0), (0, 0))), axis=0)
    smooth = (summed[width:] - summed[:-width]) / width
    lag = 3
    rise = np.zeros(len(bands), np.float32)
    if len(smooth) > 2 * lag:
        # The smoothing looks back by half its width.
        rise[lag - 2 : len(smooth) - lag - 2] = np.maximum(0, smooth[2 * lag :] - smooth[: -2 * lag]).mean(axis=1)
    total = np.cumsum(np.concatenate([np.zeros(81), samples.astype(np.float64) ** 2, np.zeros(80)]))
    level = np.sqrt(np.maximum(0.0, (total[160:] - total[:-160])[: len(samples) : _HOP] / 160)).astype(np.float32)
    count = min(len(level), len(bands))
    return _Curves(level[:count], quiet[:count], rise[:count])
