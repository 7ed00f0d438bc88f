"""The pages' font, inside the page: letters as a child learns to write them (single-storey a and g)."""

from __future__ import annotations

import base64
import io
from contextlib import suppress
from functools import cache
from pathlib import Path

from studio.store import Store, content_key, file_key

# Basic Latin, Latin-1 and the signs that our own words use; other letters come from the reader's fonts.
_LETTERS = [*range(0x20, 0x7F), *range(0xA0, 0x100), 0x2013, 0x2014, 0x2018, 0x2019, 0x201C, 0x201D, 0x2026, 0x2212]
_SUFFIX = ".woff"


@cache
def font_face() -> str:
    """A CSS rule that brings the font as "Lesson" (WOFF, as a data URL)."""
    import fontpkg

    path = Path(str(fontpkg.path("ABeeZee", nearest=True)))
    key, store = content_key("the pages' font", file_key(path), _LETTERS), Store()
    kept = store.get(key, _SUFFIX)
    woff = kept.read_bytes() if kept is not None else _cut(path)
    if kept is None:
        with suppress(OSError):  # it is only made again then
            store.put_bytes(key, _SUFFIX, woff)
    data = base64.b64encode(woff).decode()
    return f'@font-face {{ font-family: "Lesson"; src: url("data:font/woff;base64,{data}") format("woff"); }}'


def _cut(path: Path) -> bytes:
    """The font with no other letters than those of the pages."""
    from fontTools import subset
    from fontTools.ttLib import TTFont

    font = TTFont(str(path))
    cutter = subset.Subsetter(subset.Options(hinting=False, layout_features=["kern", "liga"], notdef_outline=True))
    cutter.populate(unicodes=_LETTERS)
    cutter.subset(font)
    font.flavor = "woff"
    buffer = io.BytesIO()
    font.save(buffer)
    return buffer.getvalue()
