"""Widths: no font that is shipped sets words wider than they are said to be."""

from __future__ import annotations

import pytest

from studio.pictures.metrics import cannot_write, text_width
from studio.pictures.themes import load_theme

LETTERS = "".join(letter for code in (*range(0x20, 0x7F), *range(0xA1, 0x180), *range(0x2010, 0x2040), 0x20AC, 0x2212)
                  if not cannot_write(letter := chr(code)))  # fmt: skip


@pytest.mark.parametrize("face", ["text", "numeral", "writing"])
def test_every_letter_that_can_be_written_is_in_the_font_and_no_wider_than_said(face: str) -> None:
    """As fontTools reads the font files."""
    from fontTools.ttLib import TTFont

    font = TTFont(load_theme().font(face))  # type: ignore[arg-type]
    names, advances, units = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
    assert {"é", "ß", "…", "−"} < set(LETTERS)
    for letter in LETTERS:
        assert ord(letter) in names, letter
        assert advances[names[ord(letter)]][0] / units <= text_width(letter, 1.0) + 1e-9, letter


def test_what_no_font_has_is_named() -> None:
    assert cannot_write("3 frogs") == ""
    assert cannot_write("3 蛙蛙") == "蛙"
