"""The page of what was found: each picture drawn once, with its direction to use again and the places where it is."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from studio.errors import UnusableInput
from studio.pictures.base import CannotShow
from studio.series.index import Hit
from studio.series.pages import render, script_link

PAGE = "found.html"
_MOST_PLACES = 8  # that are listed under a picture
_MOST_SAID = 400


def found_page(query: str, hits: Iterable[Hit], sums: Iterable[str]) -> str:
    """The page as HTML. `sums` say how often it was found, and what was not searched."""
    pictures: dict[str, list[Hit]] = {}
    said = []
    for hit in hits:
        if hit.kind == "shown":
            pictures.setdefault(_unnamed(hit.direction), []).append(hit)
        else:
            said.append({**_place(hit), "words": hit.text})
    return render(
        "found.html",
        title=f"“{query}”",
        sums=tuple(sums),
        pictures=[
            {"svg": _drawn(direction), "direction": direction, "places": [_place(hit) for hit in places[:_MOST_PLACES]],
             "more": max(0, len(places) - _MOST_PLACES)}
            for direction, places in pictures.items()
        ],
        said=said[:_MOST_SAID],
    )  # fmt: skip


def _place(hit: Hit) -> dict[str, Any]:
    lesson = f"Lesson {hit.number}" if hit.number is not None else hit.title
    return {"text": f"{lesson}, {hit.segment}, line {hit.line}", "script": script_link(hit.file)}


def _unnamed(direction: str) -> str:
    """The direction without the name that the picture has in that lesson."""
    start, found, _ = direction.rpartition(" as ")
    return f"{start}]" if found else direction


def _drawn(direction: str) -> Any:
    """The picture as it comes on, as SVG; "" where it cannot be drawn by itself."""
    from markupsafe import Markup

    from studio.pictures.kinds import make
    from studio.pictures.painters.svg import svg
    from studio.script.reader import read_picture

    try:
        kind, details, _ = read_picture(direction.strip("[]").split(maxsplit=1)[1])
        picture = make(kind, details)
    except (UnusableInput, CannotShow, IndexError):
        return ""
    # Our own drawing, whose words the painter has escaped.
    return Markup(svg(picture.drawing(), description=picture.description(), ground=True))
