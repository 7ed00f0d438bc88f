"""A count that skips a number, turns round or changes its step."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.findings import Finding
from studio.talk.model import Statement

NAME = "count goes on"
_MISSING = frozenset("missing gap skipped skip forgot forgotten hiding hidden dive lost left-out which".split())
_REACH = 4  # sentences


def find(case: Case) -> Iterator[Finding]:
    for statement in case.talk.statements:
        if statement.holds is not False or not statement.kind.startswith("count"):
            continue
        if case.is_excused(statement.start, statement.end) or _one_is_looked_for(case, statement):
            continue
        told = f"Line {statement.line} counts" if statement.line else "You count"
        yield Finding(NAME, "error", statement.line, statement.column, statement.said, "",
                      f"{told} “{statement.said}”; that does not go on evenly.",
                      f"Count {statement.written}.")  # fmt: skip


def _one_is_looked_for(case: Case, statement: Statement) -> bool:
    """Whether the number that is left out is what is asked for ("11, 12, 14, 15. Which number is under the duck?")."""
    index = case.sentence_index(statement.start)
    first, last = case.sentences_around(index, 1, _REACH)
    return case.says(case.sentences[first].start, case.sentences[last].end, _MISSING)
