"""Speech with known words and times for the listening benchmarks, spoken by flite's voices slt and rms.

flite prints the phones that it speaks with their end times. The phones of each word, spoken alone, are laid against
the phones of the sentence; the first phone of a word gives the word's true onset.
"""

from __future__ import annotations

import functools
import re
import subprocess
import tempfile
import wave
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

RATE = 16_000
VOICES = ("slt", "rms")
PROMPTS = Path("/usr/share/asterisk/sounds/en_US_f_Allison/digits")
"""The number prompts of Debian's asterisk-core-sounds-en-wav: a woman's voice, 8 kHz."""


@dataclass(frozen=True)
class Spoken:
    """Samples at 16 kHz, the words that were spoken, and the times in seconds at which each begins and ends."""

    samples: NDArray[np.int16]
    words: tuple[str, ...]
    onsets: tuple[float, ...]
    ends: tuple[float, ...]


def read_wav(path: Path) -> NDArray[np.int16]:
    """A mono wav file at 8 or 16 kHz as 16 kHz samples."""
    with wave.open(str(path)) as reader:
        samples = np.frombuffer(reader.readframes(reader.getnframes()), np.int16)
        rate = reader.getframerate()
    if rate == RATE:
        return samples
    from scipy.signal import resample_poly

    changed = resample_poly(samples.astype(np.float64), RATE // 1000, rate // 1000)
    return np.clip(changed, -32768, 32767).astype(np.int16)


def write_wav(path: Path, samples: NDArray[np.int16]) -> None:
    with wave.open(str(path), "wb") as writer:
        writer.setnchannels(1)
        writer.setsampwidth(2)
        writer.setframerate(RATE)
        writer.writeframes(samples.tobytes())


@functools.lru_cache(maxsize=20_000)
def say(sentence: str, voice: str, stretch: float = 1.0) -> Spoken:
    """One sentence, spoken; `stretch` above 1 is slower."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "said.wav"
        printed = subprocess.run(
            ["flite", "-voice", voice, "--setf", f"duration_stretch={stretch}", "-psdur", "-t", sentence, "-o", path],
            check=True, capture_output=True, text=True,
        ).stdout  # fmt: skip
        samples = read_wav(path)
    phones: list[tuple[str, float, float]] = []
    offset = last = 0.0
    for item in printed.split():
        name, end = item.rsplit(":", 1)
        if float(end) < last - offset:
            offset = last  # flite spoke the next utterance
        phones.append((name, last, offset + float(end)))
        last = offset + float(end)
    words = tuple(re.findall(r"[A-Za-z']+", sentence))
    onsets, ends = _times(words, phones, voice)
    return Spoken(samples, words, onsets, ends)


@functools.lru_cache(maxsize=5000)
def _phones(word: str, voice: str) -> tuple[str, ...]:
    printed = subprocess.run(
        ["flite", "-voice", voice, "-ps", "-t", word, "-o", "none"], check=True, capture_output=True, text=True
    ).stdout
    return tuple(phone for phone in printed.split() if phone != "pau")


def _times(
    words: tuple[str, ...], phones: list[tuple[str, float, float]], voice: str
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Lay the phones of the words against the spoken ones (edit distance; vowels may be reduced)."""
    spoken = [phone for phone in phones if phone[0] != "pau"]
    wanted = [(phone, at) for at, word in enumerate(words) for phone in _phones(word.lower(), voice)]
    rows, columns = len(wanted), len(spoken)
    cost = np.zeros((rows + 1, columns + 1))
    cost[:, 0], cost[0, :] = np.arange(rows + 1), np.arange(columns + 1)
    for i in range(1, rows + 1):
        for j in range(1, columns + 1):
            differs = 0.0 if wanted[i - 1][0] == spoken[j - 1][0] else 0.9
            cost[i, j] = min(cost[i - 1, j - 1] + differs, cost[i - 1, j] + 1, cost[i, j - 1] + 1)
    onsets, ends = [float("nan")] * len(words), [float("nan")] * len(words)
    i, j = rows, columns
    while i > 0 and j > 0:
        differs = 0.0 if wanted[i - 1][0] == spoken[j - 1][0] else 0.9
        if cost[i, j] == cost[i - 1, j - 1] + differs:
            i, j = i - 1, j - 1
            word = wanted[i][1]
            onsets[word] = spoken[j][1]
            # From the last phone to the first: the first that is met is the word's last.
            ends[word] = ends[word] if ends[word] == ends[word] else spoken[j][2]
        elif cost[i, j] == cost[i - 1, j] + 1:
            i -= 1
        else:
            j -= 1
    return tuple(onsets), tuple(ends)
