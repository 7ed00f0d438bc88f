"""The part-whole bar."""

from __future__ import annotations

from studio.pictures.shapes import Box
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


def test_small_parts_keep_room_for_their_numeral() -> None:
    assert min(_lengths("bar: 100 is 1 and 99")) > 100
    assert min(_lengths("bar: 5 is 0 and 5")) > 100
