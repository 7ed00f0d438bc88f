"""From sound to words where the model leaves something out: flite's voices, and a model made to leave it out."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest
from numpy.typing import NDArray

from studio.listen.api import Ears
from studio.listen.ear import Ear, TimedWord, Written
from studio.listen.hear import hear
from studio.listen.models import SpeechModel
from studio.listen.recording import RATE, Sound
from tests.listen.speech import join, needs_speech, say, silence

pytestmark = needs_speech

COUNT, SENTENCE = "Seven, six, five, four.", "The otter has seven shells and finds nine more."


class Deaf:
    """The real model, but of sound that lasts longer than `most` seconds it writes down the sentence alone, and of
    shorter sound `short` where that is given."""

    def __init__(self, ear: Ear, most: float, short: str | None = None) -> None:
        self._ear, self._most, self._short = ear, most, short
        self._length = 0.0
        self.model: SpeechModel = ear.model

    def encode(self, sounds: Sequence[NDArray[np.float32]], whole: bool = True) -> NDArray[np.float32]:
        self._length = max(len(sound) for sound in sounds) / RATE
        return self._ear.encode(sounds, whole)

    def write_down(self, encoded: NDArray[np.float32], beam: int = 5) -> list[Written]:
        (written,) = self._ear.write_down(encoded, beam)
        if self._length > self._most:
            return [Written(written.tokens, SENTENCE, -0.2, 0.0)]
        if self._short is not None and "otter" not in written.text:
            return [Written(written.tokens, self._short, -0.2, 0.0)]
        return [written]

    def place(self, encoded: NDArray[np.float32], text: str, duration: float) -> list[TimedWord]:
        return self._ear.place(encoded, text, duration)

    def weigh(self, encoded: NDArray[np.float32], texts: Sequence[str]) -> list[float]:
        return self._ear.weigh(encoded, texts)


@pytest.fixture(scope="module")
def sound() -> tuple[Sound, float]:
    """A count, a pause, a sentence; and where the sentence begins."""
    before = [silence(0.3), say(COUNT), silence(1.8)]
    samples = join([*before, say(SENTENCE), silence(0.3)])
    return Sound(samples), sum(map(len, before)) / RATE


def test_a_count_that_the_model_leaves_out_at_the_start_is_heard(ears: Ears, sound: tuple[Sound, float]) -> None:
    recording, begins = sound
    heard = hear(recording, Deaf(ears.ear, 5.0))  # type: ignore[arg-type]
    texts = [word.text.lower().strip(".,") for word in heard.words]
    assert texts[:5] == ["seven", "six", "five", "four", "the"] and not heard.unclear
    assert heard.words[4].start == pytest.approx(begins + 0.15, abs=0.2)


def test_words_after_speech_that_is_not_made_out_stay_where_they_are(ears: Ears, sound: tuple[Sound, float]) -> None:
    recording, begins = sound
    deaf = Deaf(ears.ear, 5.0, short="Mumble.")
    heard = hear(recording, deaf)  # type: ignore[arg-type]
    assert heard.words[0].text == "The" and heard.words[0].start == pytest.approx(begins + 0.15, abs=0.2)
    ((start, end),) = heard.unclear
    assert start < 0.7 and begins - 2.2 < end < begins


def test_a_count_that_is_written_as_one_word_is_placed_number_by_number(ears: Ears) -> None:
    """The number words begin where the sound does: it was put there by this test."""
    parts, true, at = [silence(0.4)], [], 0.4
    for text in ("seven", "eight", "nine"):
        spoken = say(text)
        true.append(at + float(np.argmax(np.abs(spoken.astype(int)) > 600)) / RATE)
        parts += [spoken, silence(0.5)]
        at += len(spoken) / RATE + 0.5

    class Joined(Deaf):
        def write_down(self, encoded: NDArray[np.float32], beam: int = 5) -> list[Written]:
            (written,) = super().write_down(encoded, beam)
            return [Written(written.tokens, "Seven-eight-nine.", -0.2, 0.0)]

    heard = hear(Sound(join(parts)), Joined(ears.ear, 60.0))  # type: ignore[arg-type]
    assert [word.text for word in heard.words] == ["Seven,", "eight,", "nine."]
    assert [word.start for word in heard.words] == pytest.approx(true, abs=0.12)
