"""One less and one more: the number with its neighbours, each ? until it is said."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from studio.suggest.ideas import Change, Idea, Part
from studio.talk.model import Statement

_REACH = 60  # words
_LARGEST = 119


@dataclass(slots=True)
class _Base:
    value: int
    start: int
    end: int
    found: dict[int, int] = field(default_factory=dict)


def propose(part: Part) -> Iterator[Idea]:
    """One picture for all that is said within some sentences about one more and one less than a number."""
    on: _Base | None = None
    for statement in part.statements:
        told = _told(part, statement)
        if told is None:
            continue
        base, neighbour = told
        if on is None or on.value != base or statement.start - on.end > _REACH:
            if on is not None:
                yield _idea(on)
            on = _Base(base, part.begin(statement), statement.end)
        on.end = max(on.end, part.sentence_of(statement.end - 1).end)
        if neighbour not in on.found:
            word = _word(part, statement, neighbour)
            if word is not None:
                on.found[neighbour] = word
                on.end = max(on.end, word + 1)
    if on is not None:
        yield _idea(on)


def _told(part: Part, statement: Statement) -> tuple[int, int] | None:
    """The number and its neighbour."""
    values = statement.values
    if statement.kind in ("one more", "one less") and statement.holds is True and len(values) == 3:
        return (values[1], values[2]) if 1 <= values[1] <= _LARGEST else None
    if statement.kind != "question" or len(values) != 2 or values[0] != 1 or not 1 <= values[1] <= _LARGEST:
        return None
    words = part.plain(statement.start, statement.end)
    asks = words & {"more", "less"} and "than" in words
    expected = statement.expected
    if not asks or not isinstance(expected, int) or abs(expected - values[1]) != 1:
        return None
    return values[1], expected


def _word(part: Part, statement: Statement, neighbour: int) -> int | None:
    """Where the neighbour is said: in the statement, or behind the question."""
    if statement.kind != "question":
        said = [n for n in part.numbers_in(statement.start, statement.end) if n.value == neighbour]
        return said[-1].start if said else statement.start
    behind = part.said(statement.end, min(statement.end + _REACH, part.end), neighbour)
    return None if behind is None else behind.start


def _idea(base: _Base) -> Idea:
    changes = tuple(
        Change(word, f"fill in {value}") for value, word in sorted(base.found.items(), key=lambda item: item[1])
    )
    return Idea(base.start, "more and less", str(base.value), changes, base.end, frozenset({base.value}),
                f"one less and one more than {base.value}", 2)  # fmt: skip
