"""What a film is made with, besides the lesson, its cue sheet and the theme."""

from __future__ import annotations

import math
from dataclasses import asdict, dataclass
from typing import Any

from studio.errors import UnusableInput

FRAME_RATES = (24, 25, 30, 50, 60)


@dataclass(frozen=True, slots=True)
class FilmSettings:
    """`width` and `height` in pixels (even), `fps` constant frames a second.

    `quality` and `still_quality` are the encoder's constant rate factor for moving and for still pictures (smaller is
    better). `loudness` is the integrated loudness in LUFS (ITU-R BS.1770), `true_peak` the highest level in dBTP.
    `panel` is the shape of her picture beside the pictures: "crop" fills a tall panel with the middle of it, "whole"
    shows all of it. `workers` is how many spans are encoded at once (0: one for each core), `motion` how long a picture
    moves before it stands, in seconds; it lands on the frame in which its word starts.
    """

    width: int = 1920
    height: int = 1080
    fps: int = 30
    quality: int = 21
    still_quality: int = 16
    preset: str = "veryfast"
    loudness: float = -16.0
    true_peak: float = -1.0
    panel: str = "crop"
    workers: int = 0
    motion: float = 0.2

    def __post_init__(self) -> None:
        if self.fps not in FRAME_RATES:
            rates = ", ".join(map(str, FRAME_RATES[:-1]))
            raise UnusableInput(f"A film has {rates} or {FRAME_RATES[-1]} frames a second, not {self.fps}.")
        if self.width % 2 or self.height % 2 or self.width < 320 or self.height < 180:
            raise UnusableInput(
                f"A film's width and height are even and at least 320 x 180, not {self.width} x {self.height}."
            )
        if self.panel not in ("crop", "whole"):
            raise UnusableInput(f"The panel setting is 'crop' or 'whole', not '{self.panel}'.")

    @property
    def unit(self) -> float:
        """The film's own unit in pixels: one pixel for a screen of 1920 × 1080, others by their area."""
        return math.sqrt(self.width * self.height / (1920 * 1080))

    def picture_key(self) -> dict[str, Any]:
        """Everything here that changes pixels."""
        values = asdict(self)
        for sound_or_machine in ("loudness", "true_peak", "workers"):
            del values[sound_or_machine]
        return values
