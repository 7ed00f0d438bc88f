"""A track from the pace alone: for a lesson that has no recording yet."""

from __future__ import annotations

from studio.script.model import Lesson, Word
from studio.timing.cuesheet import SpokenWord
from studio.timing.syllables import syllables
from studio.timing.track import Track

# Shares of time before they are scaled to the pace (seconds at a natural rate; common practice, no source).
_WORD, _SYLLABLE = 0.10, 0.17
_COMMA, _SENTENCE, _PARAGRAPH = 0.25, 0.55, 0.85
_LEAD, _TAIL = 0.4, 1.2  # silence before the first word and after the last, not scaled


def pace_track(lesson: Lesson) -> Track:
    """Speak the lesson at its pace (words a minute, pauses at punctuation included, waits and title cards not)."""
    words = lesson.words
    spoken = [_WORD + _SYLLABLE * syllables(word.plain) for word in words]
    pauses = [_pause(word, words[i + 1] if i + 1 < len(words) else None) for i, word in enumerate(words)]
    total = sum(spoken) + sum(pauses)
    scale = 60.0 * len(words) / lesson.header.pace / total if total else 1.0
    now = _LEAD
    times = []
    for length, pause in zip(spoken, pauses, strict=True):
        times.append((now, now + length * scale))
        now += (length + pause) * scale
    end = (times[-1][1] if times else _LEAD) + _TAIL
    said = tuple(SpokenWord(word.index, word.text, *time) for word, time in zip(words, times, strict=True))
    return Track(tuple(times), said, end, False)


def _pause(word: Word, following: Word | None) -> float:
    if following is None:
        return 0.0
    if following.paragraph != word.paragraph:
        return _PARAGRAPH
    if following.sentence != word.sentence:
        return _SENTENCE
    last = word.text.rstrip("\"'”’)*")[-1:]
    return _COMMA if last in (",", ";", ":", "—", "–", "…") else 0.0
