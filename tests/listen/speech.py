"""Speech for tests: sentences spoken by flite (Debian), and lessons built by hand."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from studio.listen.models import find_model
from studio.listen.recording import RATE
from studio.script.model import Header, Lesson, Place, Segment, Word


def have_model() -> bool:
    try:
        find_model()
    except Exception:
        return False
    return True


needs_speech = pytest.mark.skipif(
    shutil.which("flite") is None or not have_model(), reason="needs the Debian package flite and a packaged model"
)


def say(text: str, voice: str = "slt") -> NDArray[np.int16]:
    """The samples of `text`, spoken, at 16 kHz."""
    import tempfile
    import wave

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "said.wav"
        subprocess.run(["flite", "-voice", voice, "-t", text, "-o", str(path)], check=True, capture_output=True)
        with wave.open(str(path)) as reader:
            assert reader.getframerate() == RATE
            return np.frombuffer(reader.readframes(reader.getnframes()), np.int16)


def silence(seconds: float) -> NDArray[np.int16]:
    """Room tone: very quiet noise."""
    noise = np.random.default_rng(7).normal(0, 8, round(seconds * RATE))
    return noise.astype(np.int16)


def write_wav(path: Path, samples: NDArray[np.int16], channels: int = 1, rate: int = RATE) -> Path:
    import wave

    with wave.open(str(path), "wb") as writer:
        writer.setnchannels(channels)
        writer.setsampwidth(2)
        writer.setframerate(rate)
        writer.writeframes(samples.tobytes())
    return path


def join(parts: Sequence[NDArray[np.int16]]) -> NDArray[np.int16]:
    return np.concatenate(list(parts))


def lesson(text: str, title: str = "Frogs on the pond") -> Lesson:
    """A lesson from lines: `# Title` begins a segment, every other line is one sentence."""
    segments: list[tuple[str, int, list[Word]]] = []
    index = sentence = 0
    for number, line in enumerate(text.strip().splitlines(), start=1):
        if line.startswith("# "):
            segments.append((line[2:], number, []))
            continue
        if not segments:
            segments.append((title, number, []))
        column = 1
        for word in line.split():
            plain = word.lower().strip(".,!?;:")
            place = Place(number, column)
            segments[-1][2].append(Word(index, word, plain, place, sentence, sentence, len(segments) - 1))
            index += 1
            column += len(word) + 1
        sentence += 1
    return Lesson(
        Header(title),
        tuple(Segment(at, name, Place(line, 1), tuple(words), ()) for at, (name, line, words) in enumerate(segments)),
    )
