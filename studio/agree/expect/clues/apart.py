"""The numbers around a place, each value once and without a "one" that only points to a thing ("on one hand"), by how far they
stand off: what two of them make, what lies between them ("Eight fingers: five on one hand and three on the other")."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import combinations

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.place import Book, Place

_BEFORE, _BEHIND = 4, 3  # values
_REACH = 14  # numbers
_FAR = 3  # sentences
_AT_ITS_SIDE = frozenset(
    "and plus more less fewer is are was makes make made equals equal minus take takes left dot dots cross ten tens or than to "
    "from away gives".split()
)
"""Words behind a "one" that is a number of its own, as where a phrase ends behind it."""


def find(place: Place) -> Iterator[Hint]:
    book, index = place.book, place.index
    idle = book.once(_pointing_ones)
    before = list(_values(place, range(index - 1, max(-1, index - _REACH), -1), _BEFORE, idle))
    behind = list(_values(place, range(index + 1, min(len(book.numbers), index + _REACH)), _BEHIND, idle))
    for side, values in (("p", before), ("n", behind)):
        for rank, (value, away) in enumerate(values):
            yield value, _again(side, rank, away)
        for (one, (first, near)), (other, (second, far)) in combinations(enumerate(values), 2):
            together, apart = _pair(f"{side}{one}{other}", near, far)
            yield first + second, together
            yield abs(first - second), apart
    for one, (first, near) in enumerate(before[:2]):
        for other, (second, far) in enumerate(behind[:2]):
            together, apart = _pair(f"m{one}{other}", near, far)
            yield first + second, together
            yield abs(first - second), apart
    if len(before) > 2:
        low, middle, high = sorted(value for value, _ in before[:3])
        yield low + middle + high, named("mxd3+")
        yield abs(high - low - middle), named("mxd3-")


def _values(place: Place, indices: range, most: int, idle: frozenset[int]) -> Iterator[tuple[int, int]]:
    """The values of these numbers of the segment, each once, with how many sentences they are away."""
    book, seen = place.book, set[int]()
    for at in indices:
        number = book.numbers[at]
        if not place.start <= number.start < place.end:
            return
        if number.value in seen or at in idle:
            continue
        seen.add(number.value)
        yield number.value, min(_FAR, abs(book.sentence_of[at] - place.sentence_index))
        if len(seen) == most:
            return


def _pointing_ones(book: Book) -> frozenset[int]:
    """The numbers of a lesson that are a "one" with its thing behind it."""
    return frozenset(
        at
        for at, number in enumerate(book.numbers)
        if number.value == 1 and book.after[at].word.isalpha() and book.after[at].word not in _AT_ITS_SIDE
    )


@lru_cache(maxsize=KEPT)
def _again(side: str, rank: int, away: int) -> Bundle:
    """The clues of one of the values: it again, one more, one less."""
    return Bundle((*((step, f"{side}{step}:d{rank}{away}") for step in (0, 1, -1)), (0, f"{side}0:d{rank}")))


@lru_cache(maxsize=KEPT)
def _pair(which: str, near: int, far: int) -> tuple[Bundle, Bundle]:
    """The clues of what two of the values make and of what lies between them."""
    together, apart = f"mxd{which}+", f"mxd{which}-"
    return named(together, f"{together}:{near}{far}"), named(apart, f"{apart}:{near}{far}")
