"""Doubles and dice: two dice up to six, two rows of beads up to ten."""

from __future__ import annotations

from collections.abc import Iterator

from studio.suggest.facts import fact_of
from studio.suggest.ideas import Idea, Part
from studio.talk.model import Statement

_DICE = frozenset("dice die".split())
_REACH = 5  # sentences


def propose(part: Part) -> Iterator[Idea]:
    """Two equal rows for every double; dice for what is said of dice."""
    for statement in part.statements:
        values = statement.values
        if statement.kind == "double" and statement.holds is True and len(values) == 2 and 1 <= values[0] <= 10:
            yield _idea(part, statement, (values[0], values[0]), 1)
        elif part.heard & _DICE and statement.kind in ("sum", "partners") and statement.holds is True:
            fact = fact_of(statement)
            if fact is None or fact.takes or len(fact.parts) > 3 or not all(1 <= p <= 6 for p in fact.parts):
                continue
            if part.around(statement.start, _REACH) & _DICE:
                yield _idea(part, statement, fact.parts, _REACH)


def _told(part: Part, statement: Statement, parts: tuple[int, ...], reach: int) -> int | None:
    """The sentence before the statement in which the last of the parts is told."""
    index = part.sentence_index(statement.start)
    left = list(parts)
    found = None
    for number in part.numbers_in(part.sentences[max(0, index - reach)].start, part.sentences[index].start):
        if number.value in left:
            left.remove(number.value)
            found = number.start
        elif number.value not in parts:
            left, found = list(parts), None
    return part.sentence_of(found).start if found is not None and not left else None


def _idea(part: Part, statement: Statement, parts: tuple[int, ...], reach: int) -> Idea:
    kind = "dice" if max(parts) <= 6 else "rekenrek"
    topic = frozenset((*parts, sum(parts)))
    start = _told(part, statement, parts, reach) or part.begin(statement)
    return Idea(start, kind, " and ".join(map(str, parts)), (), part.sentence_of(statement.end - 1).end, topic,
                "two alike" if len(set(parts)) == 1 else "dice are rolled", 1)  # fmt: skip
