"""The clues of a number in a direction: pairs of a number that may be shown and the clues that point to it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import chain

from studio.agree.expect.hints import KEPT, Bundle, Hint, clues_of, named
from studio.agree.expect.place import Book, Side
from studio.agree.expect.shown.place import ShownBook, ShownPlace
from studio.agree.wording import TEN_THINGS
from studio.script.model import Show

_NEAR = 5  # numbers
_BEFORE = 3  # numbers
_EARLIER = 8  # numbers of directions
_LATER = 6
_STATEMENTS = 8
_STATED = 4  # numbers of a statement
_SENTENCES = 8
_OF_SENTENCE = 12  # numbers
_OFTEN = 12  # numbers of the segment
_ROWS = 10  # of a chart
_STEPS = (1, -1, 2, -2, 10, -10)
_DOUBLE_AFTER = tuple(named(f"a{rank}*2") for rank in range(_NEAR))
_DOUBLE_BEFORE = tuple(named(f"b{rank}*2") for rank in range(_NEAR))
_HALF = tuple(named(f"a{rank}/2") for rank in range(_NEAR))
_SHOWN = tuple(named(f"shown{count}") for count in range(5))


def clues(place: ShownPlace) -> Iterator[tuple[int, str]]:
    """The numbers that may be shown at a place, each with the name of the clue that points to it; a clue that points
    twice counts twice."""
    return clues_of(chain.from_iterable(finder(place) for finder in FINDERS))


def _of_the_direction(place: ShownPlace) -> Iterable[Hint]:
    """What points to all numbers of a direction alike, worked out once."""
    kept = place.book.around.get(place.group)
    if kept is None:  # numbers and clues apart: a tuple for each pair would keep the collector busy
        kept = place.book.around[place.group] = tuple(zip(*_around(place), strict=True))
    return zip(*kept, strict=True)


def _around(place: ShownPlace) -> Iterator[Hint]:
    yield from _said_after(place)
    yield from _said_before(place)
    yield from _on_the_screen(place)
    yield from _told(place)
    yield 0, _everywhere(place.book, place.segment)


def _said_after(place: ShownPlace) -> Iterator[Hint]:
    book = place.book.book
    for rank, index in enumerate(place.after):
        number = book.numbers[index]
        value = number.value
        here = "w" if number.start < place.until else "o"
        after = book.after[index]
        yield value, _after(rank, here, min(6, (number.start - place.slot.at) // 3), book.before[index], after)
        if here == "w" and place.slot.kind == "base ten" and after.word in TEN_THINGS:
            yield 10 * value, named(f"aX{min(rank, 2)}:{after.word}")
        if rank >= _NEAR:
            continue
        yield 2 * value, _DOUBLE_AFTER[rank]
        if value % 2 == 0:
            yield value // 2, _HALF[rank]
        if value > 9:
            yield value // 10, named("at:" + after.sort)
            yield value % 10, named("ao:" + after.sort)
        if index + 1 in place.after:
            together, apart = _joined("a", rank, book.links[index])
            yield value + book.said[index + 1], together
            yield abs(value - book.said[index + 1]), apart


def _said_before(place: ShownPlace) -> Iterator[Hint]:
    book = place.book.book
    last = place.book.last_show(place.slot.at)
    for rank, index in enumerate(place.before):
        number = book.numbers[index]
        value = number.value
        here = "w" if number.start >= last else "o"
        yield value, _before(rank, here, book.before[index], book.after[index])
        if rank >= _NEAR:
            continue
        yield 2 * value, _DOUBLE_BEFORE[rank]
        if value > 9:
            yield value // 10, named("bt")
            yield value % 10, named("bo")
        if index - 1 in place.before:
            together, apart = _joined("b", rank, book.links[index - 1])
            yield value + book.said[index - 1], together
            yield abs(value - book.said[index - 1]), apart
    if place.after and place.before:
        one, other = book.numbers[place.after[0]].value, book.numbers[place.before[0]].value
        yield one + other, named("b0as")
        yield abs(one - other), named("b0am")


@lru_cache(maxsize=KEPT)
def _after(rank: int, here: str, distance: int, before: Side, after: Side) -> Bundle:
    """What a number that is said later points to by itself: how far away it is, the words beside it, the steps from it."""
    names = [f"a{min(rank, 5)}{here}", f"a{here}", f"aa{here}:{after.sort}", f"ab{here}:{before.sort}"]
    if here == "w":
        names += [f"aw:{after.word}", f"au:{before.word}", f"ad{distance}"]
    return Bundle((*((0, name) for name in names), *_steps(f"a{rank}" if rank < _NEAR else "")))


@lru_cache(maxsize=KEPT)
def _before(rank: int, here: str, before: Side, after: Side) -> Bundle:
    """The same of a number that was said before."""
    names = [f"b{min(rank, 5)}{here}", f"b{here}", f"ba:{after.sort}", f"bb:{before.sort}", f"bw:{after.word}"]
    return Bundle((*((0, name) for name in names), *_steps(f"b{rank}" if rank < _NEAR else "")))


def _steps(name: str, behind: str = "") -> tuple[tuple[int, str], ...]:
    """A few steps on and back from a number ("": none)."""
    return tuple((step, f"{name}{step:+}{behind}") for step in _STEPS) if name else ()


@lru_cache(maxsize=KEPT)
def _joined(side: str, rank: int, link: str) -> tuple[Bundle, Bundle]:
    """The sum and the difference of two numbers that are said one after the other."""
    return named(f"{side}{rank}s:{link}"), named(f"{side}{rank}m:{link}")


def _with_mates(place: ShownPlace) -> Iterator[Hint]:
    """From the other numbers of the direction."""
    mates = place.mates[:6]
    after = [place.book.book.said[index] for index in place.after[:_NEAR]]
    before = [place.book.book.said[index] for index in place.before[:_BEFORE]]
    for mate in mates:
        value = mate.value
        by_itself, with_after, with_before = _of_mate(mate.name)
        yield value, by_itself
        for said, (less, more) in zip(after, with_after, strict=False):
            yield said - value, less
            yield said + value, more
        for said, (less, more) in zip(before, with_before, strict=False):
            yield abs(said - value), less
            yield said + value, more
    if len(mates) > 1:
        yield sum(mate.value for mate in mates), named(f"qs{min(len(mates), 4)}")
        yield abs(mates[0].value - mates[1].value), named("qm")
        greatest = max(mate.value for mate in mates)
        yield 2 * greatest - sum(mate.value for mate in mates), named(f"qw{min(len(mates), 4)}")


Pairs = tuple[tuple[Bundle, Bundle], ...]


@lru_cache(maxsize=KEPT)
def _of_mate(name: str) -> tuple[Bundle, Pairs, Pairs]:
    """The clues of a mate: by itself; taken from and added to each number that is said later; and that was said before."""
    return (
        Bundle(((0, f"q{name}"), (1, f"q+1{name}"), (-1, f"q-1{name}"))),
        tuple((named(f"q-{rank}{name}"), named(f"q+{rank}{name}")) for rank in range(_NEAR)),
        tuple((named(f"Q-{rank}{name}"), named(f"Q+{rank}{name}")) for rank in range(_BEFORE)),
    )


def _of_rows(place: ShownPlace) -> Iterator[Hint]:
    """Where the rows of a chart begin and end, around the number that it marks or that is said with it."""
    name = place.slot.name
    if place.slot.kind != "hundred chart" or name not in ("start", "end"):
        return
    marked = [mate.value for mate in place.mates if mate.name == "mark"]
    for rank, value in enumerate(marked or [place.book.book.said[index] for index in place.after[:2]]):
        row = (value - 1) // 10
        for step in range(_ROWS):
            found = 10 * (row - step) + 1 if name == "start" else 10 * (row + step) + 10
            if 0 < found <= 100:
                yield found, named(f"qr{rank}{step}{name}")


def _companions(place: ShownPlace) -> Iterator[Hint]:
    """What stands beside the other numbers of the direction in the sentences that follow and went before."""
    mates = {mate.value for mate in place.mates}
    case = place.book.book.case
    if not place.slot.at < len(case.talk.words):
        return
    middle = case.sentence_index(place.slot.at)
    said = place.book.book.said_in_sentence
    for at in range(max(0, middle - 3), min(len(case.sentences), middle + _SENTENCES)):
        sentence = case.sentences[at]
        values = said[at][:_OF_SENTENCE]
        if sentence.segment != place.segment or not values:
            continue
        shared = len(mates.intersection(values))
        side = "n" if sentence.end > place.slot.at else "p"
        beside = _beside(side, min(shared, 3), min(len(mates), 3))
        for value in dict.fromkeys(values):
            if value not in mates:
                yield value, beside


@lru_cache(maxsize=KEPT)
def _beside(side: str, shared: int, mates: int) -> Bundle:
    return named(f"c{side}{shared}{mates}")


def _stated(place: ShownPlace) -> Iterator[Hint]:
    case = place.book.book.case
    mates = {mate.value for mate in place.mates}
    for start, end, side in (
        (place.slot.at, place.until, "n"),
        (max(place.start, place.slot.at - 25), place.slot.at, "p"),
    ):
        for statement in case.statements_between(start, end)[:_STATEMENTS]:
            values = statement.values[: -_STATED - 1 : -1]
            yield from zip(values, _of_statement(side, statement.kind, not mates.isdisjoint(values)), strict=False)
            if statement.expected is not None and not isinstance(statement.expected, bool):
                yield statement.expected, named(f"sx{side}")


@lru_cache(maxsize=KEPT)
def _of_statement(side: str, kind: str, with_mate: bool) -> tuple[Bundle, ...]:
    """The clues of the last numbers of a statement, the very last first."""
    kind = kind.split(" by")[0]
    return tuple(named(f"st{side}{at}{'m' if with_mate else ''}:{kind}") for at in range(_STATED))


def _other_pictures(place: ShownPlace) -> Iterator[Hint]:
    """What other directions of the segment show."""
    own = place.slot
    name = f"{own.kind}.{own.name}"
    groups = place.book.groups
    for way, most in ((-1, _EARLIER), (1, _LATER)):
        at, found, rank = place.group + way, 0, 0
        while 0 <= at < len(groups) and groups[at][0].direction.segment == place.segment and found < most:
            same = "=" if groups[at][0].direction.name == own.direction.name else ""
            side = f"{'p' if way < 0 else 'n'}{min(rank, 2)}{same}"
            changed = not isinstance(groups[at][0].direction, Show)
            close = bool(same) or rank < 2
            for slot in groups[at]:
                found += 1
                yield slot.value, _of_slot(side, slot.kind, slot.name, close, name)
                if close:
                    for mate in place.mates[:2]:
                        yield slot.value - mate.value, named(f"g{side}-{mate.name}")
                        yield slot.value + mate.value, named(f"g{side}+{mate.name}")
                    if len(groups[at]) == 2:
                        one, other = (slot.value for slot in groups[at])
                        yield other + (other - one), named(f"g{side}go{int(changed)}")
                        yield abs(other - one), named(f"g{side}gap")
            if len(groups[at]) > 1:
                yield sum(slot.value for slot in groups[at]), named(f"g{side}sum")
            rank += 1
            at += way


@lru_cache(maxsize=KEPT)
def _of_slot(side: str, kind: str, name: str, close: bool, own: str) -> Bundle:
    """What a number of another direction is, where it stands and for what number it speaks (`own`)."""
    return Bundle(
        ((0, f"g{side}"), (0, f"g{side}:{kind}.{name}>{own}"), *_steps(f"g{side}" if close else "", f">{own}"))
    )


def _on_the_screen(place: ShownPlace) -> Iterator[Hint]:
    """What the picture is before the direction changes it, and other pictures that stay on."""
    book = place.book.book
    for seen in book.screen(max(0, place.slot.at - 1), place.slot.at)[:3]:
        side = "=" if seen.moment.name == place.slot.direction.name else ""
        for role, value in book.look(seen.picture).roles:
            there, with_after = _on(side, role)
            yield value, there
            if side:
                for index, (less, more) in zip(place.after, with_after, strict=False):
                    yield abs(book.said[index] - value), less
                    yield book.said[index] + value, more


@lru_cache(maxsize=KEPT)
def _on(side: str, role: str) -> tuple[Bundle, Pairs]:
    """The clues of a number on the screen: by itself; taken from and added to the next numbers that are said."""
    return named(f"on{side}{role}"), tuple((named(f"on{rank}-{role}"), named(f"on{rank}+{role}")) for rank in range(3))


def _of_the_segment(place: ShownPlace) -> Iterator[Hint]:
    """What the segment shows elsewhere; its topics and wholes with the other numbers of the direction."""
    case = place.book.book.case
    for value, count in place.book.most_shown(place.segment):
        count -= value == place.value
        if count:
            yield value, _SHOWN[min(count, 4)]
    for mate in place.mates[:2]:
        for value in case.topics.get(place.segment, ()):
            yield abs(value - mate.value), named("topm")
        for value in case.named_wholes.get(place.segment, ()):
            yield value - mate.value, named("wholem")


def _everywhere(book: ShownBook, segment: int) -> Bundle:
    """What points to all numbers of a segment alike."""
    kept = book.everywhere.get(segment)
    if kept is None:
        kept = book.everywhere[segment] = Bundle(tuple(_of_all(book.book, segment)))
    return kept


def _of_all(book: Book, segment: int) -> Iterator[tuple[int, str]]:
    case = book.case
    for value, count in case.times_said_in(segment).most_common()[:_OFTEN]:
        yield value, f"seg{min(count, 5)}"
    for value, count in book.most_said[:6]:
        yield value, f"all{min(count // 4, 4)}"
    for value in case.topics.get(segment, ()):
        yield value, "topic"
        if value > 9:
            yield value // 10, "topt"
            yield value % 10, "topo"
    for value in case.named_wholes.get(segment, ()):
        yield value, "wholes"
    for value in book.titles.get(segment, ()):
        yield value, "title"
    for value in book.headings:
        yield value, "heading"


def _told(place: ShownPlace) -> Iterator[Hint]:
    """The last stories that were told in the segment, and their answers."""
    stories = place.book.book.case.talk.stories
    for story in stories[: bisect_left(stories, place.slot.at + 1, key=lambda story: story.start)][-2:]:
        if story.start < place.start:
            continue
        if story.answer is not None:
            yield story.answer, named("sans")
        for at, value in enumerate(story.told[:4]):
            yield value, named(f"stold{at}")


FINDERS = (_of_the_direction, _with_mates, _of_rows, _companions, _stated, _other_pictures, _of_the_segment)
"""Every sort of clue: what yields pairs of a number that may be shown at a place and the clues that point to it."""
