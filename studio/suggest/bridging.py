"""Making a ten first: "8 + 6. Eight and two make ten. Ten and four make fourteen." in a double ten frame.

The way over the ten is a strategy of CCSSM 1.OA.C.6 (8 + 6 = 8 + 2 + 4 = 10 + 4 = 14).
"""

from __future__ import annotations

from collections.abc import Iterator

from studio.suggest.facts import Fact, fact_of
from studio.suggest.ideas import Change, Idea, Part
from studio.suggest.kinds import dots, mark_words
from studio.talk.model import Statement

_REACH = 60  # words
_NEAR = 40  # words


def propose(part: Part) -> Iterator[Idea]:
    """A frame that is filled to ten and goes on, for each time a ten is made and then added to."""
    made: tuple[Statement, Fact] | None = None
    for statement in part.statements:
        fact = fact_of(statement)
        if fact is None or fact.takes or len(fact.parts) != 2 or statement.kind == "question":
            continue
        if fact.whole == 10 and 5 <= fact.parts[0] <= 9 and statement.kind in ("sum", "unknown part"):
            made = statement, fact
            continue
        if made is None or not 10 < fact.whole <= 19 or 10 not in fact.parts:
            continue
        if statement.start - made[0].end <= _REACH:
            idea = _idea(part, *made, statement, fact.whole - 10)
            if idea is not None:
                yield idea
        made = None


def _idea(part: Part, made: Statement, fact: Fact, over: Statement, rest: int) -> Idea | None:
    there, fills = fact.parts[0], 10 - fact.parts[0]
    first = [n for n in part.numbers_in(made.start, made.end) if n.value == fills]
    last = [n for n in part.numbers_in(over.start, over.end) if n.value == rest]
    if not first or not last:
        return None
    number = first[-1] if there == fills else first[0]
    since = max((story.end for story in part.stories if story.end <= made.start), default=part.start)
    filling = _count(part, max(since, made.start - _NEAR), made.start, there, 10)
    going_on = _count(part, made.end, over.start, 10, 10 + rest)
    begun = made.start if filling is None else filling.start
    start = part.earliest(begun, there, frozenset({there, fills, rest, fills + rest, 10, 10 + rest}), 5, since)
    if start == part.sentence_of(begun).start:
        start = part.begin(made if filling is None else filling)
    changes = (
        _adding(fills, number.start) if filling is None else _adding(fills, filling.start, filling.end),
        _adding(rest, last[-1].start) if going_on is None else _adding(rest, going_on.start, going_on.end),
    )
    until = part.sentence_of(over.end - 1).end
    return Idea(start, "double ten frame", dots(there), changes, until,
                frozenset({there, fills + rest, 10, fills, rest, 10 + rest}), "a ten is made first", 3)  # fmt: skip


def _count(part: Part, start: int, end: int, first: int, last: int) -> Statement | None:
    """A count from one number, or the next, to another."""
    return next(
        (
            s
            for s in part.statements_in(start, end)
            if s.kind == "count on" and s.values[0] in (first, first + 1) and s.values[-1] == last
        ),
        None,
    )


def _adding(number: int, word: int, until: int = -1) -> Change:
    return Change(word, f"add {mark_words(number, 'crosses')}{', counting' if until > word else ''}", until)
