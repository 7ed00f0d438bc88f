"""The cue sheet. All times are seconds from the start of the film; times never go back."""

from __future__ import annotations

from dataclasses import dataclass

from studio.script.model import CameraMode
from studio.stage.model import Moment


@dataclass(frozen=True, slots=True)
class SpokenWord:
    """A word with its time. `word` is the index of the script's word (None: it was said, and is not in the script).
    `text` is what a caption shows: the script's word where it was said as written, else the word heard."""

    word: int | None
    text: str
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Cue:
    """A picture step with its time."""

    time: float
    moment: Moment


@dataclass(frozen=True, slots=True)
class SegmentStart:
    """Where a segment begins. `card` is how long its title card stands, in seconds (0: none)."""

    segment: int
    title: str
    start: float
    card: float


@dataclass(frozen=True, slots=True)
class WaitTime:
    """Silence to think in, with the words that stand on the screen ("" for none)."""

    start: float
    end: float
    words: str


@dataclass(frozen=True, slots=True)
class CameraChange:
    """Where the teacher's picture is from that time on."""

    time: float
    mode: CameraMode


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of the film and where its sound and the teacher's picture come from: `source` is the start in the
    recording, or None where the film holds (a title card, a wait that was lengthened, no recording): then her picture
    stands still and the sound is room tone."""

    start: float
    duration: float
    source: float | None


@dataclass(frozen=True, slots=True)
class CueSheet:
    """When everything happens. `pieces` cover 0 to `duration` without a gap."""

    duration: float
    words: tuple[SpokenWord, ...]
    cues: tuple[Cue, ...]
    segments: tuple[SegmentStart, ...]
    waits: tuple[WaitTime, ...]
    cameras: tuple[CameraChange, ...]
    pieces: tuple[Piece, ...]
    recorded: bool
