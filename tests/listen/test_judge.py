"""What the sound says about numbers, on flite's voices: slips in numbers of one word and of two."""

from __future__ import annotations

from pathlib import Path

import pytest

from studio.listen.api import Ears, listen
from studio.listen.judge import cut
from studio.listen.model import HeardWord
from tests.listen.speech import join, lesson, needs_speech, say, silence, write_wav

SCRIPT = """
# Big numbers
There are twenty-three frogs on the pond.
Two tens and seven ones make twenty-seven.
We counted 34 ducks in the reeds.
Fifteen otters sleep on the bank.
"""
RIGHT = (
    "There are twenty-three frogs on the pond.", "Two tens and seven ones make twenty-seven.",
    "We counted thirty-four ducks in the reeds.", "Fifteen otters sleep on the bank.",
)  # fmt: skip


def verdicts(folder: Path, ears: Ears, said: tuple[str, ...], voice: str) -> dict[str, tuple[str, str]]:
    parts = [join([say(text, voice), silence(0.6)]) for text in said]
    take = listen(write_wav(folder / "take.wav", join(parts)), lesson(SCRIPT), ears, cache=False).take
    assert take is not None
    script = lesson(SCRIPT).words
    return {
        script[word.word].text.lower().strip("."): (word.verdict, word.heard.lower().strip(".,?!"))
        for word in take.said
        if word.word is not None and any(c.isdigit() or c == "-" for c in script[word.word].text + "-")
    }


@needs_speech
@pytest.mark.parametrize("voice", ["slt", "rms"])
def test_numbers_of_two_words_are_as_written_when_they_are_said_so(tmp_path: Path, ears: Ears, voice: str) -> None:
    found = verdicts(tmp_path, ears, RIGHT, voice)
    assert {found[word][0] for word in ("twenty-three", "twenty-seven", "34", "fifteen")} == {"as-written"}


@needs_speech
@pytest.mark.parametrize("voice", ["slt", "rms"])
def test_a_slip_in_a_number_of_two_words_is_told_with_the_number_said(tmp_path: Path, ears: Ears, voice: str) -> None:
    said = (
        "There are twenty-five frogs on the pond.", "Two tens and seven ones make twenty-six.",
        "We counted forty-four ducks in the reeds.", "Fifty otters sleep on the bank.",
    )  # fmt: skip
    found = verdicts(tmp_path, ears, said, voice)
    heard = {word: found[word] for word in ("twenty-three", "twenty-seven", "34", "fifteen")}
    assert {verdict for verdict, _ in heard.values()} == {"different"}
    assert [text.replace(" ", "-") for _, text in heard.values()] == [
        "twenty-five",
        "twenty-six",
        "forty-four",
        "fifty",
    ]


def test_phrases_hold_every_word_once_and_are_cut_at_pauses() -> None:
    words = [HeardWord("frog", at * 0.4 + (1.0 if at > 5 else 0.0), at * 0.4 + 0.35 + (at > 5)) for at in range(12)]
    phrases = list(cut(words, 8.0))
    assert [at for phrase in phrases for at in range(phrase.first, phrase.last)] == list(range(12))
    assert 6 in {phrase.first for phrase in phrases}
