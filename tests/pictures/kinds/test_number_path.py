"""The number path."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations, pairwise
from time import process_time

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.pictures.base import CannotShow
from studio.pictures.hops import arcs
from studio.pictures.shapes import Path
from tests.pictures.made import said, shown


def test_hops_are_counted_by_where_they_land() -> None:
    assert said("number path: 0 to 10", "hop 7 to 9, counting") == [8, 9]
    assert said("number path: 0 to 10", "hop 9 to 7, counting") == [8, 7]
    assert said("number path: 0 to 10", "hop 7 to 9") == [None]


def test_counting_begins_with_one_also_where_zero_is_there() -> None:
    assert said("number path: 0 to 4", "count") == [1, 2, 3, 4]
    assert said("number path: 0 to 20", "count by 5") == [5, 10, 15, 20]


def test_a_hop_beyond_the_end_is_refused() -> None:
    with pytest.raises(CannotShow, match="no 12 on the number path"):
        shown("number path: 0 to 10", "hop 9 to 12")


def test_a_path_that_is_too_long_says_how_long_it_can_be() -> None:
    with pytest.raises(CannotShow, match="room for 21"):
        shown("number path: 0 to 30")


def test_the_way_there_stays_on_the_way_back() -> None:
    there = shown("number path: 0 to 10", "hop 3 to 7, counting")
    back = shown("number path: 0 to 10", "hop 3 to 7, counting", "hop 7 to 5, counting")
    assert back.hops == (*there.hops, (7, 6), (6, 5))  # type: ignore[attr-defined]
    assert back.marks["hops"] == 6
    again = shown("number path: 0 to 10", "hop 7 to 9", "hop 9 to 7", "hop 7 to 9")
    assert again.hops == ((9, 7), (7, 9))  # type: ignore[attr-defined]


def test_a_hop_over_another_goes_higher() -> None:
    inner, outer = (arc.high for arc in arcs(((1, 3), (8, 0)), 92).values())
    assert outer > inner + 20


def _hops(start: int, end: int) -> st.SearchStrategy[list[tuple[int, int]]]:
    number = st.integers(start, end)
    hop = st.tuples(number, number).filter(lambda hop: hop[0] != hop[1])
    return st.lists(hop, min_size=2, max_size=4, unique=True)


@pytest.mark.parametrize(
    "spec", ["number path: 0 to 10", "number line: 0 to 10", "number line: 0 to 50", "number line: 0 to 100"]
)
@given(hops=_hops(0, 10))
def test_hops_that_meet_at_a_number_are_apart(spec: str, hops: list[tuple[int, int]]) -> None:
    """There and back, turned round, or one over another: all but those that cross in the air."""
    picture = shown(spec, *(f"hop {start} to {end}" for start, end in hops))
    paths = {s.key: s for s in picture.drawing().shapes if isinstance(s, Path) and s.counts}
    assert len(paths) == len(hops)
    for one, other in combinations(hops, 2):
        (a, b), (c, d) = sorted(one), sorted(other)
        if a < c < b < d or c < a < d < b:
            continue
        lines = [paths[f"hop {start} {end}"] for start, end in (one, other)]
        points = [np.array(_closely(path.points)) for path in lines]
        away = np.hypot(*(points[0][:, None] - points[1][None]).transpose(2, 0, 1)).min()
        assert away > lines[0].width + 0.5, (one, other)


def test_a_hop_just_over_another_is_hardly_higher_where_numbers_stand_closely() -> None:
    inner, outer = arcs(((0, 4), (0, 5)), 19.2).values()
    assert inner.high < outer.high < 2 * inner.high


def test_all_states_of_many_hops_over_one_another_are_drawn_in_a_moment() -> None:
    """All ways to make ten, there and back: a hop that comes costs only itself."""
    partners = [hop for number in range(1, 10) for hop in ((0, number), (number, 10), (10, number), (number, 0))]
    arcs.cache_clear()
    began = process_time()
    high = [max(arc.high for arc in arcs(tuple(partners[:count]), 112.0).values()) for count in range(1, 37)]
    assert process_time() - began < 2  # a tenth of it on an idle machine
    assert high == sorted(high)


def _closely(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    return [
        (x1 + (x2 - x1) * step / 8, y1 + (y2 - y1) * step / 8)
        for (x1, y1), (x2, y2) in pairwise(points)
        for step in range(9)
    ]
