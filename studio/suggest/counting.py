"""Counts: frames and dots that fill as she counts, tallies by fives, tens and ones, hops on a path."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise, zip_longest

from studio.suggest.ideas import Change, Idea, Part
from studio.suggest.kinds import dots, frame_kind, mark_words, row_of_numbers
from studio.suggest.stories import windows
from studio.talk.model import Statement

_ROW = frozenset({"path", "line"})
_PATH = frozenset("hop hops hopping hopped jump jumps jumping leap leaps".split())
_FRAME = frozenset("frame frames box boxes".split())
_TALLIES = frozenset("tally tallies fives marks bundle bundles".split())
_LINES = frozenset("tens base ten ones blocks sticks lines".split())
_BEADS = frozenset("bead beads rack rekenrek".split())
_LONGEST_HOP = 20
_REACH = 5  # sentences
_MOST_CARDS = 12
_NEAR_ROW = 60  # words
_PAUSES = (".", "…", ":")
_OF_THEM = frozenset("crosses those hops steps times jumps".split())
_NEARLY = frozenset("nearly almost instead forgot".split())
_ON_AND_ON = 30  # words between two counts of which the second goes on with the first


def propose(part: Part) -> Iterator[Idea]:
    """A picture for every count that is even."""
    since = part.start
    asked = [story.end for story, _, _ in windows(part)]
    counts = _merged([statement for statement in part.statements if statement.kind.startswith("count")])
    before: Statement | None = None
    for statement, after in zip_longest(counts, counts[1:]):
        if statement.holds is not False:
            room = after.values[-1] if after is not None and _goes_on(statement, after) else 0
            goes_on = before is not None and _goes_on(before, statement)
            story = bisect_right(asked, statement.start) - 1
            since = max(since, asked[story]) if story >= 0 else since
            idea = for_count(part, statement, since, room, goes_on)
            if idea is not None:
                yield idea
        since, before = statement.end, statement


def _merged(counts: Sequence[Statement]) -> list[Statement]:
    """The counts; by tens or fives and then by ones is one count ("10. 20. 30. Now ones: 31. 32")."""
    found: list[Statement] = []
    for statement in counts:
        last = found[-1] if found else None
        if last is not None and len(last.values) > 1 and last.holds and statement.holds and (
            last.values[1] - last.values[0] in (5, 10)
        ) and _goes_on(last, statement):  # fmt: skip
            found[-1] = replace(last, values=(*last.values, *statement.values), end=statement.end)
        else:
            found.append(statement)
    return found


def _goes_on(one: Statement, other: Statement) -> bool:
    """Whether a count goes on where another ended ("... five, six. And on we go: seven, eight")."""
    if other.start - one.end > _ON_AND_ON or other.holds is False or len(other.values) < 2 or len(one.values) < 2:
        return False
    up = one.values[-1] > one.values[0]
    step = 1 if up else -1
    return other.values[0] == one.values[-1] + step and other.values[1] - other.values[0] == step


def for_count(
    part: Part, statement: Statement, since: int, room: int = 0, goes_on: bool = False, alone: bool = False
) -> Idea | None:
    """The picture for one count; None where there is none that fits. `room` is what the next count goes on to;
    `goes_on` tells that this one goes on itself; `alone` that it is drawn without what was told before it."""
    values = statement.values
    first, last = values[0], values[-1]
    index = part.sentence_index(statement.start)
    near = part.plain(part.sentences[max(0, index - 2)].start, statement.start)
    if part.plain(part.sentences[index].start, statement.start) & _NEARLY:
        return None
    cue = part.around(statement.start, 2) | (part.around(statement.end - 1, 0, 1) & {"hops", "jumps", "path", "line"})
    if first == 1 and near & _OF_THEM:
        return None
    steps = {b - a for a, b in pairwise(values)}
    topic = frozenset({first, last, abs(last - first)})
    until = part.sentence_of(statement.end - 1).end
    start = part.begin(statement)

    def idea(kind: str, details: str, change: str, reason: str, word: int = start) -> Idea:
        changes = (Change(statement.start, change, statement.end),)
        idea = Idea(word, kind, details, changes, until, topic, reason, 3)
        if word == start and first == values[0]:
            return idea
        other = replace(idea, word=start)
        if first != values[0] and not alone:
            other = for_count(part, statement, since, room, alone=True) or other
        return replace(idea, instead=other)

    if part.around(statement.start, 0) & {"card", "cards"} and len(values) <= _MOST_CARDS and not near & _FRAME:
        return Idea(start, "cards", ", ".join(map(str, values)), (), until, topic, "cards are named", 1)

    def led(cues: frozenset[str]) -> int:
        return part.led_to(statement.start, frozenset({last, last // 10, last % 10, last // 5, last % 5}), cues)

    if "chart" in near and len(steps) == 1 and first in (2, 5, 10) and steps == {first} and last <= 100:
        return idea("hundred chart", f"1 to {last}", f"count by {first}", f"you count by {first}s on the chart")
    if first == 5 and _fives(values) and (5 in steps or near & _TALLIES) and last <= 50:
        return idea("tally", str(last), "count by 5", "you count by fives", led(_TALLIES))
    if (
        first == 10
        and _tens(values)
        and (10 in steps or (near & _LINES and not _stands_alone(part, statement)))
        and last <= 120
    ):
        return idea("base ten", str(last), "count", "you count tens and ones", led(_LINES))
    if steps == {2} and first == 2 and last <= 50:
        return idea("dots", str(last), "count by 2", "you count by twos", led(frozenset({"twos", "pairs"})))
    if len(steps) == 1 and steps <= {2, 5, 10, -2, -5, -10}:
        return _leaps(part, statement, steps.pop())
    if steps not in ({1}, {-1}):
        return None
    if steps == {1} or steps == {-1}:
        step = steps.pop()
        steps = {step}
        first = first - step if goes_on else first if alone else _there(part, statement, since, step)
        topic = frozenset({first, last, abs(last - first)})
    low, high = min(first, last), max(values)
    back = (
        statement.start
        if goes_on
        else part.earliest(statement.start, first, topic, 8, max(since, _compared(part, statement)))
    )
    along = part.around(statement.start, 8, 1) & (_ROW | {"finger"}) and not near & _FRAME
    row = part.row_named(statement.start)
    near_row = row is not None and row[1] <= low and high <= row[2] and statement.start - row[3] <= _NEAR_ROW
    if cue & _ROW or (cue & _PATH and along) or (near_row and not near & _FRAME) or high > 50:
        if high - low > _LONGEST_HOP or high > 120:
            return None
        kind, span = row_of_numbers(part, statement.start, low, high)
        return idea(kind, f"{span}, mark {first}", f"hop {first} to {last}, counting",
                    f"you hop from {first} to {last}", back)  # fmt: skip
    if part.around(statement.start, 4) & _BEADS and low > 0 and high <= 20:
        rows = f"{min(10, first)} and {max(0, first - 10)}"
        change = f"add {last - first}" if last > first else f"take away {first - last}"
        return idea("rekenrek", rows, f"{change}, counting", f"you count from {first} to {last}", back)
    kind_of_marks = frame_kind(part, statement.start, max(high, room))
    if kind_of_marks is None:
        return None
    if steps == {-1}:
        return idea(kind_of_marks, dots(first), f"take away {first - last}, counting",
                    f"you count back from {first} to {last}", back)  # fmt: skip
    if values[0] == 1 and (asked := _how_many(part, statement)) is not None:
        return idea(kind_of_marks, dots(last), "count", f"you count {last}", asked)
    if first == 0 or values[0] == 1:
        return idea(kind_of_marks, "empty", f"add {mark_words(last, 'dots')}, counting", f"you count to {last}")
    return idea(kind_of_marks, dots(first), f"add {mark_words(last - first, 'crosses')}, counting",
                f"you count on from {first} to {last}", back)  # fmt: skip


def _compared(part: Part, statement: Statement) -> int:
    """Where the last comparison before a count ends: two amounts are drawn as bars."""
    before = part.statements_in(max(part.start, statement.start - 10 * _ON_AND_ON), statement.start)
    return max((s.end for s in before if s.kind in ("greater", "less")), default=part.start)


def _how_many(part: Part, statement: Statement) -> int | None:
    """The sentence just before that asks how many there are: then they are there to be counted."""
    index = part.sentence_index(statement.start)
    for sentence in part.sentences[max(0, index - 2) : index]:
        words = part.text(sentence.start, sentence.end)
        if "how many" in words and not sentence.numbers and not {"left", "more", "empty"} & set(words.split()):
            return sentence.start
    return None


def _stands_alone(part: Part, statement: Statement) -> bool:
    """Whether there is a pause after the first number that is not after the others ("Five. Six, seven")."""
    said = part.numbers_in(statement.start, statement.end)
    stops = [part.words[number.end - 1].text[-1:] for number in said[:2]]
    return len(stops) == 2 and stops[0] in _PAUSES and stops[0] != stops[1]


def _there(part: Part, statement: Statement, since: int, step: int) -> int:
    """What was there before a count: its first number, or the number before it where that is what was told ("Four come
    first. ... Here they come: five, six, seven.")."""
    first = statement.values[0]
    if first < 1 or first == step or _stands_alone(part, statement):
        return first
    index = part.sentence_index(statement.start)
    begin = max(since, part.sentences[max(0, index - _REACH)].start)
    before = [number.value for number in part.numbers_in(begin, statement.start)]
    if first in before or first - step not in before:
        return first
    return first - step


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
