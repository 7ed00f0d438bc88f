"""The values of captioning. All times are seconds from the start of the film, in whole milliseconds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from studio.findings import Finding

# How numbers are written: words up to ten and numerals above, always numerals, or as the script (or the ear) has them.
Numerals = Literal["words to ten", "digits", "as said"]

TIME_TO_THINK = "(time to think)"


@dataclass(frozen=True, slots=True)
class CaptionStyle:
    """The limits that captions keep where the speech allows it.

    `line_length` is in characters, `lines` 1 or 2, `shortest` in seconds, `fastest` in words a minute.
    The defaults are those for lower-level educational media of the Described and Captioned Media Program (Captioning
    Key): 32 characters, 2 seconds, 130 words a minute; at most two lines as in the BBC subtitle guidelines.
    """

    numerals: Numerals = "as said"
    line_length: int = 32
    lines: int = 2
    shortest: float = 2.0
    fastest: float = 130.0


@dataclass(frozen=True, slots=True)
class Caption:
    """Lines of text that stand from `start` to `end`. `words` is how many spoken words they hold (0: nobody speaks)."""

    start: float
    end: float
    lines: tuple[str, ...]
    words: int = 0

    @property
    def text(self) -> str:
        """The lines as one."""
        return " ".join(self.lines)

    @property
    def rate(self) -> float:
        """Words a minute that a child has to read."""
        return self.words * 60.0 / (self.end - self.start)


@dataclass(frozen=True, slots=True)
class Captions:
    """All captions of a lesson in order, none overlapping, and a note for each that breaks a limit, with the reason."""

    captions: tuple[Caption, ...]
    notes: tuple[Finding, ...] = ()
