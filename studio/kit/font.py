"""The pages' font, inside the page: letters as a child learns to write them (single-storey a and g)."""

from __future__ import annotations

import base64
import io
from functools import cache

# Basic Latin, Latin-1 and the signs that our own words use; other letters come from the reader's fonts.
_LETTERS = [*range(0x20, 0x7F), *range(0xA0, 0x100), 0x2013, 0x2014, 0x2018, 0x2019, 0x201C, 0x201D, 0x2026, 0x2212]


@cache
def font_face() -> str:
    """A CSS rule that brings the font as "Lesson" (WOFF, as a data URL)."""
    import fontpkg
    from fontTools import subset
    from fontTools.ttLib import TTFont

    font = TTFont(str(fontpkg.path("ABeeZee", nearest=True)))
    options = subset.Options(hinting=False, layout_features=["kern", "liga"], notdef_outline=True)
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=_LETTERS)
    cutter.subset(font)
    font.flavor = "woff"
    buffer = io.BytesIO()
    font.save(buffer)
    data = base64.b64encode(buffer.getvalue()).decode()
    return f'@font-face {{ font-family: "Lesson"; src: url("data:font/woff;base64,{data}") format("woff"); }}'
