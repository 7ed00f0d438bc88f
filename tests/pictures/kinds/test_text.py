"""Words on the screen."""

from __future__ import annotations

import pytest

from studio.pictures.base import CannotShow
from tests.pictures.made import shown


def test_long_words_are_set_in_lines() -> None:
    picture = shown("text: How many frogs are on the lily pad now that the ducks have come?")
    assert len(picture.lines) > 1  # type: ignore[attr-defined]
    assert " ".join(picture.lines) == picture.text  # type: ignore[attr-defined]


def test_numbers_written_in_digits_are_numbers() -> None:
    assert shown("text: Line up your 9 cards").numbers == (9,)


def test_a_text_does_not_change() -> None:
    with pytest.raises(CannotShow, match="does not change"):
        shown("text: frogs", "count")


def test_a_text_that_is_too_long_to_read_is_refused() -> None:
    with pytest.raises(CannotShow, match="160 letters"):
        shown("text: " + "many frogs " * 20)


def test_a_letter_that_the_fonts_do_not_have_is_refused_and_no_empty_box_is_drawn() -> None:
    with pytest.raises(CannotShow, match="no letter 蛙"):
        shown("text: 蛙 and 3 frogs")
    with pytest.raises(CannotShow, match="no letter ✓"):
        shown("word: ten ✓")
    assert shown("text: Très bien … “3”").numbers == (3,)


def test_no_word_is_left_alone_on_the_last_line() -> None:
    assert shown("text: How many frogs are there now?").lines == ("How many frogs", "are there now?")  # type: ignore[attr-defined]
    assert shown("text: Line up your cards").lines == ("Line up your cards",)  # type: ignore[attr-defined]
