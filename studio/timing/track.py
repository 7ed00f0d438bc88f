"""A track: when each word is spoken, in the time of its source (a recording, or speech at the lesson's pace)."""

from __future__ import annotations

from dataclasses import dataclass

from studio.timing.cuesheet import SpokenWord


@dataclass(frozen=True)
class Track:
    """`words` holds (start, end) in seconds for every word of the script, those skipped too; starts never go back.
    `spoken` is what was really said, in order. `duration` is the length of the source."""

    words: tuple[tuple[float, float], ...]
    spoken: tuple[SpokenWord, ...]
    duration: float
    recorded: bool
