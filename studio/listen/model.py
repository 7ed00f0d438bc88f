"""The values of listening. All times are seconds from the start of the recording (takes joined in order)."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any, Literal

Verdict = Literal["as-written", "unsure", "different", "extra", "skipped"]


@dataclass(frozen=True, slots=True)
class HeardWord:
    """One word as the recogniser heard it; `confidence` from 0 to 1."""

    text: str
    start: float
    end: float
    confidence: float = 1.0


@dataclass(frozen=True, slots=True)
class Heard:
    """All that was heard in a recording, before any script is looked at. In each stretch of `unclear` (start, end)
    someone speaks and no word could be made out."""

    words: tuple[HeardWord, ...]
    duration: float
    model: str
    unclear: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class SaidWord:
    """A word of the recording laid against the script.

    `word` is the index of the script's word (None: extra). `text` is the script's word where it was said as written,
    else the word heard ("" where it was skipped). A skipped word has the time at which it would have been said.
    """

    word: int | None
    text: str
    start: float
    end: float
    verdict: Verdict
    heard: str
    line: int | None = None


@dataclass(frozen=True, slots=True)
class Retake:
    """A place to record again, or to listen to, with the reason in a plain sentence."""

    start: float
    end: float
    line: int | None
    script: str
    heard: str
    reason: str

    def as_json(self) -> dict[str, Any]:
        """The value in the JSON of `listen` and `build` and in `report.json`."""
        return asdict(self)


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """A stretch of the recording in which words of the script are said, from `word` on, that do not come there."""

    start: float
    end: float
    word: int


@dataclass(frozen=True, slots=True)
class Take:
    """A recording laid against a lesson. `said` is in order of time and holds each word of the script exactly once
    (the occurrence that counts) besides the extras; `matched` is the share of the script's words found, 0 to 1. In the
    stretches of `moved` words of the script are said that stand elsewhere in it."""

    said: tuple[SaidWord, ...]
    retakes: tuple[Retake, ...]
    duration: float
    matched: float
    moved: tuple[Elsewhere, ...] = ()
