"""Captions as SubRip.

The format has no standard and no escapes; its readers take `<b>` and `{\\an8}` for markup, `-->` and anything that
looks like a time for times, so these are put into look-alikes that they do not.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from studio.captions.model import Caption
from studio.captions.text import clock, tidy

_TAG = re.compile(r"<(?=[A-Za-z/!?])")
_TIME = re.compile(r"(?<=\d):(?=\d)")


def write_srt(captions: Iterable[Caption]) -> str:
    """The SubRip file; cues are numbered from 1."""
    return "\n".join(_cue(number, caption) for number, caption in enumerate(captions, 1))


def _cue(number: int, caption: Caption) -> str:
    lines = "\n".join(_plain(line) for line in caption.lines)
    return f"{number}\n{clock(caption.start, ',')} --> {clock(caption.end, ',')}\n{lines}\n"


def _plain(line: str) -> str:
    line = tidy(line).replace("-->", "→").replace("\\", "⧵")
    if line.count(":") > 1:
        line = _TIME.sub("∶", line)
    return _TAG.sub("‹", line)
