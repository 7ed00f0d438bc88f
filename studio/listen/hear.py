"""From sound to heard words: speech is found, cut at pauses into windows, written down and placed in time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import TYPE_CHECKING

from studio.listen.counts import mend, number_of
from studio.listen.ear import LONGEST, Ear, TimedWord
from studio.listen.model import Heard, HeardWord
from studio.listen.onset import bursts, refine
from studio.listen.recording import RATE, Sound
from studio.listen.tokens import apart, tokens
from studio.progress import Progress, silent

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

MISSED = 0.8
"""Seconds of speech without a word from which it is heard once more, on its own."""

LONGEST_WORD = 1.3
"""Seconds; under a longer word a whole sentence may lie that was not written down."""

SETTINGS = "hear 9"
"""Changed with everything that changes what is heard; part of the name under which results are kept."""

_BLOCK = 60.0
_MARGIN = 0.25
_JOIN = 2.5
_EDGE = 0.05
_PAUSE = 0.5


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of time in seconds."""

    start: float
    end: float

    @property
    def length(self) -> float:
        return self.end - self.start


def hear(sound: Sound, ear: Ear, progress: Progress = silent) -> Heard:
    """The words of a recording with their times, in order; times never go back."""
    gain = gain_for(sound)
    spans = speech(sound, gain)
    pieces = list(windows(spans, sound.duration))
    total = sum(piece.length for piece in pieces) or 1.0
    done = 0.0
    words: list[HeardWord] = []
    unclear: list[tuple[float, float]] = []
    # One window at a time: several together are no faster on a processor and take 90 MB each.
    for piece in pieces:
        written = _write_down(sound, gain, piece, spans, ear)
        words += [
            HeardWord(word.text, piece.start + word.start, piece.start + word.end, word.probability) for word in written
        ]
        left_out = _unwritten(written, _part(sound, gain, piece), _within(piece, spans))
        unclear += [(piece.start + start, piece.start + end) for start, end in left_out]
        done += piece.length
        progress(done / total, "listening")
    return Heard(tuple(_in_order(words, sound.duration)), sound.duration, ear.model.name, tuple(unclear))


def gain_for(sound: Sound) -> float:
    """The factor that brings the loud parts of quiet sound to about -20 dBFS (at most 40 dB; loud sound is left)."""
    import numpy as np

    seconds = len(sound.samples) // RATE
    if not seconds:
        return 1.0
    levels = [
        float(np.sqrt(np.mean(sound.samples[at * RATE : (at + 1) * RATE].astype(np.float32) ** 2)))
        for at in range(seconds)
    ]
    loud = float(np.percentile(levels, 95)) / 32768.0
    return float(min(100.0, max(1.0, 0.1 / max(loud, 1e-9)))) if loud < 0.05 else 1.0


def speech(sound: Sound, gain: float = 1.0) -> list[Span]:
    """Where someone speaks (Silero's voice activity detector, as faster-whisper carries it)."""
    from faster_whisper.vad import VadOptions, get_speech_timestamps

    options = VadOptions(
        threshold=0.3,
        min_speech_duration_ms=60,
        min_silence_duration_ms=250,
        speech_pad_ms=100,
        max_speech_duration_s=LONGEST - 1,
    )
    spans: list[Span] = []
    start = 0.0
    while start < sound.duration:
        end = min(sound.duration, start + _BLOCK)
        for found in get_speech_timestamps(_part(sound, gain, Span(start, end)), options):
            span = Span(start + found["start"] / RATE, start + found["end"] / RATE)
            if spans and span.start - spans[-1].end < 0.05 and span.end - spans[-1].start < LONGEST - 1:
                spans[-1] = Span(spans[-1].start, span.end)
            else:
                spans.append(span)
        start = end
    return spans


def windows(spans: list[Span], duration: float) -> Iterator[Span]:
    """Spans of speech joined to windows that the model can take in one piece, cut at pauses."""
    current: Span | None = None
    for span in spans:
        if (
            current is not None
            and span.end - current.start < LONGEST - 2 * _MARGIN
            and span.start - current.end < _JOIN
        ):
            current = Span(current.start, span.end)
            continue
        if current is not None:
            yield Span(max(0.0, current.start - _MARGIN), min(duration, current.end + _MARGIN))
        current = span
    if current is not None:
        yield Span(max(0.0, current.start - _MARGIN), min(duration, current.end + _MARGIN))


