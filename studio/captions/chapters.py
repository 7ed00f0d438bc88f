"""Chapters: every segment is one, by the title she wrote."""

from __future__ import annotations

from dataclasses import dataclass

from studio.captions.text import tidy
from studio.timing.cuesheet import CueSheet


@dataclass(frozen=True, slots=True)
class Chapter:
    """A stretch of the film; chapters follow each other without a gap."""

    title: str
    start: float
    end: float


def make_chapters(sheet: CueSheet) -> tuple[Chapter, ...]:
    """The chapters of the film; the first starts at 0. A segment that takes no time is none."""
    begins = [0.0, *(round(segment.start, 3) for segment in sheet.segments[1:])]
    ends = [*begins[1:], round(sheet.duration, 3)]
    return tuple(
        Chapter(tidy(segment.title) or f"Part {number}", start, end)
        for number, (segment, start, end) in enumerate(zip(sheet.segments, begins, ends, strict=False), 1)
        if end - start >= 0.001
    )
