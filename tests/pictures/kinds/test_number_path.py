"""The number path."""

from __future__ import annotations

import pytest

from studio.pictures.base import CannotShow
from studio.pictures.hops import heights
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


def test_a_hop_back_takes_the_place_of_the_hop_there() -> None:
    """Two arcs on one stretch would lie on each other and could not be counted."""
    there = shown("number path: 0 to 10", "hop 7 to 9")
    back = shown("number path: 0 to 10", "hop 7 to 9", "hop 9 to 7")
    assert there.hops == ((7, 9),) and back.hops == ((9, 7),)  # type: ignore[attr-defined]
    assert back.marks["hops"] == 1


def test_a_hop_over_another_goes_higher() -> None:
    inner, outer = heights([(1, 3), (8, 0)], 92).values()
    assert outer > inner + 20
