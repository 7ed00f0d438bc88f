"""Captions as WebVTT (W3C)."""

from __future__ import annotations

from collections.abc import Iterable

from studio.captions.model import Caption
from studio.captions.text import clock, escape_cue, tidy


def write_vtt(captions: Iterable[Caption]) -> str:
    """The WebVTT file, with a line end at the end."""
    return "\n".join(["WEBVTT", *(_cue(caption) for caption in captions)]) + "\n"


def _cue(caption: Caption) -> str:
    lines = "\n".join(escape_cue(tidy(line)) for line in caption.lines)
    return f"\n{clock(caption.start)} --> {clock(caption.end)}\n{lines}"
