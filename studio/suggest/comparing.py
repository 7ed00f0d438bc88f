"""Two amounts that are compared: two bars, with a ? for how many more until it is said; cards for larger numbers."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator

from studio.suggest.ideas import Change, Idea, Part
from studio.suggest.stories import windows
from studio.talk.model import Statement

_REACH = 90  # words
_ASKED = re.compile(r"\bhow (?:many|much) (?:more|fewer|less|longer|taller|shorter)\b|\bdifference\b")
_LARGEST = 20


def propose(part: Part) -> Iterator[Idea]:
    """A picture for every comparison that is told."""
    told = [(start, end) for story, start, end in windows(part) if story.situation.startswith("compare")]
    starts = [start for start, _ in told]
    for statement in part.statements:
        at = bisect_right(starts, statement.start) - 1
        if statement.holds is not True or (at >= 0 and statement.start < told[at][1]):
            continue
        pair = pair_of(part, statement)
        if pair is None:
            continue
        start, (one, other) = _start(part, statement, *pair)
        until = part.sentence_of(statement.end - 1).end
        topic = frozenset((one, other, abs(one - other)))
        if max(pair) > _LARGEST or not min(pair):
            yield Idea(start, "cards", f"{one}, {other}", (), until, topic, f"{one} and {other} are compared", 1)
            continue
        changes: tuple[Change, ...] = ()
        found = _difference(part, statement, abs(one - other), start)
        if found is not None:
            changes = (Change(found, f"fill in {abs(one - other)}"),)
            until = max(until, found + 1)
        yield Idea(start, "compare bars", f"{one} and {other}", changes, until, topic,
                   f"{one} and {other} are compared", 1)  # fmt: skip


def pair_of(part: Part, statement: Statement) -> tuple[int, int] | None:
    """The two numbers in the order in which they are to stand."""
    values = statement.values
    match statement.kind:
        case "greater" | "less" | "equal" if len(values) == 2:
            return values[0], values[1]
        case "more than" | "less than" if len(values) == 3 and max(values) <= _LARGEST:
            said = [n.value for n in part.numbers_in(statement.start, statement.end)]
            compares = statement.written.split(" ")[0].isdigit() and statement.written.split(" ")[1] == "="
            if not compares or len(said) < 3 or values[0] == values[1]:
                return None
            return values[2], values[1]
        case _:
            return None


def _start(part: Part, statement: Statement, one: int, other: int) -> tuple[int, tuple[int, int]]:
    """The sentence in which the second of two amounts is told, if the first was told just before, and the amounts in
    the order in which they are told there; else the statement's own."""
    index = part.sentence_index(statement.start)
    for back in range(max(0, index - 4), index):
        sentence = part.sentences[back]
        if not set(sentence.values) <= {one, other} or not sentence.values:
            continue
        if set(sentence.values) == {one, other} and one != other:
            return sentence.start, (sentence.values[0], one + other - sentence.values[0])
        following = part.sentences[back + 1]
        if {*sentence.values, *following.values} == {one, other} and following.values:
            return following.start, (sentence.values[0], one + other - sentence.values[0])
    return part.begin(statement), (one, other)


def _difference(part: Part, statement: Statement, difference: int, start: int) -> int | None:
    """Where the difference is said."""
    if statement.kind in ("more than", "less than"):
        return next((n.start for n in part.numbers_in(statement.start, statement.end) if n.value == difference), None)
    begin = part.sentence_of(statement.end - 1).end
    asked = False
    for sentence in part.sentences[part.sentence_index(begin) :]:
        if sentence.start > statement.end + _REACH or begin >= part.end:
            break
        asked = asked or bool(_ASKED.search(part.text(sentence.start, sentence.end)))
        for number in sentence.numbers:
            if number.value != difference or number.start in part.counted or number.start <= start:
                continue
            if asked or part.words[min(number.end, part.end - 1)].plain in ("more", "fewer", "less"):
                return number.start
    return None
