"""The recogniser: faster-whisper's model with the three things that are asked of it: write down, place in time, weigh.

To be written down, sound is encoded in the model's full thirty seconds: without the silence at the end the model goes
on and says things again. To be weighed, it is encoded at its own length, at a cost in proportion to it.
"""

from __future__ import annotations

import os
import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from studio.errors import UnusableInput
from studio.listen.models import SpeechModel
from studio.listen.recording import RATE

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

FRAMES_A_SECOND = 50
"""Encoder frames a second (Whisper: two mel frames of 10 ms each)."""

LONGEST = 28.0
"""Seconds of sound in one encoding; the model takes 30 and a little silence at the end is needed."""

TAIL = 1.0
"""Seconds of silence after the sound, so that the model hears the end."""


TOGETHER = 6
"""Texts that are weighed in one call: more take 6 MB each and are no faster on a processor."""


@dataclass(frozen=True, slots=True)
class Written:
    """What the model wrote down for one window: tokens, mean log probability a token, and whether it is no speech."""

    tokens: tuple[int, ...]
    text: str
    log_probability: float
    no_speech: float

    @property
    def repeats(self) -> float:
        """How well the text can be compressed; above 2.4 it is a loop (the limit of the Whisper paper)."""
        data = self.text.encode()
        return len(data) / len(zlib.compress(data)) if data else 0.0


@dataclass(frozen=True, slots=True)
class TimedWord:
    """A word with its punctuation and its time in seconds from the start of its window."""

    text: str
    start: float
    end: float
    probability: float


