"""A track from the pace alone: for a lesson that has no recording yet.

When the words of a sentence are said depends on that sentence alone, and every sentence begins with a frame of the
film. So a sentence that is as it was, in this lesson or another, gives the same frames wherever it stands.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from studio.script.model import Lesson, Word
from studio.timing.cuesheet import SpokenWord
from studio.timing.syllables import syllables
from studio.timing.track import Track

# Seconds at a natural rate, before they are scaled to the pace (common practice, no source).
_WORD, _SYLLABLE = 0.10, 0.17
_COMMA, _SENTENCE, _PARAGRAPH = 0.25, 0.55, 0.85
_USUAL = 0.42  # seconds a word of lesson talk takes with these, pauses included: the median of our lessons
_FREELY = 0.3  # how far a sentence may leave the pace: 1 as it is natural, 0 not at all
_LEAD, _TAIL = 0.4, 1.2  # silence before the first word and after the last, not scaled


def pace_track(lesson: Lesson, fps: int = 30) -> Track:
    """Speak the lesson at its pace (words a minute, pauses at punctuation included, waits and title cards not).

    A sentence of short words in one breath is spoken a little faster than the pace, one with long words and many
    pauses a little slower, as it is by people. `fps` are the frames a second of the film.
    """
    word_seconds = 60.0 / lesson.header.pace
    frame = round(_LEAD * fps)  # with which the sentence begins
    times: list[tuple[float, float]] = []
    for sentence, pause in _sentences(lesson.words):
        now = start = frame / fps
        natural = pause + sum(map(_length, sentence)) + _COMMA * sum(map(_ends_a_phrase, sentence[:-1]))
        scale = word_seconds * (_FREELY / _USUAL + (1 - _FREELY) * len(sentence) / natural)
        for index, word in enumerate(sentence):
            end = now + _length(word) * scale
            times.append((now, end))
            now = end + (_COMMA * scale if index + 1 < len(sentence) and _ends_a_phrase(word) else 0.0)
        frame += max(1, round((now - start + pause * scale) * fps))
    end = (times[-1][1] if times else _LEAD) + _TAIL
    said = tuple(SpokenWord(word.index, word.text, *time) for word, time in zip(lesson.words, times, strict=True))
    return Track(tuple(times), said, end, False)


def _sentences(words: Sequence[Word]) -> Iterator[tuple[Sequence[Word], float]]:
    """Each sentence with the pause after it."""
    first = 0
    for end in range(1, len(words) + 1):
        if end == len(words) or words[end].sentence != words[first].sentence:
            last = end == len(words) or words[end].paragraph != words[first].paragraph
            yield words[first:end], _PARAGRAPH if last else _SENTENCE
            first = end


def _length(word: Word) -> float:
    return _WORD + _SYLLABLE * syllables(word.plain)


def _ends_a_phrase(word: Word) -> bool:
    return word.text.rstrip("\"'”’)*")[-1:] in (",", ";", ":", "—", "–", "…")
