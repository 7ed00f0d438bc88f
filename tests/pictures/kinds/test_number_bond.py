"""The number bond."""

from __future__ import annotations

import pytest

from studio.pictures.base import CannotShow
from tests.pictures.made import shown


def test_the_unknown_is_a_question_mark_and_no_number() -> None:
    picture = shown("number bond: 9 is 7 and ?")
    assert picture.numbers == (9, 7)
    assert picture.marks["unknowns"] == 1
    assert picture.holds is None  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("spec", "numbers"),
    [
        ("9 is 7 and ?", (9, 7, 2)),
        ("? is 5 and 3", (8, 5, 3)),
        ("10 is 2 and ? and 5", (10, 2, 3, 5)),
    ],
)
def test_filling_in_works_the_number_out(spec: str, numbers: tuple[int, ...]) -> None:
    picture = shown(f"number bond: {spec}", "fill in")
    assert picture.numbers == numbers
    assert picture.holds is True  # type: ignore[attr-defined]


def test_a_wrong_number_is_shown_as_it_was_said() -> None:
    picture = shown("number bond: 9 is 7 and ?", "fill in 3")
    assert picture.numbers == (9, 7, 3)
    assert picture.holds is False  # type: ignore[attr-defined]


def test_the_ring_goes_round_the_number_that_was_found() -> None:
    picture = shown("number bond: 4 is 2 and ?", "fill in", "circle 2")
    assert picture.ringed == (2,)  # type: ignore[attr-defined]
    assert picture.rings == (2,)  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("spec", "change", "words"),
    [
        ("5 is 7 and ?", "fill in", "less than 0"),
        ("? is 7 and ?", "fill in", "cannot be worked out"),
        ("9 is 7 and 2", "fill in", "no \\? left"),
        ("9 is 7 and ?", "circle 2", "no 2 to circle"),
    ],
)
def test_what_cannot_be_is_said_in_a_sentence(spec: str, change: str, words: str) -> None:
    with pytest.raises(CannotShow, match=words):
        shown(f"number bond: {spec}", change)
