"""Counts of what is there and counts by groups: cards, a chart, tallies by fives, tens and ones, twos, hops of five."""

from __future__ import annotations

from itertools import pairwise

from studio.suggest.ideas import Change, Idea, Part
from studio.suggest.kinds import row_of_numbers
from studio.talk.model import Statement

_CARDS = frozenset({"card", "cards"})
_FRAME = frozenset("frame frames box boxes".split())
_TALLIES = frozenset("tally tallies fives marks bundle bundles".split())
_LINES = frozenset("tens base ten ones blocks sticks lines".split())
_MOST_CARDS = 12


def for_count(
    part: Part, statement: Statement, near: frozenset[str], steps: set[int], stands_alone: bool
) -> Idea | None:
    """The picture for a count that is not one by one, or of cards; None for any other. `near` are the words before it,
    `stands_alone` tells that there is a pause after its first number."""
    values = statement.values
    first, last = values[0], values[-1]

    def idea(kind: str, details: str, change: str, reason: str, cues: frozenset[str]) -> Idea:
        allowed = frozenset({*values, last // 10, last % 10, last // 5, last % 5})
        word = part.led_to(statement.start, allowed, cues)
        if word == part.sentence_of(statement.start).start:
            word = part.begin(statement)
        changes = (Change(statement.start, change, statement.end),)
        until = part.sentence_of(statement.end - 1).end
        return Idea(word, kind, details, changes, until, frozenset({first, last}), reason, 3)

    if len(values) <= _MOST_CARDS and not near & _FRAME and steps == {1}:
        if first in (0, 1) and near & _CARDS:
            return idea("cards", f"{first} to {last}", "count", "the cards are counted", _CARDS)
        if part.around(statement.start, 0) & _CARDS:
            return Idea(part.begin(statement), "cards", ", ".join(map(str, values)), (), statement.end,
                        frozenset(values), "cards are named", 1)  # fmt: skip
    if "chart" in near and len(steps) == 1 and first in (2, 5, 10) and steps == {first} and last <= 100:
        return idea(
            "hundred chart", f"1 to {last}", f"count by {first}", f"you count by {first}s", frozenset({"chart"})
        )
    if first == 5 and _fives(values) and (5 in steps or near & _TALLIES) and last <= 50:
        return idea("tally", str(last), "count by 5", "you count by fives", _TALLIES)
    lines = 10 in steps or (near & _LINES and not stands_alone)
    if first == 10 and _tens(values) and lines and last <= 120:
        return idea("base ten", str(last), "count", "you count tens and ones", _LINES)
    if steps == {2} and first == 2 and last <= 50:
        return idea("dots", str(last), "count by 2", "you count by twos", frozenset({"twos", "pairs"}))
    if len(steps) == 1 and steps <= {2, 5, 10, -2, -5, -10}:
        return _leaps(part, statement, values[1] - values[0])
    return None


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
