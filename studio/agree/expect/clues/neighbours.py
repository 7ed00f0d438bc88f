"""The numbers before and after a place: the next in a count, their sum, their difference, a double, a half."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from functools import lru_cache

from studio.agree.expect.place import Place

_STEPS = (0, 1, -1, 2, -2, 5, 10, -10)


@lru_cache(maxsize=512)
def _names(side: str, link: str) -> tuple[tuple[int, str], ...]:
    return tuple((step, f"{side}{step}:{link}") for step in _STEPS)


def find(place: Place) -> Iterator[tuple[int, str]]:
    preceding, following = place.preceding, place.following
    to, on = place.link(-1), place.link(0)
    if preceding:
        last = preceding[-1]
        for step, name in _names("p", to):
            yield last + step, name
        yield 2 * last, "p*2:" + to
        if last % 2 == 0:
            yield last // 2, "p/2:" + to
        if len(preceding) > 1:
            joined = place.link(-2) + to
            earlier = preceding[-2]
            yield earlier + last, "pp+:" + joined
            yield abs(earlier - last), "pp-:" + joined
            yield 2 * last - earlier, "ppc:" + joined
            yield 10 * earlier + last, "ppt:" + joined
    if following:
        first = following[0]
        for step, name in _names("n", on):
            yield first + step, name
        yield 2 * first, "n*2:" + on
        if first % 2 == 0:
            yield first // 2, "n/2:" + on
        if len(following) > 1:
            joined = on + place.link(1)
            later = following[1]
            yield first + later, "nn+:" + joined
            yield abs(first - later), "nn-:" + joined
            yield 2 * first - later, "nnc:" + joined
            yield 10 * first + later, "nnt:" + joined
        if preceding:
            joined = to + on
            yield last + first, "pn+:" + joined
            yield abs(last - first), "pn-:" + joined
            if (last + first) % 2 == 0:
                yield (last + first) // 2, "pnm:" + joined
    yield from _pairs(dict.fromkeys(preceding), "pr4")
    yield from _pairs(dict.fromkeys(following), "nx3")
    for one, other in itertools.product(dict.fromkeys(preceding[-3:]), dict.fromkeys(following)):
        yield one + other, "mx+"
        yield abs(one - other), "mx-"
    yield from _length_of_count(place, to)


def _pairs(values: dict[int, None], name: str) -> Iterator[tuple[int, str]]:
    for one, other in itertools.combinations(values, 2):
        yield one + other, name + "+"
        yield abs(one - other), name + "-"


def _length_of_count(place: Place, to: str) -> Iterator[tuple[int, str]]:
    """How many numbers were just said in a row ("nine, ten: that is two more")."""
    links = place.book.links
    at = place.index - 1
    if not place.preceding:
        return
    length = 1
    while at > 0 and links[at - 1] == "0" and length < 30:
        at -= 1
        length += 1
    yield length, "run:" + to
    if length > 1:
        yield length - 1, "run-1"
