"""A number in the title of a segment fits what is said and shown in it. What was to be expected was learned from right
lessons (`studio/agree/expect/titled`). Where it is only likely that it does not fit, the finding is a note."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.expect.network import network
from studio.agree.expect.titled.families import FAMILIES
from studio.agree.expect.titled.suspects import suspects
from studio.agree.rules.unexpected import instead
from studio.findings import Finding
from studio.pictures.kinds.cards import Cards

NAME = "title fits its segment"
DOUBTS = True
CERTAIN = 6.5
"""The surprise, in nats, from which a finding is an error; from `titled.suspects.LIKELY` on it is a note."""


def find(case: Case) -> Iterator[Finding]:
    if case.lesson is None:
        return
    for suspect in suspects(case, network("titled")):
        place, surprise = suspect.place, suspect.expectation.surprise
        if any(
            isinstance(seen.picture, Cards) and len(seen.picture.faces) == place.value
            for seen in case.pictures_of(place.segment)
        ):
            continue  # "Six cards on the rug"
        segment = place.book.segments[place.segment]
        line = segment.place.line
        yield Finding(
            NAME,
            "error" if surprise > CERTAIN else "note",
            line,
            segment.place.column,
            segment.title,
            "",
            f"The title on line {line} says {place.value}, and that does not fit what is said and shown in this segment.",
            instead(suspect.expectation, FAMILIES),
        )
