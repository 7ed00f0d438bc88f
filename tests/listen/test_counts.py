"""Counts said number by number, on flite's voices: what is left out by hand must come back, and nothing else."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from studio.listen.api import Ears
from studio.listen.counts import mend
from studio.listen.ear import TimedWord
from studio.listen.recording import RATE
from tests.listen.speech import join, needs_speech, say, silence

pytestmark = needs_speech

COUNT = ("four", "five", "six", "seven")


def spoken(voice: str, cough: bool = False) -> tuple[NDArray[np.float32], list[TimedWord]]:
    """A count with pauses, and its words with their times; with a cough (a burst of noise) after the second number."""
    parts, words, at = [silence(0.4)], [], 0.4
    for number, text in enumerate(COUNT):
        sound = say(text, voice)
        loud = np.flatnonzero(np.abs(sound.astype(int)) > 500) / RATE
        words.append(TimedWord(text, at + float(loud[0]), at + float(loud[-1]), 0.9))
        parts += [sound, silence(0.4)]
        at += len(sound) / RATE + 0.4
        if cough and number == 1:
            noise = np.random.default_rng(2).normal(0, 4000, RATE // 3) * np.exp(-np.linspace(0, 4, RATE // 3))
            parts += [noise.astype(np.int16), silence(0.4)]
            at += 1 / 3 + 0.4
    return join(parts).astype(np.float32) / np.float32(32768), words


@pytest.mark.parametrize("voice", ["slt", "rms"])
@pytest.mark.parametrize("missing", range(len(COUNT)))
def test_a_number_that_was_not_written_down_is_found_in_its_place(ears: Ears, voice: str, missing: int) -> None:
    samples, words = spoken(voice)
    left = [word for at, word in enumerate(words) if at != missing]
    found = mend(left, samples, [(0.0, len(samples) / RATE)], ears.ear)
    assert [word.text for word in found] == list(COUNT)
    assert found[missing].start == pytest.approx(words[missing].start, abs=0.12)


def test_a_word_that_sounds_like_a_number_is_written_as_the_number_in_a_count(ears: Ears) -> None:
    samples, words = spoken("slt")
    words[0] = TimedWord("For", words[0].start, words[0].end, 0.3)
    found = mend(words, samples, [(0.0, len(samples) / RATE)], ears.ear)
    assert [word.text for word in found] == list(COUNT)


def test_a_cough_in_a_count_is_no_number(ears: Ears) -> None:
    samples, words = spoken("slt", cough=True)
    found = mend(words, samples, [(0.0, len(samples) / RATE)], ears.ear)
    assert [word.text for word in found] == list(COUNT)


def test_words_of_a_sentence_are_left_alone(ears: Ears) -> None:
    samples = say("Here are four frogs for you, and two more came to the pond.").astype(np.float32) / np.float32(32768)
    texts = "Here are four frogs for you, and two more came to the pond.".split()
    step = len(samples) / RATE / len(texts)
    words = [TimedWord(text, at * step, (at + 0.9) * step, 0.9) for at, text in enumerate(texts)]
    assert mend(words, samples, [(0.0, len(samples) / RATE)], ears.ear) == words
