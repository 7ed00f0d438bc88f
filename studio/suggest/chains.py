"""Longer number sentences: "8 + 6 = 8 + 2 + 4 = 10 + 4 = 14", "5 + 2 = 2 + 5"; the last number is ? until it is said."""

from __future__ import annotations

from collections.abc import Iterator

from studio.suggest.facts import fact_of
from studio.suggest.ideas import Change, Idea, Part
from studio.talk.model import Statement

_KINDS = frozenset({"chain", "equal", "sum", "difference", "parts", "near double"})
_OTHER_SIGNS = frozenset("× ? > < ≠ half , or".split())


def propose(part: Part) -> Iterator[Idea]:
    """A number sentence for every statement with sums on both sides, or with more than two sides."""
    for statement in part.statements:
        told = statement.holds is True or (statement.holds is None and statement.expected is True)
        if statement.kind not in _KINDS or not told or fact_of(statement) is not None:
            continue
        idea = _idea(part, statement)
        if idea is not None:
            yield idea


def _idea(part: Part, statement: Statement) -> Idea | None:
    written = statement.written
    if " = " not in written or set(written.split()) & _OTHER_SIGNS or "," in written or statement.expected is False:
        return None
    if not any(sign in written for sign in (" + ", " - ")):
        return None
    sides = written.split(" = ")
    written = " = ".join(side for at, side in enumerate(sides) if not at or side != sides[at - 1])
    if " = " not in written:
        return None
    start = part.begin(statement)
    said = part.numbers_in(statement.start, statement.end)
    changes: tuple[Change, ...] = ()
    shown = written
    if said and said[-1].start > start and written.endswith(f"= {said[-1].value}"):
        shown = written[: -len(str(said[-1].value))] + "?"
        changes = (Change(said[-1].start, f"fill in {said[-1].value}"),)
    return Idea(start, "number sentence", shown, changes, part.sentence_of(statement.end - 1).end,
                frozenset(statement.values), "both sides are told", 2)  # fmt: skip
