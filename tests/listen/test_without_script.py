"""Without a script: the words, chapters, captions, and what is false in the arithmetic as it was spoken."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import webvtt

from studio.hear import Heard, lesson_from, listen, spoken_findings
from studio.listen.api import Listening
from studio.listen.model import Heard as HeardOf
from studio.listen.model import HeardWord
from studio.listen.recording import RATE, Recording, TakeFile
from tests.listen.speech import join, needs_speech, say, silence, write_wav

pytestmark = needs_speech

SAID = (
    "Hello, and welcome to the pond.", "Seven and two make nine.", "Five and three make nine.",
    "Ten and four make fourteen.",
)  # fmt: skip


@pytest.fixture(scope="module")
def recording(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[tuple[float, float]]]:
    """The sentences with a second between them, and where the voice of each starts and ends."""
    parts, truth, at = [silence(0.5)], [], 0.5
    for text in SAID:
        spoken = say(text)
        loud = np.flatnonzero(np.abs(spoken.astype(int)) > 500) / RATE
        truth.append((at + float(loud[0]), at + float(loud[-1])))
        parts += [spoken, silence(1.0)]
        at += len(spoken) / RATE + 1.0
    return write_wav(tmp_path_factory.mktemp("said") / "take.wav", join(parts)), truth


@pytest.fixture(scope="module")
def found(recording: tuple[Path, list[tuple[float, float]]], tmp_path_factory: pytest.TempPathFactory) -> Heard:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("STUDIO_CACHE", str(tmp_path_factory.mktemp("store")))
        return listen([recording[0]], out=recording[0].parent / "heard")


def test_a_false_sum_is_told_with_its_time_and_the_true_ones_are_not(
    found: Heard, recording: tuple[Path, list[tuple[float, float]]]
) -> None:
    (finding,) = found.findings
    start, end = recording[1][2]
    assert "5 and 3" in finding.message or "five and three" in finding.message.lower()
    assert finding.time is not None and start - 0.2 <= finding.time <= end


def test_sentences_start_and_end_with_the_voice(
    found: Heard, recording: tuple[Path, list[tuple[float, float]]]
) -> None:
    words = found.listening.heard.words
    for start, end in recording[1]:
        mine = [word for word in words if word.end > start and word.start < end]
        assert mine[0].start == pytest.approx(start, abs=0.15)
        assert mine[-1].end == pytest.approx(end, abs=0.15)


def test_captions_are_written_that_another_reader_reads(
    found: Heard, recording: tuple[Path, list[tuple[float, float]]]
) -> None:
    captions = list(webvtt.read(str(recording[0].parent / "heard" / "captions.vtt")))
    text = " ".join(caption.text for caption in captions).lower()
    assert "welcome" in text and "fourteen" in text
    assert captions[-1].start_in_seconds < recording[1][-1][1]


def heard_as(*stretches: str, pause: float) -> Listening:
    """What a recogniser heard that writes no stops, with a pause between the stretches."""
    words: list[HeardWord] = []
    at = 0.0
    for stretch in stretches:
        for text in stretch.split():
            words.append(HeardWord(text, at, at + 0.3))
            at += 0.35
        at += pause
    recording = Recording((TakeFile(Path("take.wav"), 0.0, at, False),))
    return Listening(recording, HeardOf(tuple(words), at, "none"), None, (), ())


def test_a_pause_ends_a_sentence_where_no_stop_was_written() -> None:
    made, take = lesson_from(heard_as("Nine and four make thirteen", "Ten, twenty, thirty, forty", pause=1.0))
    assert spoken_findings(made, take, scripted=False) == ()


def test_a_pause_before_the_answer_ends_no_sentence() -> None:
    made, take = lesson_from(heard_as("Five and three make", "nine", "Look at the frogs", pause=2.0))
    (finding,) = spoken_findings(made, take, scripted=False)
    assert "nine" in finding.message.lower() or "9" in finding.message
