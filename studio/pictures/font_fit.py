"""Whether a font fits into pictures that are laid out by `metrics` without opening it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from string import ascii_letters, ascii_lowercase, ascii_uppercase, digits, punctuation

from studio.pictures.metrics import text_width
from studio.script.numberwords import to_words

NEEDED = digits + ascii_letters + punctuation + "".join(map(chr, range(0xC0, 0x100))) + "−–…‘’“”"
"""The letters without which a font would leave holes in ordinary words."""
SAMPLES = (*digits, *map(to_words, range(121)), "one hundred and seventeen", ascii_lowercase, ascii_uppercase)
"""What is measured: numerals each for itself, since they fill squares and marks, and words whole."""


@lru_cache(maxsize=16)
def misfit(path: str) -> str:
    """Why words set in the font file would be cut off or have holes, in a plain sentence; "" where it fits."""
    from fontTools.ttLib import TTFont

    name = Path(path).name
    try:
        with TTFont(path, fontNumber=0, lazy=True) as font:
            glyphs, advances, units = font.getBestCmap() or {}, font["hmtx"].metrics, font["head"].unitsPerEm
        absent = next((letter for letter in NEEDED if ord(letter) not in glyphs), "")
        if absent:
            return f"the font {name} has no '{absent}', so pictures would leave it out; use a font that has it."
        times = {text: _times(text, glyphs, advances, units) for text in SAMPLES}
    except Exception:  # a damaged file fails anywhere in a foreign reader, in any way
        return f"the font {name} cannot be read: it is damaged, locked or no font; use another."
    worst = max(times, key=times.__getitem__)
    if times[worst] > 1 + 1e-6:
        return (
            f"the font {name} is too wide for the pictures and would be cut off: '{worst}' takes {times[worst]:.2f} times "
            "the room that it has; use a narrower font, such as ABeeZee or Lexend."
        )
    return ""


def _times(text: str, glyphs: Mapping[int, str], advances: Mapping[str, tuple[int, int]], units: int) -> float:
    """How many times the room that a text has it takes in a font."""
    set_width = sum(advances[glyphs.get(ord(letter), ".notdef")][0] for letter in text) / units
    return set_width / text_width(text, 1.0)
