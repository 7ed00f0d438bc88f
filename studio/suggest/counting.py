"""Counts: frames and dots that fill as she counts, tallies by fives, tens and ones, hops on a path."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from studio.suggest.ideas import Change, Idea, Part
from studio.talk.model import Statement

_PATH = frozenset("path hop hops hopping hopped jump jumps jumping line leap leaps".split())
_DRAWN = frozenset("dots draw drawing drew dot circles paper".split())
_FRAME = frozenset("frame frames box boxes".split())
_TALLIES = frozenset("tally tallies fives marks bundle bundles".split())
_BEADS = frozenset("bead beads rack rekenrek".split())
_LONGEST_HOP = 20
_REACH = 5  # sentences


def marks_kind(total: int, cue: frozenset[str]) -> str | None:
    """The picture of dots that has room for a total."""
    if total > 50:
        return None
    if cue & _DRAWN and not cue & _FRAME:
        return "dots"
    return "ten frame" if total <= 10 else "double ten frame" if total <= 20 else "dots"


def frame_kind(part: Part, word: int, total: int) -> str | None:
    """The same for what is talked of at a word: a five frame where that is what she calls it."""
    named = part.frame_named(part.sentence_of(word).end)
    if total <= 5 and named == "five":
        return "five frame"
    return marks_kind(total, part.around(word, 3, 1))


def dots(number: int) -> str:
    """Details with so many dots."""
    return "empty" if not number else f"{number} dot{'s' if number != 1 else ''}"


def mark_words(number: int, mark: str) -> str:
    """ "3 crosses", "1 dot"."""
    one = {"crosses": "cross", "dots": "dot"}[mark]
    return f"{number} {one if number == 1 else mark}"


def propose(part: Part) -> Iterator[Idea]:
    """A picture for every count that is even."""
    since = part.start
    for statement in part.statements:
        if not statement.kind.startswith("count"):
            continue
        if statement.holds is not False:
            idea = for_count(part, statement, since)
            if idea is not None:
                yield idea
        since = statement.end


def for_count(part: Part, statement: Statement, since: int) -> Idea | None:
    """The picture for one count; None where there is none that fits."""
    values = statement.values
    first, last = values[0], values[-1]
    near = part.around(statement.start, 1, 0)
    cue = part.around(statement.start, 2) | part.around(statement.end - 1, 0, 1)
    steps = {b - a for a, b in pairwise(values)}
    topic = frozenset({first, last, abs(last - first)})
    until = part.sentence_of(statement.end - 1).end
    start = part.begin(statement)

    def idea(kind: str, details: str, change: str, reason: str, word: int = start) -> Idea:
        changes = (Change(statement.start, change, statement.end),)
        idea = Idea(word, kind, details, changes, until, topic, reason, 3)
        return idea if word == start else replace(idea, instead=replace(idea, word=start))

    if first == 5 and _fives(values) and (5 in steps or near & _TALLIES) and last <= 50:
        return idea("tally", str(last), "count by 5", "you count by fives")
    if first == 10 and _tens(values) and (10 in steps or near & {"tens", "base", "ten", "ones"}) and last <= 120:
        return idea("base ten", str(last), "count", "you count tens and ones")
    if steps == {2} and first == 2 and last <= 50:
        return idea("dots", str(last), "count by 2", "you count by twos")
    if len(steps) == 1 and steps <= {2, 5, 10, -2, -5, -10}:
        return _leaps(part, statement, steps.pop())
    if steps not in ({1}, {-1}):
        return None
    if steps == {1}:
        first = _there(part, statement, since)
        topic = frozenset({first, last, last - first})
    low, high = min(first, last), max(values)
    back = part.earliest(statement.start, first, topic, 5, since)
    if cue & _PATH or high > 50:
        if high - low > _LONGEST_HOP or high > 120:
            return None
        kind, span = row_of_numbers(part, statement.start, low, high)
        return idea(kind, f"{span}, mark {first}", f"hop {first} to {last}, counting",
                    f"you hop from {first} to {last}", back)  # fmt: skip
    if cue & _BEADS and 0 < low and high <= 20:
        rows = f"{min(10, first)} and {max(0, first - 10)}"
        change = f"add {last - first}" if last > first else f"take away {first - last}"
        return idea("rekenrek", rows, f"{change}, counting", f"you count from {first} to {last}", back)
    kind_of_marks = frame_kind(part, statement.start, high)
    if kind_of_marks is None:
        return None
    if steps == {-1}:
        return idea(kind_of_marks, dots(first), f"take away {first - last}, counting",
                    f"you count back from {first} to {last}", back)  # fmt: skip
    if first == 0 or values[0] == 1:
        return idea(kind_of_marks, "empty", f"add {mark_words(last, 'dots')}, counting", f"you count to {last}")
    return idea(kind_of_marks, dots(first), f"add {mark_words(last - first, 'crosses')}, counting",
                f"you count on from {first} to {last}", back)  # fmt: skip


def _there(part: Part, statement: Statement, since: int) -> int:
    """What was there before a count on: its first number, or the number before it where that is what was told ("Four
    come first. ... Here they come: five, six, seven.")."""
    first = statement.values[0]
    said = part.numbers_in(statement.start, statement.start + 1)
    if first < 2 or (said and part.words[said[0].end - 1].text[-1:] in (".", "…", "!", ":")):
        return first
    index = part.sentence_index(statement.start)
    begin = max(since, part.sentences[max(0, index - _REACH)].start)
    before = [number.value for number in part.numbers_in(begin, statement.start)]
    if first in before or first - 1 not in before:
        return first
    return first - 1


def row_of_numbers(part: Part, word: int, low: int, high: int) -> tuple[str, str]:
    """The kind and the ends of the path or line that has room for some numbers."""
    named = part.around(word, 8, 1)
    line = "line" in named and "path" not in named
    if high <= 20:
        return ("number line" if line else "number path"), f"0 to {10 if high <= 10 else 20}"
    return "number line", f"{low - low % 10} to {high + -high % 10}"


def _leaps(part: Part, statement: Statement, step: int) -> Idea | None:
    """Hops of two, five or ten on a number line, one with each number word."""
    values = statement.values
    low, high = min(values), max(values)
    if high - low > 100 or len(values) > 12 or high > 120 or low < 0:
        return None
    if high <= 20:
        kind, span = row_of_numbers(part, statement.start, low, high)
    else:
        kind, span = "number line", f"{low - low % 10} to {high + -high % 10}"
    if high - low > 50:
        return None
    numbers = part.numbers_in(statement.start, statement.end)
    spoken = {number.value: number.start for number in numbers}
    if any(value not in spoken for value in values[1:]):
        return None
    changes = tuple(Change(spoken[b], f"hop {a} to {b}") for a, b in pairwise(values))
    way = "on" if step > 0 else "back"
    until = part.sentence_of(statement.end - 1).end
    return Idea(part.begin(statement), kind, f"{span}, mark {values[0]}", changes, until,
                frozenset({values[0], values[-1]}), f"you count {way} by {abs(step)}s", 3)  # fmt: skip


def _fives(values: tuple[int, ...]) -> bool:
    """By fives first and then by ones, as tallies are counted."""
    fives = values[-1] // 5
    return values == (*range(5, 5 * fives + 1, 5), *range(5 * fives + 1, values[-1] + 1))


def _tens(values: tuple[int, ...]) -> bool:
    tens = values[-1] // 10
    return values == (*range(10, 10 * tens + 1, 10), *range(10 * tens + 1, values[-1] + 1))
