"""What is said when the direction takes effect and before it: the numbers themselves, their doubles and halves, tens and
ones, the sums and differences of two that are said one after the other."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.place import Side
from studio.agree.expect.shown.place import ShownPlace
from studio.agree.expect.shown.steps import steps
from studio.agree.wording import TEN_THINGS

_NEAR = 5  # numbers
_DOUBLE_AFTER = tuple(named(f"a{rank}*2") for rank in range(_NEAR))
_DOUBLE_BEFORE = tuple(named(f"b{rank}*2") for rank in range(_NEAR))
_HALF = tuple(named(f"a{rank}/2") for rank in range(_NEAR))


def around(place: ShownPlace) -> Iterator[Hint]:
    yield from _said_after(place)
    yield from _said_before(place)


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
            ones = index + 1
            if ones in place.after and book.said[ones] == 10 and book.numbers[ones].start == number.end:
                ones += 1  # the "ten" of "one ten" is a number, too
            if ones in place.after and book.said[ones] < 10:
                yield 10 * value + book.said[ones], named(f"aXo{min(rank, 2)}")
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
    return Bundle((*((0, name) for name in names), *steps(f"a{rank}" if rank < _NEAR else "")))


@lru_cache(maxsize=KEPT)
def _before(rank: int, here: str, before: Side, after: Side) -> Bundle:
    """The same of a number that was said before."""
    names = [f"b{min(rank, 5)}{here}", f"b{here}", f"ba:{after.sort}", f"bb:{before.sort}", f"bw:{after.word}"]
    return Bundle((*((0, name) for name in names), *steps(f"b{rank}" if rank < _NEAR else "")))


@lru_cache(maxsize=KEPT)
def _joined(side: str, rank: int, link: str) -> tuple[Bundle, Bundle]:
    """The sum and the difference of two numbers that are said one after the other."""
    return named(f"{side}{rank}s:{link}"), named(f"{side}{rank}m:{link}")