def _part(sound: Sound, gain: float, span: Span) -> NDArray[np.float32]:
    import numpy as np

    part = sound.part(span.start, span.end)
    return part if gain == 1.0 else np.clip(part * np.float32(gain), -1.0, 1.0)


def _within(span: Span, spans: Sequence[Span]) -> list[tuple[float, float]]:
    """The spans that reach into another one, in seconds from its start."""
    return [
        (each.start - span.start, each.end - span.start)
        for each in spans
        if each.end > span.start and each.start < span.end
    ]


def _write_down(sound: Sound, gain: float, span: Span, spans: list[Span], ear: Ear) -> list[TimedWord]:
    part = _part(sound, gain, span)
    encoded = ear.encode([part])
    written = ear.write_down(encoded)[0]
    if not written.tokens or (written.no_speech > 0.6 and written.log_probability < -1.0):
        return []
    if written.repeats > 2.4 and span.length > 6.0:
        # A loop: the halves are heard on their own.
        middle = _quietest(part) / RATE
        halves = (Span(span.start, span.start + middle), Span(span.start + middle, span.end))
        first, second = (_write_down(sound, gain, half, spans, ear) for half in halves)
        return first + [TimedWord(w.text, w.start + middle, w.end + middle, w.probability) for w in second]
    spoken = _within(span, spans)
    placed = refine(ear.place(encoded, apart(written.text), span.length), part, spoken)
    words = mend(placed, part, spoken, ear)
    pieces = _about_missed(words, part, spoken)
    if pieces:
        anew = []
        for start, end, missed in pieces:
            piece = _write_down(sound, gain, Span(span.start + start, span.start + end), spans, ear)
            if missed and not _believed(piece, part[round(start * RATE) : round(end * RATE)]):
                continue
            anew += [TimedWord(word.text, start + word.start, start + word.end, word.probability) for word in piece]
        if len(anew) >= len(words):
            return _with_missed(anew, part, spoken, ear)
    return _with_missed(words, part, spoken, ear)


def _about_missed(
    words: Sequence[TimedWord], samples: NDArray[np.float32], spoken: Sequence[tuple[float, float]]
) -> list[tuple[float, float, bool]]:
    """The window cut at its pauses before and after speech without a word, and which of the pieces that is; nothing
    where there is no such speech, or no pause.

    A model that leaves out a count goes on with the sentence after it, and the first word of that sentence is placed
    in the sound of the count. Only on its own is either heard where it is.
    """
    phrases: list[tuple[float, float]] = []
    for start, end in spoken:
        if phrases and start - phrases[-1][1] < _PAUSE:
            phrases[-1] = (phrases[-1][0], end)
        else:
            phrases.append((start, end))
    loud = bursts(samples)
    left_out = list(_unwritten(words, samples, spoken))
    cut: list[tuple[float, float, bool]] = []
    for start, end in phrases:
        silent = sum(max(0.0, min(b, right, end) - max(a, left, start)) for a, b in loud for left, right in left_out)
        bare = [
            b - a
            for a, b in loud
            if start <= (a + b) / 2 < end and not any(word.start < b and word.end > a for word in words)
        ]
        missed = silent >= MISSED or (len(bare) >= 2 and sum(bare) >= MISSED / 2)
        cut.append((start, end, missed))
    if not any(missed for _, _, missed in cut):
        return []
    if not all(missed for _, _, missed in cut):
        # What was left out together is heard together.
        joined = [list(some) for _, some in groupby(cut, key=lambda piece: piece[2])]
        cut = [(some[0][0], some[-1][1], some[0][2]) for some in joined]
    if len(cut) < 2:
        return []
    edges = [0.0, *((end + start) / 2 for (_, end, _), (start, _, _) in pairwise(cut)), len(samples) / RATE]
    return [
        (max(start - _MARGIN, left), min(end + _MARGIN, right), missed)
        for (start, end, missed), (left, right) in zip(cut, pairwise(edges), strict=True)
    ]


def _believed(words: Sequence[TimedWord], samples: NDArray[np.float32]) -> bool:
    """Whether words that only a second hearing gave were said: the model is sure of them, or they are a count with a
    number for each burst of sound (of a number without a sentence it is never sure)."""
    if _sure(words):
        return True
    return len(words) >= 2 and all(number_of(word.text) for word in words) and len(words) >= len(bursts(samples))


