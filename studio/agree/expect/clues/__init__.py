"""Every sort of clue, one file each: `find(place)` yields pairs of a number that may be said at a place and the clues that
point to it. A new sort is one new file: it is found by itself; `benchmarks/expect.py fit` gives it its
weights."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from importlib import import_module
from pkgutil import iter_modules

from studio.agree.expect.hints import Hint
from studio.agree.expect.place import Place

FINDERS: tuple[Callable[[Place], Iterator[Hint]], ...] = tuple(
    import_module(f"{__name__}.{module.name}").find
    for module in sorted(iter_modules(__path__), key=lambda module: module.name)
)
