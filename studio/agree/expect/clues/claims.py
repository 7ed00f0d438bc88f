"""What is claimed, asked and told: the number with which a statement is true, what a question asks for, what the last
statement came to, what a story tells and what its answer is, what the segment is about."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.expect.place import INEQUALITIES, Place
from studio.talk.model import Number, Statement

_BACK = 25  # words


def find(place: Place) -> Iterator[tuple[int, str]]:
    case, number, segment = place.book.case, place.number, place.segment
    for statement in case.statements_between(max(place.start, number.start - _BACK), number.start):
        if statement.expected is not None and not isinstance(statement.expected, bool):
            yield statement.expected, "expd"
        if statement.holds and statement.values:
            yield statement.values[-1], "last"
    for statement in case.covering.get(number.start, ()):
        yield from _covering(case, statement, number)
    for value in case.topics.get(segment, ()):
        yield value, "topic"
        yield value, "topic:" + place.before.sort
        if value > 9:
            yield value // 10, "topt:" + place.after.sort
            yield value % 10, "topo:" + place.after.sort
    for value in case.named_wholes.get(segment, ()):
        yield value, "wholes"
        yield from _partners(place, value)
    for value in place.book.titles.get(segment, ()):
        yield value, "title"
    for value in place.book.headings:
        yield value, "heading"
    stories = case.talk.stories
    for story in stories[: bisect_left(stories, number.start + 1, key=lambda story: story.start)][-2:]:
        if story.answer is None or story.start < place.start:
            continue
        inside = "0" if number.start < story.end else ""
        yield story.answer, "sans" + inside
        for value in story.told:
            yield value, "stold" + inside


def _partners(place: Place, whole: int) -> Iterator[tuple[int, str]]:
    """The partners of the numbers next to it ("Seven! Three. Six! Four.", where the partners of ten are looked for)."""
    if place.preceding:
        yield whole - place.preceding[-1], "partner:" + place.link(-1)
    if place.following:
        yield whole - place.following[0], "partner of:" + place.link(0)


def _covering(case: Case, statement: Statement, number: Number) -> Iterator[tuple[int, str]]:
    if statement.expected is not None and not isinstance(statement.expected, bool):
        yield statement.expected, "expc"
    if statement.kind in INEQUALITIES:
        if statement.holds:
            yield number.value, "ineq"
        return
    kind = "true:" + statement.kind.split(" by")[0]
    if statement.holds:
        yield number.value, "true"
        yield number.value, kind
    elif statement.holds is False:
        for value in _mended(case, statement, number):
            yield value, "true"
            yield value, kind
    elif statement.answered is not None:
        yield number.value, "answd"
    elif statement.expected is True:
        yield number.value, "exptrue"


def _mended(case: Case, statement: Statement, number: Number) -> set[int]:
    """The values with which a false statement may be true."""
    if statement.kind.startswith("count"):
        return set()
    rest = [other.value for other in case.numbers_between(statement.start, statement.end) if other is not number]
    if len(rest) == 2:
        one, other = rest
        return {one + other, abs(one - other)} - {number.value}
    if len(rest) == 3:
        one, two, three = rest
        found = {one + two - three, one + three - two, two + three - one, one + two + three}
        return {value for value in found if value >= 0} - {number.value}
    return set()
