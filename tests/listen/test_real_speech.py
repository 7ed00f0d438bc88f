"""What a room at home adds to speech: coughs, music, laughter, a child, long silence, sentences begun again."""

from __future__ import annotations

import subprocess
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from studio.errors import UnusableInput
from studio.listen.api import Ears, Listening, listen
from studio.listen.recording import RATE
from tests.listen.media import tone
from tests.listen.speech import join, lesson, needs_speech, say, silence, write_wav

pytestmark = needs_speech

SCRIPT = """
# On the pond
Here are seven frogs on a lily pad.
Two more frogs hop onto the pad.
# The sum
Seven and two make nine.
Now there are nine frogs on the pad.
"""
SENTENCES = tuple(line for line in SCRIPT.strip().splitlines() if not line.startswith("#"))


def cough(seed: int) -> NDArray[np.int16]:
    """Two bursts of noise that die away."""
    chance = np.random.default_rng(seed)
    burst = [chance.normal(0, 5000, RATE // 4) * np.exp(-np.linspace(0, 5, RATE // 4)) for _ in range(2)]
    return np.concatenate([burst[0], np.zeros(RATE // 10), burst[1]]).astype(np.int16)


def laughter() -> NDArray[np.int16]:
    """A voiced sound of five bursts a second, each sinking in pitch."""
    times = np.arange(RATE // 5) / RATE
    pitch = 2 * np.pi * np.cumsum(320 - 400 * times) / RATE
    voice = sum(np.sin(harmonic * pitch) / harmonic for harmonic in range(1, 9))
    burst = np.asarray(voice * np.exp(-times * 16) * 5000)
    return np.tile(burst, 6).astype(np.int16)


def music(seconds: float) -> NDArray[np.int16]:
    """Chords of a made-up tune."""
    chords = [(262, 330, 392), (294, 370, 440), (330, 415, 494), (262, 349, 440)]
    beat = [sum(tone(0.5, 0.06, pitch).astype(int) for pitch in chord) for chord in chords]
    tune = np.concatenate([np.asarray(chord) for chord in beat]).astype(np.int16)
    return np.resize(tune, round(seconds * RATE))


def heard(folder: Path, ears: Ears, parts: list[NDArray[np.int16]]) -> Listening:
    return listen(write_wav(folder / "take.wav", join(parts)), lesson(SCRIPT), ears, cache=False)


def outcome(result: Listening) -> tuple[list[str], list[str], list[str]]:
    """The words that are not as written, the words too many, and why to record again."""
    assert result.take is not None
    other = [word.heard for word in result.take.said if word.verdict in ("different", "skipped")]
    extra = [word.text.lower().strip(".,") for word in result.take.said if word.verdict == "extra"]
    return other, extra, [retake.reason for retake in result.take.retakes]


def test_coughs_laughter_and_music_give_no_words(tmp_path: Path, ears: Ears) -> None:
    between = (cough(1), laughter(), music(4.0), cough(2))
    parts = [music(3.0), silence(0.5)]
    spoken = []
    for text, sound in zip(SENTENCES, between, strict=True):
        begin = sum(map(len, parts)) / RATE
        parts += [say(text), silence(0.5), sound, silence(0.5)]
        spoken.append((begin, begin + len(say(text)) / RATE))
    result = heard(tmp_path, ears, parts)
    other, _, reasons = outcome(result)
    assert (other, reasons) == ([], [])
    for word in result.heard.words:
        assert any(start <= word.start and word.end <= end + 0.1 for start, end in spoken), word


def test_after_a_long_silence_the_times_are_still_right(tmp_path: Path, ears: Ears) -> None:
    spoken = [say(text) for text in SENTENCES]
    parts = [spoken[0], silence(0.6), spoken[1], silence(45.0), spoken[2], silence(0.6), spoken[3], silence(20.0)]
    result = heard(tmp_path, ears, parts)
    other, _, reasons = outcome(result)
    assert (other, reasons) == ([], [])
    loud = float(np.argmax(np.abs(spoken[2].astype(int)) > 600)) / RATE
    begin = sum(len(part) for part in parts[:4]) / RATE + loud
    assert result.chapters[1].start == pytest.approx(begin, abs=0.1)


def test_a_child_in_the_background_changes_no_verdict(tmp_path: Path, ears: Ears) -> None:
    """A higher, quieter voice under the teacher's and in her pauses."""
    source = write_wav(
        tmp_path / "child.wav", say("Mummy, can I have my boots and go outside to the water please?", "rms")
    )
    high = tmp_path / "high.wav"
    subprocess.run(
        ["sox", "-G", "-D", source, high, "pitch", "500", "rate", str(RATE)], check=True, capture_output=True
    )
    import wave

    with wave.open(str(high)) as reader:
        child = np.frombuffer(reader.readframes(reader.getnframes()), np.int16)
    parts: list[NDArray[np.int16]] = []
    for text in SENTENCES:
        parts += [say(text), silence(0.8)]
    teacher = join(parts).astype(int)
    under = np.zeros(len(teacher), int)
    start = len(say(SENTENCES[0]))
    under[start : start + len(child)] = child[: len(teacher) - start] * 0.06
    mixed = np.clip(teacher + under, -32768, 32767).astype(np.int16)
    other, _, reasons = outcome(heard(tmp_path, ears, [mixed]))
    assert (other, reasons) == ([], [])


def test_begun_again_um_an_aside_and_a_skipped_line_are_told_apart(tmp_path: Path, ears: Ears) -> None:
    said = (
        "Here are seven.", "Here are seven frogs on a lily pad.", "Um.", "Oh, what a lovely morning it is.",
        "Seven and two make nine.", "Now there are nine frogs on the pad.",
    )  # fmt: skip
    parts: list[NDArray[np.int16]] = []
    for text in said:
        parts += [say(text), silence(0.7)]
    result = heard(tmp_path, ears, parts)
    other, extra, reasons = outcome(result)
    assert other == [""] * 7 and "morning" in extra
    skipped = [reason for reason in reasons if "not heard" in reason]
    again = [reason for reason in reasons if "more than once" in reason]
    assert len(skipped) == 1 and "two" in skipped[0] and len(again) == 1 and len(reasons) == 2
    assert result.take is not None
    first = next(word for word in result.take.said if word.word == 0)
    assert first.start > len(parts[0]) / RATE


def test_another_language_is_refused(tmp_path: Path, ears: Ears) -> None:
    """Spanish words (from memory), read by an English voice: no packaged voice speaks another language."""
    lines = (
        "Los patos nadan en el agua del estanque verde.", "Siete ranas saltan sobre las hojas grandes.",
        "Vamos a contar juntos hasta nueve, despacio.",
    )  # fmt: skip
    path = write_wav(tmp_path / "otro.wav", join([join([say(line, "rms"), silence(0.5)]) for line in lines]))
    with pytest.raises(UnusableInput, match=r"another l.*\d+ of the \d+ words"):
        listen(path, lesson(SCRIPT), ears, cache=False)


def test_on_a_disk_without_room_it_listens_and_leaves_nothing_half_written(
    tmp_path: Path, ears: Ears, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file system of one page, where this may be made; else it is skipped."""
    room = tmp_path / "room"
    room.mkdir()
    made = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=4k", "tmpfs", str(room)], capture_output=True)
    if made.returncode:
        pytest.skip("a small file system can only be made by root")
    try:
        (room / "filler").write_bytes(b"x" * 4096)
        monkeypatch.setenv("STUDIO_CACHE", str(room / "store"))
        path = write_wav(tmp_path / "take.wav", join([say(text) for text in SENTENCES]))
        result = listen(path, lesson(SCRIPT), ears)
        assert result.take is not None and result.take.matched == 1.0
        left = [file for file in (room / "store").rglob("*") if file.is_file()] if (room / "store").exists() else []
        assert not left
    finally:
        subprocess.run(["umount", str(room)], check=True)
