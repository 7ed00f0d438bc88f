"""A question whose answer is never said: only a note, for it may be meant."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.findings import Finding

NAME = "question is answered"


def find(case: Case) -> Iterator[Finding]:
    for statement in case.talk.statements:
        if statement.kind == "question" and statement.expected is not None and statement.answered is None:
            yield Finding(NAME, "note", statement.line, statement.column, statement.said, "",
                          f"“{statement.said}” is asked, and {statement.expected} is not said after it.",
                          f"Say {statement.expected} after a pause, or leave it for the children to find.")  # fmt: skip
