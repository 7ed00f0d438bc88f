"""The clues of a number in a title: pairs of a number that may stand there and the clues that point to it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from studio.agree.expect.hints import Hint, clues_of, named
from studio.agree.expect.titled.place import TitledPlace
from studio.agree.looks import counts, essential, relation
from studio.script.model import Show
from studio.talk.relations import relations

_ENDS = 3  # numbers said first and last
_VALUES = 4  # numbers of a statement or a picture
_STEPS = (2, 5, 10)  # by which one counts
_NAMED = 3  # words after a number
_SHORT = 2  # letters
_TITLES = 9  # before and behind, so many as most lessons have


def clues(place: TitledPlace) -> Iterator[tuple[int, str]]:
    """The numbers that may stand in a title, each with the name of the clue that points to it; a clue that points
    twice counts twice."""
    for finder in FINDERS:
        yield from clues_of(finder(place))


def _of_the_segment(place: TitledPlace) -> Iterable[Hint]:
    """What points to all numbers of a title alike, worked out once."""
    kept = place.book.hints.get(place.segment)
    if kept is None:
        finders = (_said, _shown, _told, _topics, _elsewhere)
        kept = place.book.hints[place.segment] = tuple(hint for finder in finders for hint in finder(place))
    return kept


def _times(count: int) -> int:
    return min(count, 6) + (count >= 9) + (count >= 14)


def _said(place: TitledPlace) -> Iterator[Hint]:
    """How often a number is said in the segment, how many are said more often; the first and the last ones."""
    times = place.book.case.times_said_in(place.segment)
    for value, count in times.items():
        more = sum(other > count for other in times.values())
        yield value, named(f"said {_times(count)}", f"rank {min(more, 5)}")
        if not more:
            alone = list(times.values()).count(count) == 1
            yield value, named(f"most {'alone' if alone else 'shared'}")
    if times:
        yield max(times), named("greatest")
        yield min(times), named("least")
    numbers = place.said
    for rank, number in enumerate(numbers[:_ENDS]):
        yield number.value, named(f"first {rank}")
    for rank, number in enumerate(numbers[: -_ENDS - 1 : -1]):
        yield number.value, named(f"last {rank}")


def _shown(place: TitledPlace) -> Iterator[Hint]:
    """What the pictures of the segment show, by their kind."""
    pictures = place.book.case.pictures_of(place.segment)
    times: Counter[int] = Counter()
    first = True
    for appearance in pictures:
        picture = appearance.picture
        numbers = essential(picture)
        times.update(set(numbers))
        if not isinstance(appearance.moment.direction, Show):
            for value in counts(picture):
                yield value, named(f"becomes {picture.kind}")
            continue
        for rank, value in enumerate(numbers[:_VALUES]):
            yield value, named(f"shows {picture.kind} {rank}")
        found = relation(picture)
        if found is not None:
            yield found.whole, named(f"whole {picture.kind}", "whole shown")
            for part in found.parts:
                yield part, named(f"part {picture.kind}", "part shown")
        if first:
            for value in set(numbers):
                yield value, named("first shown")
            first = False
    most = max(times.values(), default=0)
    for value, count in times.items():
        yield value, named(f"times shown {_times(count)}", *(["most shown"] if count == most else []))
    for appearance in pictures[-1:]:
        for value in set(essential(appearance.picture)):
            yield value, named("last shown")
    yield len({appearance.moment.name for appearance in pictures}), named("so many pictures")


def _told(place: TitledPlace) -> Iterator[Hint]:
    """What true statements of the segment are about: wholes, parts, where counts start and end."""
    wholes, parts = _wholes_and_parts(place)
    for statement in place.book.case.statements_between(place.start, place.end):
        if not statement.holds:
            continue
        values = statement.values
        for rank, value in enumerate(values[:_VALUES]):
            yield value, named(f"in {statement.kind} {rank}")
        if statement.kind.startswith("count"):
            yield values[-1], named(f"ends {statement.kind}")
            yield values[0], named(f"starts {statement.kind}")
            yield len(values), named("how many counted")
            if len(values) > 1:
                yield abs(values[1] - values[0]), named("step of count")
    most = max(wholes.values(), default=0)
    for value, count in wholes.items():
        yield value, named(f"is whole {_times(count)}", *(["mostly whole"] if count == most else []))
    for value, count in parts.items():
        yield value, named(f"is part {_times(count)}")


def _wholes_and_parts(place: TitledPlace) -> tuple[Counter[int], Counter[int]]:
    wholes: Counter[int] = Counter()
    parts: Counter[int] = Counter()
    for statement in place.book.case.statements_between(place.start, place.end):
        if statement.holds:
            for found in relations(statement):
                wholes[found.whole] += 1
                parts.update(found.parts)
    return wholes, parts


def _topics(place: TitledPlace) -> Iterator[Hint]:
    """The number of the day, and that of which partners are looked for."""
    case = place.book.case
    for value in {number.value for number in case.topic_numbers.get(place.segment, ())}:
        yield value, named("topic")
    for value in {number.value for number in case.whole_numbers.get(place.segment, ())}:
        yield value, named("partners of")
    for value in case.topics_of_lesson:
        yield value, named("topic of lesson")


def _elsewhere(place: TitledPlace) -> Iterator[Hint]:
    """The title of the lesson, the other titles, what is said most in the lesson."""
    book = place.book
    for value in set(book.case.header_numbers):
        yield value, named("header")
    for rank, value in enumerate(book.said_most):
        yield value, named(f"lesson {rank}")
    first = max(0, place.segment - _TITLES)
    for segment, numbers in enumerate(book.case.title_numbers[first : place.segment + _TITLES + 1], first):
        if segment != place.segment:
            away = segment - place.segment
            where = f"{away:+d}" if abs(away) == 1 else "+" if away > 0 else "-"
            for number in numbers:
                yield number.value, named(f"title {where}")
                yield number.value + 1, named(f"after title {where}")


def _thing(place: TitledPlace) -> Iterator[Hint]:
    """What is said with the word after the number, or behind the word before it ("Nine sleepy frogs": nine frogs)."""
    number, words = place.number, place.book.case.talk.words
    after = place.words[number.end : number.end + _NAMED]
    things = {word.plain.removesuffix("s") for word in after if len(word.plain) > _SHORT}
    before = place.words[number.start - 1].plain if number.start else None
    for said in place.said:
        if any(word.plain.removesuffix("s") in things for word in words[said.end : said.end + _NAMED]):
            yield said.value, named("with its thing")
        if said.start and words[said.start - 1].plain == before:
            yield said.value, named("behind its word")


def _in_the_title(place: TitledPlace) -> Iterator[Hint]:
    """The other numbers of the title, and what goes with them."""
    others = [(at, number.value) for at, number in enumerate(place.numbers) if at != place.index]
    if others:
        wholes = _wholes_and_parts(place)[0]
        for at, value in others:
            where = f"{max(-2, min(2, at - place.index)):+d}"
            yield value, named(f"beside {where}")
            yield value + 1, named(f"beside+1 {where}")
            yield value - 1, named(f"beside-1 {where}")
            yield 10 - value, named(f"beside ten {where}")
            for whole in wholes:
                yield whole - value, named(f"beside rest {where}")
    if len(others) > 1:
        values = [value for _, value in others]
        yield sum(values), named("beside sum")
        yield max(values) - min(values), named("beside difference")


def _steps(place: TitledPlace) -> Iterator[Hint]:
    for step in _STEPS:
        yield step, named(f"step {step}")


FINDERS = (_of_the_segment, _thing, _in_the_title, _steps)
"""Every sort of clue: what yields hints for a place."""
