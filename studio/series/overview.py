"""The overview page of a series: every lesson with its poster, and the standards they work on."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import quote

from studio.series.building import KITS
from studio.series.lessons import stem_of
from studio.series.pages import render, script_link
from studio.series.status import SeriesStatus

PAGE = "overview.html"


def overview_page(folder: Path, status: SeriesStatus) -> str:
    """The page as HTML; its links are relative to the series folder, so it works from there with no server."""
    cards = []
    for standing in status.lessons:
        if standing.state == "planned":
            continue
        stem = stem_of(Path(standing.file))
        kit = folder / KITS / stem
        cards.append({
            "number": standing.number,
            "title": standing.title,
            "date": standing.date,
            "state": standing.state,
            "why": standing.why,
            "poster": f"{KITS}/{quote(stem)}/poster.png" if (kit / "poster.png").is_file() else "",
            "page": f"{KITS}/{quote(stem)}/index.html" if (kit / "index.html").is_file() else "",
            "script": script_link(standing.file),
        })  # fmt: skip
    planned = [standing for standing in status.lessons if standing.state == "planned"]
    return render(
        "overview.html", title=status.title, cards=cards, planned=planned, standards=status.standards,
        notes=status.notes,
    )  # fmt: skip
