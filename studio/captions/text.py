"""Text and times as the caption formats need them."""

from __future__ import annotations

import unicodedata

_UNWANTED = ("Cc", "Cs")


def tidy(text: str) -> str:
    """The text on one line: white space runs become one space, control characters and broken surrogates go."""
    spaced = " ".join(text.split())
    return "".join(letter for letter in spaced if letter == " " or unicodedata.category(letter) not in _UNWANTED)


def clock(seconds: float, fraction: str = ".") -> str:
    """`HH:MM:SS.mmm`, the time of WebVTT (W3C); SubRip has a comma for the point."""
    thousandths = max(0, round(seconds * 1000))
    minutes, thousandths = divmod(thousandths, 60_000)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02d}:{minutes:02d}:{thousandths // 1000:02d}{fraction}{thousandths % 1000:03d}"


def short_clock(seconds: float) -> str:
    """`M:SS`, or `H:MM:SS` from an hour on; whole seconds, never later than the moment."""
    whole = int(max(0.0, seconds) + 0.0005)
    minutes, whole = divmod(whole, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{whole:02d}" if hours else f"{minutes}:{whole:02d}"


def escape_cue(text: str) -> str:
    """Text for a WebVTT cue: `&`, `<` and `>` escaped (so that `-->` cannot stand in it either)."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
