"""Pictures pile up: from five at once, each becomes small. Told once for each pile."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from studio.agree.case import Case
from studio.agree.wording import spelled
from studio.findings import Finding
from studio.script.model import Direction

NAME = "crowded screen"
MANY = 5


def find(case: Case) -> Iterator[Finding]:
    on: set[str] = set()
    told = False
    for _, moments in groupby(case.stage.moments, key=lambda moment: moment.word):
        fifth: Direction | None = None
        for moment in moments:
            if moment.picture is None:
                on.discard(moment.name)
            else:
                on.add(moment.name)
            if len(on) >= MANY and fifth is None:
                fifth = moment.direction
        if len(on) < MANY:
            told = False
        elif not told and fifth is not None:
            told = True
            yield Finding(
                NAME,
                "note",
                fifth.place.line,
                fifth.place.column,
                "",
                fifth.text,
                f"{spelled(len(on)).capitalize()} pictures are on the screen at once, and each becomes small.",
                "Take away what is done with [hide NAME] or [clear].",
            )
