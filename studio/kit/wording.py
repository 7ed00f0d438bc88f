"""Small things that the pages and the paper say alike."""

from __future__ import annotations

from studio.captions.text import tidy
from studio.script.model import Header

_GRADES = {"K": "Kindergarten", "1": "Grade 1", "2": "Grade 2"}


def heading_above(header: Header) -> str:
    """The small line above the title: "Pond mornings · Lesson 12 · Grade 1"."""
    parts = [tidy(header.series)]
    parts.append(f"Lesson {header.number}" if header.number is not None else "")
    parts.append(_GRADES.get(header.grade or "", ""))
    return " · ".join(part for part in parts if part)


def spoken_length(seconds: float) -> str:
    """A length of time to read: "2 min 5 s"."""
    minutes, rest = divmod(int(seconds + 0.05), 60)
    return f"{minutes} min {rest} s" if minutes else f"{rest} s"
