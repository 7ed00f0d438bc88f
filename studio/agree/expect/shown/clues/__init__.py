"""Every sort of clue of a number in a direction, one file each: `find(place)` yields pairs of a number that may be shown at
a place and the clues that point to it; `around(place)` those that are the same for all numbers of the direction. A new sort
is one new file: it is found by itself; `benchmarks/expect.py fit` gives it its weights."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from importlib import import_module
from itertools import chain
from pkgutil import iter_modules

from studio.agree.expect.hints import Hint, clues_of
from studio.agree.expect.shown.place import ShownPlace

_Finder = Callable[[ShownPlace], Iterable[Hint]]
_MODULES = [import_module(f"{__name__}.{name}") for name in sorted(module.name for module in iter_modules(__path__))]
_AROUND: tuple[_Finder, ...] = tuple(module.around for module in _MODULES if hasattr(module, "around"))


def clues(place: ShownPlace) -> Iterator[tuple[int, str]]:
    """The numbers that may be shown at a place, each with the name of the clue that points to it; a clue that points
    twice counts twice."""
    return clues_of(chain.from_iterable(finder(place) for finder in FINDERS))


def _of_the_direction(place: ShownPlace) -> Iterable[Hint]:
    """What points to all numbers of a direction alike, worked out once."""
    kept = place.book.around.get(place.group)
    if kept is None:  # numbers and clues apart: a tuple for each pair would keep the collector busy
        hints = chain.from_iterable(finder(place) for finder in _AROUND)
        kept = place.book.around[place.group] = tuple(zip(*hints, strict=True))
    return zip(*kept, strict=True)


FINDERS: tuple[_Finder, ...] = (
    _of_the_direction,
    *(module.find for module in _MODULES if hasattr(module, "find")),
)
"""Every sort of clue: what yields pairs of a number that may be shown at a place and the clues that point to it."""
