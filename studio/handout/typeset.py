"""Setting a page with typst: the only place that calls it. What a person wrote goes in as data, never as markup."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, Literal

FONTS = ("ABeeZee", "Libertinus Serif", "DejaVu Sans Mono")
"""The families to set in: the child's own first, then those that typst brings for letters it lacks."""


def typeset(template: Path, values: Mapping[str, Any], form: Literal["pdf", "png"] = "pdf") -> bytes:
    """The page as the bytes of a PDF (PDF/UA-1, which screen readers can follow) or of a PNG of one pixel a point.

    The same values give the same bytes. Only letters that our fonts lack are looked for in the computer's fonts; where
    those lack them too, the page is set without them and is no PDF/UA.
    """
    import fontpkg
    import typst

    folder = Path(fontpkg.path("ABeeZee", nearest=True)).parent
    data = json.dumps({**values, "fonts": FONTS})
    attempts = list(_attempts(data, form))
    for last, (own_fonts, standard) in enumerate(attempts, 1 - len(attempts)):
        try:
            return bytes(
                typst.compile(
                    template, format=form, ppi=72.0, font_paths=[folder], ignore_system_fonts=own_fonts,
                    sys_inputs={"data": data}, timestamp=0, pdf_standards=standard,
                )
            )  # fmt: skip
        except typst.TypstError:
            if last == 0:
                raise
    raise AssertionError("there is always an attempt")


def _attempts(data: str, form: str) -> Iterator[tuple[bool, Literal["ua-1"] | None]]:
    """Whether only our own fonts are used, and the standard to keep, from the best on."""
    if form == "png":
        yield not any(_is_rare(letter) for letter in json.loads(data)["title"]), None
        return
    yield True, "ua-1"
    yield False, "ua-1"
    yield False, None


def _is_rare(letter: str) -> bool:
    """Whether a letter may be missing from our own fonts."""
    return ord(letter) > 0x24F and not 0x2000 <= ord(letter) < 0x2070
