"""Every sort of clue, one file each: `find(place)` yields pairs of a number that may be said at a place and the clues that
point to it. A new sort is one new file: it is found by itself; `benchmarks/expect.py fit` gives it its
weights."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from importlib import import_module
from itertools import chain
from pkgutil import iter_modules

from studio.agree.expect.hints import Hint, clues_of
from studio.agree.expect.place import Place

FINDERS: tuple[Callable[[Place], Iterator[Hint]], ...] = tuple(
    import_module(f"{__name__}.{module.name}").find
    for module in sorted(iter_modules(__path__), key=lambda module: module.name)
)


def clues(place: Place) -> Iterator[tuple[int, str]]:
    """The numbers that may be said at a place, each with the name of the clue that points to it; a clue that points
    twice counts twice."""
    return clues_of(chain.from_iterable(finder(place) for finder in FINDERS))
