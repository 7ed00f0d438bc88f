"""A bond, bar or number sentence on the screen that is not true by itself."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.denials import denied
from studio.findings import Finding

NAME = "picture is true"


def find(case: Case) -> Iterator[Finding]:
    for appearance in case.pictures:
        if getattr(appearance.picture, "holds", None) is not False:
            continue
        if appearance.before is not None and getattr(appearance.before, "holds", None) is False:
            continue
        if denied(case, appearance.picture.numbers, appearance.moment.word):
            continue
        direction = appearance.moment.direction
        yield Finding(NAME, "error", direction.place.line, direction.place.column, "", direction.text,
                      f"{appearance.picture.description()}. That is not true.",
                      "Change one of its numbers so that it is true.")  # fmt: skip
