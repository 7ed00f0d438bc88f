"""Descriptions as a WebVTT track (HTML, `kind="descriptions"`)."""

from __future__ import annotations

from collections.abc import Iterable

from studio.captions.descriptions import Description
from studio.captions.text import clock, escape_cue


def write_descriptions_vtt(descriptions: Iterable[Description]) -> str:
    """The WebVTT file."""
    cues = [f"\n{clock(d.start)} --> {clock(d.end)}\n{escape_cue(d.text)}" for d in descriptions]
    return "\n".join(["WEBVTT", *cues]) + "\n"
