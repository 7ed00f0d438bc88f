"""A count that skips a number, turns round or changes its step."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.denials import one_is_looked_for
from studio.findings import Finding

NAME = "count goes on"


def find(case: Case) -> Iterator[Finding]:
    for statement in case.talk.statements:
        if statement.holds is not False or not statement.kind.startswith("count"):
            continue
        if case.is_excused(statement.start, statement.end) or one_is_looked_for(case, statement):
            continue
        told = f"Line {statement.line} counts" if statement.line else "You count"
        yield Finding(NAME, "error", statement.line, statement.column, statement.said, "",
                      f"{told} “{statement.said}”; that does not go on evenly.",
                      f"Count {statement.written}.")  # fmt: skip
