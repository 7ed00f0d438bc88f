"""Facts a + b = c that a segment knows, from its pictures (number sentences, bonds, dots and crosses, what a change adds or
takes, hops), from true statements and from its story: where two numbers of a fact are said next to a place, the third
belongs there ("9 is 6 and ?" is shown: "what goes with six to make nine?"); where one is, the others may."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Container, Iterator, Sequence
from functools import lru_cache
from itertools import accumulate, combinations
from typing import NamedTuple

from studio.agree.case import Appearance
from studio.agree.expect.hints import KEPT, Hint, named
from studio.agree.expect.place import Book, Place
from studio.agree.looks import amount, relation
from studio.pictures.base import Picture
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.marks import MarkPicture
from studio.script.model import Hop
from studio.talk.relations import relations

_BEFORE = 10
_AFTER = 7
"""Facts before a place and after it that are looked at."""
_NEWEST = 3  # facts that count as close
_MOST = 6  # parts of a whole
_FRAME = 10


class Triple(NamedTuple):
    """One + other = whole."""

    one: int
    other: int
    whole: int


class Fact(NamedTuple):
    """A fact known from word `start` to before word `end`; `source`: "p" a picture shows it, "l" a picture lets it be
    seen (what is empty, what is over ten), "c" a change makes it, "t" it is stated, "s" a story comes to it."""

    start: int
    end: int
    source: str
    triple: Triple


_KNOWN = {"bp": "p", "bc": "c", "bl": "o", "bt": "t", "bs": "t", "ap": "P", "ac": "P", "al": "P", "at": "T", "as": "T"}
"""Before or after the place and the source, in few classes."""


class Third(NamedTuple):
    """What two numbers of a fact lead to: the fact's index, its end, the third number, and how the clue's name ends where
    the fact is before the place, where it is after it, and where the third is said beside it ("w..." the third is the
    whole, "p..." a part)."""

    at: int
    end: int
    value: int
    before: str
    after: str
    again: str


class Known(NamedTuple):
    """The facts of a segment in order, with what is the same for all its places."""

    facts: list[Fact]
    starts: list[int]
    ends: list[int]
    furthest: list[int]
    """For each fact, how far it and those before it reach."""
    thirds: dict[tuple[int, ...], list[Third]]
    """What two numbers, in either order, lead to, by the facts in order."""
    others: list[dict[int, tuple[tuple[str, int], ...]]]
    """What each number of a fact leads to."""


def find(place: Place) -> Iterator[Hint]:
    if not (place.preceding or place.following):
        return
    known = _known(place.book, place.segment)
    if not known.facts:
        return
    at = place.number.start
    here = bisect_right(known.starts, at)
    earlier = _earlier(known, here, at)
    said = {*place.preceding[-3:], *place.following}
    yield from _thirds(place, known, earlier[-1] if earlier else here, here, said)
    later = range(here, min(here + _NEWEST, len(known.facts)))
    yield from _singles(place, known, (*earlier[:_NEWEST], *later), here, said)


def _earlier(known: Known, here: int, at: int) -> Sequence[int]:
    """The facts before a place, the newest first, without those that it is itself a part of; `here` are before it."""
    if here and known.furthest[here - 1] > at:
        newest = range(here - 1, max(-1, here - 1 - 2 * _BEFORE), -1)
        return [index for index in newest if known.ends[index] <= at][:_BEFORE]
    return range(here - 1, max(-1, here - 1 - _BEFORE), -1)


def _thirds(place: Place, known: Known, first: int, here: int, said: Container[int]) -> Iterator[Hint]:
    """Where two numbers beside a place are two of a fact from `first` on: the third. Numbers that are not next to it
    count where they are in its sentence."""
    start, thirds, last = place.number.start, known.thirds, (here + _AFTER,)
    seen: set[tuple[int, str]] = set()
    for how, pair in _pairs(place):
        found = thirds.get(pair)
        if found is None:
            continue
        near = found[bisect_left(found, (first,)) : bisect_left(found, last)]
        for at, end, value, earlier, later, again in near:
            if at < here and end > start:
                continue
            name = how + (again if value in said else earlier if at < here else later)
            if (value, name) not in seen:
                seen.add((value, name))
                yield value, named("Fa" + name)


def _pairs(place: Place) -> list[tuple[str, tuple[int, int]]]:
    """Each two numbers beside a place that may be of a fact, with how they stand: next to it, or "xx" in its sentence."""
    before, after = place.preceding[:-4:-1], place.following
    found: list[tuple[str, tuple[int, int]]] = []
    if len(before) > 1:
        found.append(("pp", (before[0], before[1])))
    if before and after:
        found.append(("pn", (before[0], after[0])))
    if len(after) > 1:
        found.append(("nn", (after[0], after[1])))
    if place.others:
        inside = {number.value for number in place.others}
        members = [(at, value) for at, value in zip(_STEPS[3 - len(before) :], (*reversed(before), *after), strict=False)
                   if value in inside]  # fmt: skip
        for (at, one), (further, other) in combinations(members, 2):
            if (at, further) not in _NEXT_TO:
                found.append(("xx", (one, other)))
    return found


_STEPS = (-3, -2, -1, 1, 2, 3)
_NEXT_TO = {(-2, -1), (-1, 1), (1, 2)}
"""The numbers beside a place, and which two of them stand next to it."""


def _singles(place: Place, known: Known, closest: Sequence[int], here: int, said: Container[int]) -> Iterator[Hint]:
    """Where the number next to a place is in one of the closest facts: the others, by the words that join them."""
    for side, numbers, at in (("p", place.preceding, -1), ("n", place.following, 0)):
        link = place.link(at)[0] if numbers else ""
        wanted = _JOINED.get(link)
        if wanted is None or side + link == "nM":
            continue
        value = numbers[at]
        for index in closest:
            for roles, other in known.others[index].get(value, ()):
                if roles in wanted:
                    when = ("b" if index < here else "a") if link == "A" else ""
                    yield other, named(f"Fa1{side}{roles}{link}{'again' if other in said else when}")


_JOINED = {"A": ("pp",), "E": ("pw", "wp"), "M": ("wp",), "S": ("pp",)}
"""What the words between two numbers of a fact let expect: "and" joins two parts."""


@lru_cache(maxsize=KEPT)
def _others(triple: Triple) -> dict[int, tuple[tuple[str, int], ...]]:
    """For each number of a fact, the others with what the two are in it: "w" the whole, "p" a part."""
    one, other, whole = triple
    found: dict[int, tuple[tuple[str, int], ...]] = {
        other: (("pp", one), ("pw", whole)),
        one: (("pp", other), ("pw", whole)),
    }
    if one and other:
        found[whole] = tuple(("wp", part) for part in dict.fromkeys((one, other)))
    return found


@lru_cache(maxsize=KEPT)
def _pairs_of(triple: Triple) -> tuple[tuple[tuple[int, int], str, int], ...]:
    """Each two numbers of a fact, the smaller first, what the third is in it ("w" the whole, "p" a part), and the third."""
    one, other, whole = triple
    found = {(min(one, other), max(one, other)): ("w", whole)}
    for part, rest in ((one, other), (other, one)):
        if part <= whole:
            found.setdefault((part, whole), ("p", rest))
    return tuple((pair, role, third) for pair, (role, third) in found.items())


@lru_cache(maxsize=16)
def _endings(role: str, source: str) -> tuple[str, str, str]:
    return role + _KNOWN["b" + source], role + _KNOWN["a" + source], role + "again"


def _segments(book: Book) -> dict[int, Known]:
    """What is kept for each segment."""
    return {}


def _known(book: Book, segment: int) -> Known:
    kept = book.once(_segments)
    found = kept.get(segment)
    if found is None:
        every: dict[Fact, None] = dict.fromkeys((*_shown(book, segment), *_told(book, segment)))
        facts = sorted(every, key=lambda fact: fact.start)
        thirds: dict[tuple[int, ...], list[Third]] = {}
        for index, fact in enumerate(facts):
            for pair, role, value in _pairs_of(fact.triple):
                third = Third(index, fact.end, value, *_endings(role, fact.source))
                for either in {pair, pair[::-1]}:
                    thirds.setdefault(either, []).append(third)
        starts, ends = [fact.start for fact in facts], [fact.end for fact in facts]
        others = [_others(fact.triple) for fact in facts]
        found = kept[segment] = Known(facts, starts, ends, list(accumulate(ends, max)), thirds, others)
    return found


def _shown(book: Book, segment: int) -> Iterator[Fact]:
    """What the pictures of a segment show. They stand where their directions do: a count moves with the words."""
    steps: dict[int, list[Appearance]] = {}
    for seen in book.case.pictures_of(segment):
        steps.setdefault(id(seen.moment.direction), []).append(seen)
    for group in steps.values():
        first, last = group[0], group[-1]
        at = first.moment.direction.at
        for source, triple in _changed(first, last):
            yield Fact(at, at, source, triple)
        for source, triple in _seen(last.picture):
            yield Fact(at, at, source, triple)


def _changed(first: Appearance, last: Appearance) -> Iterator[tuple[str, Triple]]:
    change = first.change
    if isinstance(change, Hop):
        low, high = sorted((change.start, change.end))
        yield "c", Triple(low, high - low, high)
    elif first.before is not None:
        old, new = amount(first.before), amount(last.picture)
        if old is not None and new is not None and old != new:
            low, high = sorted((old, new))
            yield "c", Triple(low, high - low, high)


def _seen(picture: Picture) -> Iterator[tuple[str, Triple]]:
    fact = relation(picture)
    if fact is not None:
        for triple in triples(fact.whole, fact.parts):
            yield "p", triple
    match picture:
        case MarkPicture() if picture.framed and picture.total:
            total = picture.total
            yield "l", Triple(total, picture.capacity - total, picture.capacity)
            if total > _FRAME:
                yield "l", Triple(_FRAME, total - _FRAME, total)
            elif _FRAME // 2 < total < _FRAME:
                yield "l", Triple(_FRAME // 2, total - _FRAME // 2, total)
        case CompareBars():
            low, high = sorted((picture.upper, picture.lower))
            yield "p", Triple(low, high - low, high)
        case BaseTen() if picture.tens and picture.ones:
            yield "l", Triple(10 * picture.tens, picture.ones, picture.value)
        case _:
            return


def _told(book: Book, segment: int) -> Iterator[Fact]:
    """What is stated, asked and told in a segment."""
    case = book.case
    if not 0 <= segment < len(case.segments):
        return
    start, end = case.segments[segment]
    for statement in case.statements_between(start, end):
        if statement.holds is False or statement.kind.startswith("count"):
            continue
        for fact in relations(statement):
            for triple in triples(fact.whole, fact.parts):
                yield Fact(statement.start, statement.end, "t", triple)
    stories = case.talk.stories
    first, last = (bisect_left(stories, word, key=lambda story: story.start) for word in (start, end))
    for story in stories[first:last]:
        if story.answer is None or len(story.told) != 2:
            continue
        low, middle, high = sorted((*story.told, story.answer))
        if low + middle == high:
            yield Fact(story.start, story.end, "s", Triple(low, middle, high))


def triples(whole: int, parts: Sequence[int]) -> Iterator[Triple]:
    """A whole and its parts as facts of three numbers: two parts, or each part and the rest."""
    if not 1 < len(parts) <= _MOST or sum(parts) != whole:
        return
    if len(parts) == 2:
        yield Triple(parts[0], parts[1], whole)
        return
    for part in dict.fromkeys(parts):
        yield Triple(part, whole - part, whole)
    for one, other in dict.fromkeys(combinations(parts, 2)):
        yield Triple(one, other, one + other)
