"""Counts one by one: frames and dots that fill as she counts, beads, hops on a path; `groups` has all others."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, zip_longest

from studio.suggest import groups
from studio.suggest.ideas import Change, Idea, Part
from studio.suggest.kinds import dots, frame_kind, mark_words, row_of_numbers
from studio.suggest.stories import windows
from studio.talk.model import Statement

_ROW = frozenset({"path", "line"})
_PATH = frozenset("hop hops hopping hopped jump jumps jumping leap leaps".split())
_FRAME = frozenset("frame frames box boxes".split())
_BEADS = frozenset("bead beads rack rekenrek".split())
_LONGEST_HOP = 20
_REACH = 5  # sentences
_NEAR_ROW = 60  # words
_PAUSES = (".", "…", ":")
_OF_THEM = frozenset("crosses those hops steps times jumps".split())
_NEARLY = frozenset("nearly almost instead forgot".split())
_ON_AND_ON = 30  # words between two counts of which the second goes on with the first


@dataclass(frozen=True, slots=True)
class _Count:
    """A count with what it stands in: nothing before word `since` belongs to it, `room` is what the next count goes on
    to, and `goes_on` tells that this one goes on itself."""

    part: Part
    statement: Statement
    since: int
    room: int
    goes_on: bool

    def told(self, step: int) -> int:
        """What was there before the count: its first number, or the number before it where that is what was told ("Four
        come first. ... Here they come: five, six, seven.")."""
        first = self.statement.values[0]
        if self.goes_on:
            return first - step
        if first < 1 or first == step or _stands_alone(self.part, self.statement):
            return first
        index = self.part.sentence_index(self.statement.start)
        begin = max(self.since, self.part.sentences[max(0, index - _REACH)].start)
        before = [number.value for number in self.part.numbers_in(begin, self.statement.start)]
        return first if first in before or first - step not in before else first - step


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
            idea = for_count(_Count(part, statement, since, room, goes_on))
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


def for_count(count: _Count) -> Idea | None:
    """The picture for one count; None where there is none that fits."""
    part, statement, values = count.part, count.statement, count.statement.values
    index = part.sentence_index(statement.start)
    near = part.plain(part.sentences[max(0, index - 2)].start, statement.start)
    if part.plain(part.sentences[index].start, statement.start) & _NEARLY or (values[0] == 1 and near & _OF_THEM):
        return None
    steps = {b - a for a, b in pairwise(values)}
    whole = groups.for_count(part, statement, near, steps, _stands_alone(part, statement))
    if whole is not None or steps not in ({1}, {-1}):
        return whole
    told = count.told(values[1] - values[0])
    idea = _one_by_one(count, told, near)
    if idea is None or (told == values[0] and idea.word == part.begin(statement)):
        return idea
    plain = _one_by_one(count, values[0], near) if told != values[0] else idea
    return replace(idea, instead=replace(plain or idea, word=part.begin(statement)))


def _one_by_one(count: _Count, first: int, near: frozenset[str]) -> Idea | None:
    """The picture for a count from what was there, `first`: hops where a path or line is talked of, beads, or marks."""
    part, statement, values = count.part, count.statement, count.statement.values
    last = values[-1]
    low, high = min(first, last), max(*values, first)
    more = abs(last - first)
    topic = frozenset({first, last, more})
    back = part.begin(statement)
    if count.goes_on:
        back = statement.start
    elif values[0] != 1:
        back = part.earliest(statement.start, first, topic, 8, max(count.since, _compared(part, statement)))

    def idea(kind: str, details: str, change: str, reason: str, word: int = back) -> Idea:
        changes = (Change(statement.start, change, statement.end),)
        until = part.sentence_of(statement.end - 1).end
        return Idea(word, kind, details, changes, until, topic, reason, 3)

    if _along(part, statement, low, high, near) or high > 50:
        if high - low > _LONGEST_HOP or high > 120:
            return None
        kind, span = row_of_numbers(part, statement.start, low, high)
        reason = f"you hop from {first} to {last}"
        return idea(kind, f"{span}, mark {first}", f"hop {first} to {last}, counting", reason)
    if part.around(statement.start, 4) & _BEADS and low > 0 and high <= 20:
        change = f"{'add' if last > first else 'take away'} {more}, counting"
        reason = f"you count from {first} to {last}"
        return idea("rekenrek", f"{min(10, first)} and {max(0, first - 10)}", change, reason)
    kind_of_marks = frame_kind(part, statement.start, max(high, count.room))
    if kind_of_marks is None:
        return None
    if last < first:
        reason = f"you count back from {first} to {last}"
        return idea(kind_of_marks, dots(first), f"take away {more}, counting", reason)
    if values[0] == 1 and (asked := _how_many(part, statement)) is not None:
        return idea(kind_of_marks, dots(last), "count", f"you count {last}", asked)
    if first == 0 or values[0] == 1:
        return idea(kind_of_marks, "empty", f"add {mark_words(last, 'dots')}, counting", f"you count to {last}")
    reason = f"you count on from {first} to {last}"
    return idea(kind_of_marks, dots(first), f"add {mark_words(more, 'crosses')}, counting", reason)


def _along(part: Part, statement: Statement, low: int, high: int, near: frozenset[str]) -> bool:
    """Whether a count goes along a path or a line: one is talked of, or there are hops and one was named before."""
    after = part.around(statement.end - 1, 0, 1) & {"hops", "jumps", "path", "line"}
    cue = part.around(statement.start, 2) | after
    if cue & _ROW:
        return True
    if near & _FRAME:
        return False
    row = part.row_named(statement.start)
    named = row is not None and row[1] <= low and high <= row[2] and statement.start - row[3] <= _NEAR_ROW
    return bool(cue & _PATH and part.around(statement.start, 8, 1) & (_ROW | {"finger"})) or (named and low > 1)


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