def _sure(words: Sequence[TimedWord]) -> bool:
    return len(words) >= 3 and sum(word.probability for word in words) >= 0.5 * len(words)


def _with_missed(
    words: list[TimedWord], samples: NDArray[np.float32], spoken: Sequence[tuple[float, float]], ear: Ear
) -> list[TimedWord]:
    """The words of a window with those of a sentence that was left out: speech without a word, or under one word that
    is far too long, is heard once more on its own."""
    result = list(words)
    for start, end in _unwritten(words, samples, spoken):
        new = _again(result, start, end, samples, ear)
        result = sorted([*result, *new], key=lambda word: word.start)
    for word in words:
        if word.end - word.start <= LONGEST_WORD:
            continue
        others = [other for other in result if other is not word]
        limit = min((other.start for other in others if other.start > word.start), default=len(samples) / RATE)
        if new := _again(others, word.start, limit, samples, ear):
            if tokens(word.text) not in (tokens(new[-1].text), tokens(new[0].text)) and new[-1].end < limit - _EDGE:
                new.append(TimedWord(word.text, new[-1].end, limit - 0.02, word.probability))
            result = sorted([*others, *new], key=lambda each: each.start)
    return result


def _again(
    words: Sequence[TimedWord], start: float, end: float, samples: NDArray[np.float32], ear: Ear
) -> list[TimedWord]:
    """What is heard from `start` to `end` on its own; nothing where it is unsure or what the words beside it say."""
    begin = max(0.0, start - _MARGIN)
    part = samples[round(begin * RATE) : round((end + _MARGIN) * RATE)]
    if len(part) > LONGEST * RATE:
        return []
    encoded = ear.encode([part])
    written = ear.write_down(encoded)[0]
    placed = refine(ear.place(encoded, apart(written.text), len(part) / RATE), part)
    # What lies in the margin is written down already.
    placed = [word for word in placed if begin + word.start < end - _EDGE and begin + word.end > start + _EDGE]
    before = [word.text for word in words if word.end <= start + _EDGE][-len(placed) :]
    after = [word.text for word in words if word.start >= end - _EDGE][: len(placed)]
    if not _sure(placed) or written.no_speech > 0.5 or written.repeats > 2.4:
        return []
    if _said_by(placed, before) or _said_by(placed, after):
        return []
    return [TimedWord(w.text, begin + w.start, begin + w.end, w.probability) for w in placed]


def _unwritten(
    words: Sequence[TimedWord], samples: NDArray[np.float32], spoken: Sequence[tuple[float, float]]
) -> Iterator[tuple[float, float]]:
    """Stretches of speech, each with `MISSED` seconds of sound or more, in which no word lies."""
    loud = bursts(samples)
    edges = [0.0, *(edge for word in words for edge in (word.start, word.end)), len(samples) / RATE]
    for left, right in zip(edges[::2], edges[1::2], strict=True):
        if right - left < MISSED:
            continue
        inside = [
            (max(a, left), min(b, right)) for a, b in loud if min(b, right) - max(a, left) > 0.05
            and any(x < b and y > a for x, y in spoken)
        ]  # fmt: skip
        if inside and sum(b - a for a, b in inside) >= MISSED:
            yield inside[0][0], inside[-1][1]


def _said_by(words: Sequence[TimedWord], beside: Sequence[str]) -> bool:
    """Whether half of the words are those beside them: then these were only placed wrongly."""
    near = {token for text in beside for token in tokens(text)}
    mine = [token for word in words for token in tokens(word.text)]
    return sum(token in near for token in mine) >= 0.5 * len(mine)


def _quietest(samples: NDArray[np.float32]) -> int:
    """Where, in the middle third, the sound is quietest over a fifth of a second."""
    import numpy as np

    width = RATE // 5
    energy = np.convolve(samples**2, np.ones(width, np.float32), mode="same")
    third = len(samples) // 3
    return third + int(np.argmin(energy[third : 2 * third]))


def _in_order(words: list[HeardWord], duration: float) -> Iterator[HeardWord]:
    last = 0.0
    for word in words:
        start = min(max(word.start, last), duration)
        end = min(max(word.end, start), duration)
        yield HeardWord(word.text, start, end, word.confidence)
        last = start
