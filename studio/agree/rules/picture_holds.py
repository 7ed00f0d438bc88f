"""A bond, bar or number sentence on the screen that is not true by itself."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Appearance, Case
from studio.findings import Finding

NAME = "picture is true"


def find(case: Case) -> Iterator[Finding]:
    for appearance in case.pictures:
        if getattr(appearance.picture, "holds", None) is not False:
            continue
        if appearance.before is not None and getattr(appearance.before, "holds", None) is False:
            continue
        if _denied(case, appearance):
            continue
        direction = appearance.moment.direction
        yield Finding(NAME, "error", direction.place.line, direction.place.column, "", direction.text,
                      f"{appearance.picture.description()}. That is not true.",
                      "Change one of its numbers so that it is true.")  # fmt: skip


def _denied(case: Case, appearance: Appearance) -> bool:
    """Whether the same is asked about, or said not to be true, in its segment ("Is four plus one equal to five plus
    two? No!")."""
    segment = appearance.moment.direction.segment
    return any(
        statement.values == appearance.picture.numbers
        and (statement.expected is False or statement.kind == "unequal" or statement.holds is None)
        for statement in case.talk.statements
        if case.talk.words[statement.start].segment == segment
    )
