"""The ten frame."""

from __future__ import annotations

import pytest

from studio.pictures.base import CannotShow
from tests.pictures.made import said, shown, stepped


def test_rows_of_five_are_filled_top_row_first_and_dots_before_crosses() -> None:
    # Common practice, no source: ten-frame order.
    marks = [shape for shape in shown("ten frame: 7 dots and 2 crosses").drawing().shapes if shape.counts]
    places = [(mark.y, mark.x) for mark in marks]  # type: ignore[union-attr]
    assert places == sorted(places)
    assert [mark.counts for mark in marks] == ["dots"] * 7 + ["crosses"] * 2
    assert sum(y == places[0][0] for y, _ in places) == 5


def test_adding_in_a_count_names_each_new_total() -> None:
    steps = stepped("ten frame: 5 dots", "add 3 crosses, counting")
    assert [step.number for step in steps] == [6, 7, 8]
    assert [step.picture.marks["crosses"] for step in steps] == [1, 2, 3]


def test_taking_away_in_a_count_names_what_is_left() -> None:
    assert said("ten frame: 7 dots", "take away 2, counting") == [6, 5]


def test_without_counting_a_change_is_one_step() -> None:
    assert said("ten frame: 5 dots", "add 3 crosses") == [None]


def test_crosses_are_taken_away_before_dots() -> None:
    assert shown("ten frame: 7 dots and 2 crosses", "take away 3").marks == {"dots": 6, "crosses": 0}


def test_what_is_added_without_a_name_is_crosses_where_something_is_already_there() -> None:
    assert shown("ten frame: 5 dots", "add 2").marks == {"dots": 5, "crosses": 2}
    assert shown("ten frame: empty", "add 2").marks == {"dots": 2, "crosses": 0}


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ("add 4 crosses", "0 to 10"),
        ("take away 8", "only 7 marks"),
        ("fill in", "cannot 'fill in'"),
    ],
)
def test_what_cannot_be_is_said_in_a_sentence(change: str, words: str) -> None:
    with pytest.raises(CannotShow, match=words):
        shown("ten frame: 7 dots", change)


def test_the_description_says_each_sort_and_the_total() -> None:
    assert shown("ten frame: 7 dots and 2 crosses").description() == "Ten frame: 7 dots and 2 crosses, 9 in all"
    assert shown("ten frame: 1 dot").description() == "Ten frame: 1 dot"
    assert shown("ten frame: empty").description() == "Ten frame: empty"
