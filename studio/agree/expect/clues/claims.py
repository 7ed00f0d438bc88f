"""What is claimed, asked and told: the number with which a statement is true, what a question asks for, what the last
statement came to, what a story tells and what its answer is, what the segment is about."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence

from studio.agree.case import Case
from studio.agree.expect.hints import Hint, named
from studio.agree.expect.place import INEQUALITIES, Place
from studio.talk.model import Number, Statement

_BACK = 25  # words


def find(place: Place) -> Iterator[Hint]:
    case, number, segment = place.book.case, place.number, place.segment
    for statement in case.statements_between(max(place.start, number.start - _BACK), number.start):
        if statement.end > number.start:
            continue
        if statement.expected is not None and not isinstance(statement.expected, bool):
            yield statement.expected, named("expd")
        if statement.holds and statement.values:
            yield statement.values[-1], named("last")
    for statement in case.covering.get(number.start, ()):
        yield from _covering(case, statement, number)
    for value in _values_but(case.topic_numbers.get(segment, ()), number):
        yield value, named("topic", "topic:" + place.before.sort)
        if value > 9:
            yield value // 10, named("topt:" + place.after.sort)
            yield value % 10, named("topo:" + place.after.sort)
    for value in _values_but(case.whole_numbers.get(segment, ()), number):
        yield value, named("wholes")
        yield from _partners(place, value)
    stories = case.talk.stories
    for story in stories[: bisect_left(stories, number.start + 1, key=lambda story: story.start)][-2:]:
        if story.answer is None or story.start < place.start:
            continue
        if number.start >= story.end:
            yield story.answer, named("sans")
            for value in story.told:
                yield value, named("stold")
            continue
        told = list(story.told)
        if number.value in told:
            told.remove(number.value)
        for value in told:
            yield value, named("stold0")


def _values_but(numbers: Iterable[Number], itself: Number) -> set[int]:
    """The values of numbers; the one that is asked about does not speak for itself."""
    return {number.value for number in numbers if number.start != itself.start}


def _partners(place: Place, whole: int) -> Iterator[Hint]:
    """The partners of the numbers next to it ("Seven! Three. Six! Four.", where the partners of ten are looked for)."""
    if place.preceding:
        yield whole - place.preceding[-1], named("partner:" + place.link(-1))
    if place.following:
        yield whole - place.following[0], named("partner of:" + place.link(0))


def _covering(case: Case, statement: Statement, number: Number) -> Iterator[Hint]:
    """What would make the statement true; whether the number that is said does is not looked at."""
    if statement.expected is not None and not isinstance(statement.expected, bool):
        yield statement.expected, named("expc")
    kind = statement.kind.split(" by")[0]
    if statement.holds is None or kind in INEQUALITIES or kind.startswith("count"):
        return
    rest = [other.value for other in case.numbers_between(statement.start, statement.end) if other is not number]
    for value in _fitting(kind, rest):
        yield value, named("true", "true:" + kind)


def _fitting(kind: str, rest: Sequence[int]) -> set[int]:
    """The values with which a statement of a kind may be true, by its other numbers."""
    found: set[int] = set()
    if len(rest) == 1:
        found = {rest[0], rest[0] + 1, rest[0] - 1, 2 * rest[0], *([rest[0] // 2] if rest[0] % 2 == 0 else ())}
    elif len(rest) == 2:
        one, other = rest
        found = {one + other, abs(one - other)}
        if kind == "tens and ones":
            great, small = max(rest), min(rest)
            found = {10 * one + other, 10 * other + one, great - 10 * small,
                     *([(great - small) // 10] if (great - small) % 10 == 0 else ())}  # fmt: skip
    elif len(rest) == 3:
        one, two, three = rest
        found = {one + two - three, one + three - two, two + three - one, one + two + three}
    return {value for value in found if value >= 0}
