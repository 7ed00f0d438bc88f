"""Doubles: two dice up to six, two rows of beads up to ten."""

from __future__ import annotations

from collections.abc import Iterator

from studio.suggest.ideas import Idea, Part


def propose(part: Part) -> Iterator[Idea]:
    """Two equal rows for every double."""
    for statement in part.statements:
        values = statement.values
        if statement.kind != "double" or statement.holds is not True or len(values) != 2 or not 1 <= values[0] <= 10:
            continue
        kind = "dice" if values[0] <= 6 else "rekenrek"
        start = part.earliest(statement.start, values[0], frozenset(values), 1)
        if part.begin(statement) == statement.start and start == part.sentence_of(statement.start).start:
            start = statement.start
        yield Idea(start, kind, f"{values[0]} and {values[0]}", (),
                   part.sentence_of(statement.end - 1).end, frozenset(values), f"{values[0]} is doubled", 1)  # fmt: skip
