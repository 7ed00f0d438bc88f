"""Chapters as lines to paste: `0:00 Title`."""

from __future__ import annotations

from collections.abc import Iterable

from studio.captions.chapters import Chapter
from studio.captions.text import short_clock


def write_chapters_txt(chapters: Iterable[Chapter]) -> str:
    """One line a chapter, the first at 0:00."""
    return "".join(f"{short_clock(chapter.start)} {chapter.title}\n" for chapter in chapters)
