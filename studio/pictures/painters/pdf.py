"""Pictures for paper, as PDF: typst sets the SVG, numerals stay text that can be searched and read out."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import Any

from studio.pictures.painters.svg import svg
from studio.pictures.shapes import Drawing
from studio.pictures.themes import Theme, load_theme

_PAGE = """#set document(title: sys.inputs.title)
#set page(width: {width}pt, height: {height}pt, margin: 0pt, fill: none)
#image(bytes(sys.inputs.svg), format: "svg", width: 100%, alt: sys.inputs.title)
"""


def pdf(drawing: Drawing, theme: Theme | None = None, *, description: str = "", width: float | None = None) -> bytes:
    """The drawing as a PDF of one page of its own size; `width` is in CSS pixels, 96 to the inch (one a unit)."""
    import typst

    theme = theme or load_theme()
    across = (drawing.width if width is None else width) * 0.75
    page = _PAGE.format(width=f"{across:.2f}", height=f"{across * drawing.height / drawing.width:.2f}")
    made = typst.compile(
        page.encode(),
        format="pdf",
        font_paths=_fonts(theme),
        sys_inputs={"title": description or "Picture", "svg": svg(drawing, theme, words=True)},
    )
    assert isinstance(made, bytes)
    return made


@lru_cache(maxsize=8)
def _fonts(theme: Theme) -> Any:
    import typst

    folders = sorted({str(Path(file).parent) for _, file in theme.fonts})
    return typst.Fonts(include_system_fonts=False, font_paths=folders)
