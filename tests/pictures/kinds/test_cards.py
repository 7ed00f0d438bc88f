"""Number cards."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.pictures.base import CannotShow
from tests.pictures.made import said, shown


def test_a_card_that_is_turned_over_hides_its_number() -> None:
    picture = shown("cards: 0 to 8", "turn over 5")
    assert 5 not in picture.numbers
    assert picture.hidden == (5,)  # type: ignore[attr-defined]
    assert picture.marks == {"cards": 9, "turned": 1, "rings": 0}
    assert not any(getattr(shape, "text", "") == "5" for shape in picture.drawing().shapes)


def test_turned_again_it_shows_its_number() -> None:
    assert shown("cards: 0 to 8", "turn over 5", "turn over 5").numbers == tuple(range(9))


def test_cards_in_a_row_are_counted_by_their_numbers_and_others_by_one() -> None:
    assert said("cards: 0 to 4", "count") == [0, 1, 2, 3, 4]
    assert said("cards: 3, 5, 8", "count") == [1, 2, 3]
    assert said("cards: 3, 8", "count") == [1, 2]


def test_two_cards_are_a_row_where_it_is_said_how_far_apart_they_are() -> None:
    assert said("cards: 10, 20", "count by 10") == [10, 20]
    assert said("cards: 20, 10", "count by 10") == [20, 10]
    assert said("cards: 10, 20", "count") == [1, 2]
    assert said("cards: 10, 30", "count by 2") == [2]


@given(st.integers(0, 60), st.integers(-12, 12).filter(bool), st.integers(3, 11))
def test_a_row_of_cards_is_counted_forward_or_back_and_by_any_step(start: int, step: int, many: int) -> None:
    faces = [start + step * place for place in range(many)]
    if not all(0 <= face <= 120 for face in faces):
        return
    spec = f"cards: {', '.join(map(str, faces))}"
    assert said(spec, "count") == faces
    assert said(spec, f"count by {abs(step)}") == faces


def test_a_card_that_is_not_there_cannot_be_turned() -> None:
    with pytest.raises(CannotShow, match="no card 9"):
        shown("cards: 0 to 8", "turn over 9")


def test_a_card_that_is_marked_has_a_ring() -> None:
    picture = shown("cards: 16 to 24", "mark 19", "mark 21")
    assert picture == shown("cards: 16 to 24", "circle 19", "circle 21")
    assert picture.marks == {"cards": 9, "turned": 0, "rings": 2}
    with pytest.raises(CannotShow, match="19"):
        shown("cards: 0 to 8", "mark 19")
