"""Every sort of clue, one file each: `find(place)` yields pairs of a number that may be said at a place and the name of
the clue that points to it. A new sort is one new file: it is found by itself; `benchmarks/expect.py fit` gives it its
weights."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from importlib import import_module
from pkgutil import iter_modules

from studio.agree.expect.place import Place

Clue = tuple[int, str]

FINDERS: tuple[Callable[[Place], Iterator[Clue]], ...] = tuple(
    import_module(f"{__name__}.{module.name}").find
    for module in sorted(iter_modules(__path__), key=lambda module: module.name)
)
