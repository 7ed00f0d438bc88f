"""The part-whole bar."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.pictures.shapes import Box, Words
from tests.pictures.bounds import edges
from tests.pictures.made import shown


def _lengths(spec: str, *changes: str) -> list[float]:
    return [s.width - 6 for s in shown(spec, *changes).drawing().shapes if isinstance(s, Box)]


def test_bars_are_as_long_as_their_numbers_are_large() -> None:
    whole, seven, two = _lengths("bar: 9 is 7 and 2")
    assert abs(seven / two - 7 / 2) < 0.01
    assert abs(whole - seven - two) < 0.01


def test_an_unknown_part_has_its_true_length_before_it_is_found() -> None:
    assert _lengths("bar: 9 is 7 and ?") == _lengths("bar: 9 is 7 and ?", "fill in")


def test_parts_that_do_not_make_the_whole_do_not_end_with_it() -> None:
    whole, *parts = _lengths("bar: 9 is 7 and 4")
    assert sum(parts) > whole + 50


@given(st.lists(st.integers(0, 40), min_size=2, max_size=6), st.integers(-2, 2))
def test_every_bar_has_its_true_length(parts: list[int], off: int) -> None:
    """Also where they do not make the whole: nothing is made longer for its numeral, and a 0 has no length."""
    numbers = [min(120, max(0, sum(parts) + off)), *parts]
    if not any(numbers):
        return
    lengths = _lengths(f"bar: {numbers[0]} is {' and '.join(map(str, parts))}")
    unit = max(lengths) / max(numbers)
    assert lengths == pytest.approx([number * unit for number in numbers], abs=0.01)


@given(st.lists(st.integers(0, 20), min_size=1, max_size=5), st.integers(0, 20))
def test_a_numeral_is_in_its_bar_or_outside_of_all_bars_and_on_no_other(parts: list[int], last: int) -> None:
    whole = sum(parts) + last
    for changes in ((), ("fill in",)):
        shapes = shown(f"bar: {whole} is {' and '.join(map(str, parts))} and ?", *changes).drawing().shapes
        bars = {s.key.split()[1]: edges(s) for s in shapes if isinstance(s, Box)}
        numerals = {s.key.split()[1]: edges(s) for s in shapes if isinstance(s, Words)}
        for place, (left, top, right, bottom) in numerals.items():
            mine = bars[place]
            inside = mine[0] + 6 <= left and right <= mine[2] - 6 and mine[1] < top and bottom < mine[3]
            assert inside or all(bottom < bar[1] or bar[3] < top for bar in bars.values())
        for (_, one), (_, other) in combinations(numerals.items(), 2):
            assert one[2] < other[0] or other[2] < one[0] or one[3] < other[1] or other[3] < one[1]
