"""Counts: frames and dots that fill as she counts, tallies by fives, tens and ones, hops on a path."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from studio.suggest.ideas import Change, Idea, Part
from studio.talk.model import Statement

_PATH = frozenset("path hop hops hopping hopped jump jumps jumping line".split())
_DRAWN = frozenset("dots draw drawing drew dot circles".split())
_FRAME = frozenset("frame frames box boxes".split())
_TALLIES = frozenset("tally tallies fives".split())
_LONGEST_HOP = 20


def marks_kind(total: int, cue: frozenset[str]) -> str | None:
    """The picture of dots that has room for a total."""
    if total > 50:
        return None
    if cue & _DRAWN and not cue & _FRAME:
        return "dots"
    return "ten frame" if total <= 10 else "double ten frame" if total <= 20 else "dots"


def dots(number: int) -> str:
    """Details with so many dots."""
    return "empty" if not number else f"{number} dot{'s' if number != 1 else ''}"


def mark_words(number: int, mark: str) -> str:
    """ "3 crosses", "1 dot"."""
    one = {"crosses": "cross", "dots": "dot"}[mark]
    return f"{number} {one if number == 1 else mark}"


def propose(part: Part) -> Iterator[Idea]:
    """A picture for every count that is even."""
    since = part.sentences[0].start if part.sentences else 0
    for statement in part.statements:
        if not statement.kind.startswith("count") or statement.holds is False:
            continue
        idea = for_count(part, statement, since)
        if idea is not None:
            yield idea
        since = statement.end


def cue_of(part: Part, statement: Statement) -> frozenset[str]:
    """The words around a count that say what is counted on."""
    first = part.sentences[max(0, part.sentence_index(statement.start) - 2)]
    last = part.sentences[min(part.sentence_index(statement.end - 1) + 1, len(part.sentences) - 1)]
    return part.plain(first.start, last.end)


def for_count(part: Part, statement: Statement, since: int, marks: str = "crosses") -> Idea | None:
    """The picture for one count; None where there is none that fits."""
    values = statement.values
    first, last = values[0], values[-1]
    cue = cue_of(part, statement)
    steps = {b - a for a, b in pairwise(values)}
    topic = frozenset({first, last, abs(last - first)})
    until = part.sentence_of(statement.end - 1).end

    def idea(kind: str, details: str, change: str, reason: str, after: str, back: bool = True) -> Idea:
        word = part.sentence_of(statement.start).start
        if back:
            word = part.earliest(statement.start, first, topic, 3, since)
        return Idea(word, kind, details, (Change(statement.start, change),), until, topic, reason, details, after, 3)

    if first == 5 and (5 in steps or cue & _TALLIES) and _fives(values) and last <= 50:
        return idea("tally", str(last), "count by 5", "you count by fives", f"{last}", back=False)
    if first == 10 and (10 in steps or cue & {"tens", "base"}) and _tens(values) and last <= 120:
        return idea("base ten", str(last), "count", "you count tens and ones", f"{last}", back=False)
    if steps == {2} and first == 2 and last <= 50:
        return idea("dots", str(last), "count by 2", "you count by twos", f"{last}", back=False)
    if steps not in ({1}, {-1}):
        return None
    low, high = min(values), max(values)
    if cue & _PATH or high > 50:
        if high - low > _LONGEST_HOP or high > 120:
            return None
        if high <= 20:
            span = (0, 10 if high <= 10 else 20)
            kind = "number path" if "line" not in cue else "number line"
        else:
            span = (low - low % 10, high + -high % 10)
            kind = "number line"
        return idea(kind, f"{span[0]} to {span[1]}, mark {first}", f"hop {first} to {last}, counting",
                    f"you hop from {first} to {last}", f"{last}")  # fmt: skip
    kind_of_marks = marks_kind(high, cue)
    if kind_of_marks is None:
        return None
    if steps == {-1}:
        return idea(kind_of_marks, dots(first), f"take away {first - last}, counting",
                    f"you count back from {first} to {last}", dots(last))  # fmt: skip
    if first <= 1:
        return idea(kind_of_marks, "empty", f"add {mark_words(last, 'dots')}, counting", f"you count to {last}",
                    dots(last), back=False)  # fmt: skip
    more = last - first
    return idea(kind_of_marks, dots(first), f"add {mark_words(more, marks)}, counting",
                f"you count on from {first} to {last}", f"{dots(first)} and {more}")  # fmt: skip


def _fives(values: tuple[int, ...]) -> bool:
    """By fives first and then by ones, as tallies are counted."""
    fives = values[-1] // 5
    return values == (*range(5, 5 * fives + 1, 5), *range(5 * fives + 1, values[-1] + 1))


def _tens(values: tuple[int, ...]) -> bool:
    tens = values[-1] // 10
    return values == (*range(10, 10 * tens + 1, 10), *range(10 * tens + 1, values[-1] + 1))
