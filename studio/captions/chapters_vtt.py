"""Chapters as a WebVTT track (HTML, `kind="chapters"`): the title is the cue's text; cues do not overlap."""

from __future__ import annotations

from collections.abc import Iterable

from studio.captions.chapters import Chapter
from studio.captions.text import clock, escape_cue


def write_chapters_vtt(chapters: Iterable[Chapter]) -> str:
    """The WebVTT file."""
    cues = [f"\n{clock(c.start)} --> {clock(c.end)}\n{escape_cue(c.title)}" for c in chapters]
    return "\n".join(["WEBVTT", *cues]) + "\n"
