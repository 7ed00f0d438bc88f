"""From the hints and the tokens of places to what a network reads: for every number of a place the clues that point to it.
All places are worked out together, for a lesson has a hundred thousand clues."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from typing import Any, TypeVar

import numpy as np
import numpy.typing as npt
from scipy.sparse import csr_matrix

from studio.agree.expect.company import Company
from studio.agree.expect.hints import Bundle, Hint, named
from studio.agree.expect.network import Network, Pointing
from studio.agree.expect.relations import GREATEST
from studio.agree.expect.rows import Indices, Rows

P = TypeVar("P")
COMMON = range(21)
"""Numbers that may be said anywhere, without a clue."""
EDGE = "place"
"""A token of every place."""
_ITSELF = tuple(f"v{value}" for value in (*COMMON, "b"))
_CELLS = GREATEST + 2
"""The numbers of a place: its own, then all from nought on."""
_FAR = 2**30
"""No number that anyone looks at."""


def itself(value: int) -> str:
    """The clue that every number is to itself; those that are not common have one for all."""
    return _ITSELF[min(value, len(_ITSELF) - 1)]


def point(
    network: Network,
    places: Sequence[P],
    values: Sequence[int],
    finders: Sequence[Callable[[P], Iterable[Hint]]],
    surroundings: Sequence[Callable[[P], Iterable[Bundle]]],
    company: Callable[[Sequence[P]], Company] | None = None,
) -> Pointing:
    """What is pointed to at places where `values` are said or shown, by the clues (`finders`) and the tokens
    (`surroundings`) of each that the network knows. The number that is said or shown comes first, then the others by their
    size; of every number first the clue that it is to itself, then the others in the order of the finders. `company` tells the
    numbers around the places, if the network looks at them."""
    beside = company(places) if company is not None and network.has_company else None
    own = _integers(values)
    owner, pointed, clues = _clues(network.clue, places, finders)
    mine = pointed == own[owner]
    inside = mine | (pointed >= 0) & (pointed <= GREATEST)
    cells = (owner * _CELLS + np.where(mine, 0, pointed + 1))[inside]
    there = _there(own, cells)
    rows = np.flatnonzero(there).astype(np.int32)
    place, column = np.divmod(rows, _CELLS)
    numbers = np.where(column == 0, own[place], column - 1)
    selves = np.array([network.clue[name] for name in _ITSELF], dtype=np.int32)[np.minimum(numbers, len(COMMON))]
    ends, order = _by_cell(np.concatenate((rows, cells)), there.size)
    return Pointing(
        Rows(numbers, _ends(there.sum(axis=1))),
        Rows(np.concatenate((selves, clues[inside]))[order], np.append(ends[rows], ends[-1])),
        _tokens(network.token, places, surroundings),
        beside,
        None if beside is None else _around(network.token, beside.around),
    )


def _ends(counts: npt.NDArray[Any]) -> Indices:
    """Where rows of these lengths end."""
    return np.concatenate(([0], np.cumsum(counts))).astype(np.int32)


def _there(own: Indices, cells: Indices) -> npt.NDArray[np.bool_]:
    """Which cells stand for a number: the own one of each place, all that are common, all that are pointed to."""
    there = np.zeros((len(own), _CELLS), dtype=bool)
    there[:, : len(COMMON) + 1] = True
    common = np.flatnonzero(own < len(COMMON))
    there[common, own[common] + 1] = False
    there.reshape(-1)[cells] = True
    return there


def _by_cell(cells: Indices, size: int) -> tuple[Indices, Indices]:
    """What stands in each cell, in the order in which it came: where it starts, and its indices. A sparse matrix with a row
    for each is turned round: scipy counts the cells, where to sort them would take eight times as long."""
    each = csr_matrix((np.ones(len(cells), dtype=bool), cells, np.arange(len(cells) + 1)), shape=(len(cells), size))
    turned = each.tocsc()
    return turned.indptr, turned.indices


def _clues(
    index: Mapping[str, int], places: Sequence[P], finders: Sequence[Callable[[P], Iterable[Hint]]]
) -> tuple[Indices, Indices, Indices]:
    """Every known clue by itself: the index of its place, the number that it points to, its own index. One finder after the
    other goes through all places: with one place after the other the whole check takes a twelfth longer."""
    values: list[int] = []
    bundles: list[Bundle] = []
    ends = [0]
    for finder in finders:
        for place in places:
            for value, bundle in finder(place):
                values.append(value)
                bundles.append(bundle)
            ends.append(len(values))
    at, which = _numbered(bundles)
    steps, known = _known(index, at)
    found = known.where(which)
    many = np.diff(found.ends)
    owner = _owner(places, ends)
    pointed = np.repeat(_integers(values), many) + steps[found.items]
    return np.repeat(owner, many), pointed, known.items[found.items]


def _tokens(index: Mapping[str, int], places: Sequence[P], finders: Sequence[Callable[[P], Iterable[Bundle]]]) -> Rows:
    """The indices of the known tokens of each place."""
    bundles = [named(EDGE)] * len(places)
    ends = [*range(len(places) + 1)]
    for finder in finders:
        for place in places:
            bundles += finder(place)
            ends.append(len(bundles))
    found = _found(index, bundles)
    owner = np.repeat(_owner(places, ends), np.diff(found.ends))
    starts, order = _by_cell(owner, len(places))
    return Rows(found.items[order], starts)


def _around(index: Mapping[str, int], numbers: Sequence[Sequence[Bundle]]) -> Rows:
    """The indices of the known tokens around each number of a company; none around the empty seat, the last."""
    found = _found(index, [bundle for bundles in numbers for bundle in bundles])
    ends = np.cumsum([0, *map(len, numbers)])
    return Rows(found.items, np.append(found.ends[ends], found.ends[-1]))


def _found(index: Mapping[str, int], bundles: Sequence[Bundle]) -> Rows:
    """The indices of the known names in each bundle."""
    at, which = _numbered(bundles)
    return _known(index, at)[1].some(which)


def _numbered(bundles: Sequence[Bundle]) -> tuple[Collection[Bundle], Indices]:
    """The different bundles, and for each bundle which of them it is."""
    at = {bundle: index for index, bundle in enumerate(dict.fromkeys(bundles))}
    return at, np.array(list(map(at.__getitem__, bundles)), dtype=np.int32)


def _owner(places: Sequence[P], ends: Sequence[int]) -> Indices:
    """The index of the place of each thing, where one finder after the other went through all places; `ends` are where the
    things of each finder at each place end."""
    each = np.arange(len(ends) - 1, dtype=np.int32) % len(places)
    return np.repeat(each, np.diff(ends))


def _known(index: Mapping[str, int], bundles: Iterable[Bundle]) -> tuple[Indices, Rows]:
    """The indices of the names in bundles that are known, a row for each bundle; and the step of each of these names."""
    steps: list[int] = []
    found: list[int] = []
    ends = [0]
    for bundle in bundles:
        near, known = bundle.known(index)
        steps += near
        found += known
        ends.append(len(found))
    return np.array(steps, dtype=np.int32), Rows.of(found, ends)


def _integers(values: Sequence[int]) -> Indices:
    """The numbers; those that are too great are far away all the same."""
    try:
        return np.clip(np.array(values, dtype=np.int64), -_FAR, _FAR).astype(np.int32)
    except OverflowError:
        return np.array([max(-_FAR, min(value, _FAR)) for value in values], dtype=np.int32)
