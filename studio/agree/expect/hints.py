"""Hints: the numbers that may stand at a place, each with the clues that point to it. Many clues always come together
("it is on the screen", "it is the total of a ten frame", "it is the total, and frogs are named with it"): they are one
bundle, which is made once and then only handed about. So are the tokens that come together around a place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache

KEPT = 2**14
"""Bundles of a sort that are kept for the next places: more than there are in a long lesson."""


class Bundle:
    """Names of clues or of tokens that come together. With each goes how far the number that the clue points to lies from
    the number that the bundle comes with (0: it is that number; for tokens always 0)."""

    __slots__ = ("_kept", "names")

    def __init__(self, names: tuple[tuple[int, str], ...]) -> None:
        self.names = names
        self._kept: tuple[Mapping[str, int], tuple[int, ...], tuple[int, ...]] = {}, (), ()

    def known(self, index: Mapping[str, int]) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """The steps and the indices of the names that stand in `index`; looked up again only where it is another one."""
        kept = self._kept
        if index is not kept[0]:
            found = [(step, index[name]) for step, name in self.names if name in index]
            kept = self._kept = index, tuple([step for step, _ in found]), tuple([at for _, at in found])
        return kept[1:]


Hint = tuple[int, Bundle]
"""A number and the clues that come with it."""


def at_place(names: Iterable[str]) -> Bundle:
    """Clues that all point to the number that they come with, or tokens; made anew, for such as hardly come together again."""
    return Bundle(tuple((0, name) for name in names))


@lru_cache(maxsize=KEPT)
def named(*names: str) -> Bundle:
    """The same, made once and kept."""
    return at_place(names)


def clues_of(hints: Iterable[Hint]) -> Iterator[tuple[int, str]]:
    """Pairs of a number and the name of a clue that points to it; a clue that points twice comes twice."""
    for value, bundle in hints:
        for step, name in bundle.names:
            yield value + step, name


def tokens_of(bundles: Iterable[Bundle]) -> Iterator[str]:
    """The names of tokens; one that comes twice is there twice."""
    for bundle in bundles:
        for _, name in bundle.names:
            yield name