class Ear:
    """A loaded speech model. Raises UnusableInput when it cannot be loaded."""

    def __init__(self, model: SpeechModel, cpu_threads: int = 0) -> None:
        import ctranslate2
        from faster_whisper import WhisperModel
        from faster_whisper.tokenizer import Tokenizer

        cuda = ctranslate2.get_cuda_device_count() > 0
        self.model = model
        try:
            self._whisper = WhisperModel(
                device="cuda" if cuda else "cpu",
                compute_type="float16" if cuda else "int8",
                cpu_threads=cpu_threads or min(4, cores()),
                local_files_only=True,
                **model.arguments(),
            )
        except (RuntimeError, ValueError, OSError) as error:
            raise UnusableInput("the speech model cannot be loaded; install it again.", model.name) from error
        multilingual = self._whisper.model.is_multilingual
        self.multilingual: bool = multilingual
        self._tokens = Tokenizer(
            self._whisper.hf_tokenizer, multilingual, task="transcribe" if multilingual else None, language="en"
        )
        self._on_cuda = cuda

    # --- sound in ----------------------------------------------------------------------------------------------------

    def encode(self, sounds: Sequence[NDArray[np.float32]], whole: bool = True) -> NDArray[np.float32]:
        """One encoding for several sounds of at most `LONGEST` seconds: shape (sounds, frames, width).

        `whole`: in thirty seconds, to be written down; else only `TAIL` longer than the longest sound, to be weighed.
        """
        import ctranslate2
        import numpy as np

        longest = max(len(sound) for sound in sounds)
        length = 30 * RATE if whole else min(30 * RATE, longest + round(TAIL * RATE))
        extract = self._whisper.feature_extractor
        features = np.stack(
            [extract(np.pad(sound, (0, max(0, length - len(sound))))[:length], padding=160)[:, :-1] for sound in sounds]
        )
        features = features[:, :, : features.shape[2] // 2 * 2]
        view = ctranslate2.StorageView.from_array(np.ascontiguousarray(features, dtype=np.float32))
        return np.array(self._whisper.model.encode(view, to_cpu=True), dtype=np.float32)

    # --- words out ---------------------------------------------------------------------------------------------------

    def write_down(self, encoded: NDArray[np.float32], beam: int = 5) -> list[Written]:
        """What was said in each sound, without any prompt and without numerals."""
        prompt = [*self._tokens.sot_sequence, self._tokens.no_timestamps]
        results = self._whisper.model.generate(
            _view(encoded),
            [prompt] * len(encoded),
            beam_size=beam,
            max_length=224 + len(prompt),
            suppress_tokens=self._silenced,
            return_scores=True,
            return_no_speech_prob=True,
        )
        found = []
        for result in results:
            tokens = tuple(token for token in result.sequences_ids[0] if token < self._tokens.eot)
            count = len(result.sequences_ids[0])
            mean = result.scores[0] * count / (count + 1)
            found.append(Written(tokens, self._tokens.decode(list(tokens)), mean, result.no_speech_prob))
        return found

    def place(self, encoded: NDArray[np.float32], text: str, duration: float) -> list[TimedWord]:
        """The words of `text` with their times; `encoded` holds one sound of `duration` seconds.

        The words are placed without their punctuation, which has no sound and draws the words apart.
        """
        written = [word for word in text.split() if _bare(word)]
        if not written:
            return []
        spelled = [self._tokens.encode(" " + _bare(word)) for word in written]
        frames = min(2 * encoded.shape[1], round(duration * 2 * FRAMES_A_SECOND))
        flat = [token for tokens in spelled for token in tokens]
        result = self._whisper.model.align(_view(encoded), self._tokens.sot_sequence, [flat], frames)[0]
        # The frame at which each token begins; the last entry is where the text ends.
        begins: dict[int, int] = {}
        for token, frame in result.alignments:
            begins.setdefault(token, frame)
        last = result.alignments[-1][1] + 1 if result.alignments else 0
        placed = []
        at = 0
        for word, tokens in zip(written, spelled, strict=True):
            start, end = begins.get(at, last), begins.get(at + len(tokens), last)
            sure = result.text_token_probs[at : at + len(tokens)]
            placed.append(
                TimedWord(word, start / FRAMES_A_SECOND, end / FRAMES_A_SECOND, float(sum(sure)) / len(tokens))
            )
            at += len(tokens)
        return placed

    def weigh(self, encoded: NDArray[np.float32], texts: Sequence[str]) -> list[float]:
        """The log probability of each text as what was said in one sound. Only differences between texts mean much."""
        import numpy as np

        tokens = [self._tokens.encode(" " + text.strip()) for text in texts]
        found: list[float] = []
        for at in range(0, len(tokens), TOGETHER):
            some = tokens[at : at + TOGETHER]
            copies = np.repeat(encoded, len(some), axis=0)
            results = self._whisper.model.align(_view(copies), self._tokens.sot_sequence, some, 2 * encoded.shape[1])
            found += [float(np.log(np.maximum(result.text_token_probs, 1e-12)).sum()) for result in results]
        return found

    def language(self, encoded: NDArray[np.float32]) -> tuple[str, float] | None:
        """The language of the first sound as a code ("en") and how sure that is; None with an English-only model."""
        if not self.multilingual:
            return None
        code, share = self._whisper.model.detect_language(_view(encoded))[0][0]
        return code.strip("<|>"), float(share)

    @cached_property
    def _silenced(self) -> list[int]:
        """Tokens that are never written: numerals, so that number words stay words each with its time, and sounds."""
        tokenizer = self._whisper.hf_tokenizer
        numerals = [
            token
            for token in range(self._tokens.eot)
            if any(character.isdigit() for character in tokenizer.decode([token]))
        ]
        special = [
            self._tokens.transcribe,
            self._tokens.translate,
            self._tokens.sot,
            self._tokens.sot_prev,
            self._tokens.sot_lm,
        ]
        return sorted({token for token in (*numerals, *self._tokens.non_speech_tokens, *special) if token is not None})


def cores() -> int:
    """The processor cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _bare(word: str) -> str:
    """The word without the punctuation around it."""
    return word.strip(".,!?;:\"“”‘’'()[]-–—…")


def _view(encoded: NDArray[np.float32]) -> Any:
    import ctranslate2
    import numpy as np

    return ctranslate2.StorageView.from_array(np.ascontiguousarray(encoded))
