"""The numbers before and after a place: the next in a count, their sum, their difference, a double, a half."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.place import Place
from studio.agree.wording import ONE_THINGS, TEN_THINGS

_LISTED = 12  # numbers
_NEAREST = 3  # numbers
_STEPS = (0, 1, -1, 2, -2, 5, 10, -10)


@lru_cache(maxsize=KEPT)
def _of_nearest(side: str, link: str) -> tuple[Bundle, ...]:
    """The clues of the nearest number: a few steps from it, its double, its half."""
    steps = Bundle(tuple((step, f"{side}{step}:{link}") for step in _STEPS))
    return steps, named(f"{side}*2:{link}"), named(f"{side}/2:{link}")


@lru_cache(maxsize=KEPT)
def _of_two(side: str, joined: str, tens: str) -> tuple[Bundle, ...]:
    """The clues of the two nearest: their sum, their difference, the next of their count, the two as digits."""
    return tuple(named(f"{side}{side}{sort}:{joined}") for sort in ("+", "-", "c", "t" + tens))


def find(place: Place) -> Iterator[Hint]:
    preceding, following = place.preceding, place.following
    to, on = place.link(-1), place.link(0)
    if preceding:
        yield from _side("p", preceding[::-1], to, place.link(-2) + to, _named_tens(place, -2, -1))
        yield from _digits("p", preceding[::-1], place)
    if following:
        yield from _side("n", following, on, on + place.link(1), _named_tens(place, 1, 2))
        yield from _digits("n", following, place)
    if preceding and following:
        last, first = preceding[-1], following[0]
        joined = to + on
        yield last + first, named("pn+:" + joined)
        yield abs(last - first), named("pn-:" + joined)
        if (last + first) % 2 == 0:
            yield (last + first) // 2, named("pnm:" + joined)
    yield from _pairs(dict.fromkeys(preceding), "pr4")
    yield from _pairs(dict.fromkeys(following), "nx3")
    mixed, apart = named("mx+"), named("mx-")
    for one, other in itertools.product(dict.fromkeys(preceding[-3:]), dict.fromkeys(following)):
        yield one + other, mixed
        yield abs(one - other), apart
    yield from _length_of_count(place, to)
    yield from _times(place, to, on)


def _named_tens(place: Place, tens: int, ones: int) -> str:
    """ "N" where the numbers so many places on are said to be tens and ones ("four tens and four ones: forty-four")."""
    book, at = place.book, place.index
    if at + tens < 0 or at + ones >= len(book.numbers):
        return ""
    return "N" if book.after[at + tens].word in TEN_THINGS and book.after[at + ones].word in ONE_THINGS else ""


def _digits(side: str, values: list[int], place: Place) -> Iterator[Hint]:
    """The tens or the ones of the numbers on one side, where that is what is named ("40 is 4 tens")."""
    thing = place.after.word
    for rank, value in enumerate(values[:_NEAREST]):
        if value > 9 and thing in TEN_THINGS:
            yield value // 10, named(f"{side}dt{rank}")
        if value > 9 and thing in ONE_THINGS:
            yield value % 10, named(f"{side}do{rank}")


def _side(side: str, values: list[int], link: str, joined: str, named_tens: str) -> Iterator[Hint]:
    """What the numbers on one side point to, the nearest first; `joined` are the links of the two nearest, `named_tens`
    tells whether these are said to be tens and ones."""
    near = values[0]
    steps, double, half = _of_nearest(side, link)
    yield near, steps
    yield 2 * near, double
    if near % 2 == 0:
        yield near // 2, half
    if len(values) > 1:
        far = values[1]
        tens, ones = (far, near) if side == "p" else (near, far)  # as they are said
        together, apart, count, two_digits = _of_two(side, joined, named_tens)
        yield near + far, together
        yield abs(near - far), apart
        yield 2 * near - far, count
        yield 10 * tens + ones, two_digits


def _pairs(values: dict[int, None], name: str) -> Iterator[Hint]:
    together, apart = named(name + "+"), named(name + "-")
    for one, other in itertools.combinations(values, 2):
        yield one + other, together
        yield abs(one - other), apart


def _times(place: Place, to: str, on: str) -> Iterator[Hint]:
    """So many of so much ("four dice with five dots each: twenty"), and how many are listed next ("four cards, five, six,
    seven and eight")."""
    preceding, following = place.preceding, place.following
    if len(preceding) > 1:
        yield preceding[-1] * preceding[-2], named("times:" + to)
    if following and following[0]:
        near = following[0]
        for seen in place.book.screen(place.number.start, place.number.start + 1)[:1]:
            for value in place.book.look(seen.picture).essential[-1:]:
                if value % near == 0:
                    yield value // near, named("heaps:" + on)
        if len(following) > 1 and following[1] % near == 0:
            yield following[1] // near, named("heapn:" + on)
    links, at, listed = place.book.links, place.index + 1, 1
    while at < len(links) and links[at] in ("0", "A") and listed < _LISTED:
        at += 1
        listed += 1
    if following and listed > 1:
        yield listed, named("list:" + on, "list:" + place.after.word)


def _length_of_count(place: Place, to: str) -> Iterator[Hint]:
    """How many numbers were just said in a row ("nine, ten: that is two more")."""
    links = place.book.links
    at = place.index - 1
    if not place.preceding:
        return
    length = 1
    while at > 0 and links[at - 1] == "0" and length < 30:
        at -= 1
        length += 1
    yield length, named("run:" + to)
    if length > 1:
        yield length - 1, named("run-1")
