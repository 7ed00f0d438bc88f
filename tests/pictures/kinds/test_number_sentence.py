"""The number sentence, with the worked examples of CCSSM (2010), 1.OA.D.7 and D.8."""

from __future__ import annotations

import pytest

from studio.pictures.base import CannotShow
from tests.pictures.made import shown


@pytest.mark.parametrize(
    ("sentence", "true"),
    [
        ("6 = 6", True),
        ("7 = 8 - 1", True),
        ("5 + 2 = 2 + 5", True),
        ("4 + 1 = 5 + 2", False),
    ],
)
def test_it_knows_whether_it_holds(sentence: str, true: bool) -> None:
    assert shown(f"number sentence: {sentence}").holds is true  # type: ignore[attr-defined]


@pytest.mark.parametrize(("sentence", "found"), [("8 + ? = 11", 3), ("5 = ? - 3", 8), ("6 + 6 = ?", 12)])
def test_the_unknown_is_found_in_every_place(sentence: str, found: int) -> None:
    picture = shown(f"number sentence: {sentence}", "fill in")
    assert found in picture.numbers
    assert picture.holds is True  # type: ignore[attr-defined]


def test_a_chain_is_filled_in_one_after_another() -> None:
    # CCSSM 1.OA.C.6, from memory: 8 + 6 = 8 + 2 + 4 = 10 + 4 = 14.
    picture = shown("number sentence: 8 + 6 = 8 + 2 + ? = 10 + ? = ?", "fill in", "fill in", "fill in 14")
    assert picture.written == "8 + 6 = 8 + 2 + 4 = 10 + 4 = 14"  # type: ignore[attr-defined]
    assert picture.holds is True  # type: ignore[attr-defined]


def test_a_wrong_number_is_shown_as_it_was_said() -> None:
    picture = shown("number sentence: 7 + ? = 9", "fill in 3")
    assert picture.numbers == (7, 3, 9)
    assert picture.holds is False  # type: ignore[attr-defined]


def test_the_ring_goes_round_the_number_that_was_found_not_one_that_was_told() -> None:
    picture = shown("number sentence: 2 + ? = 4", "fill in", "circle 2")
    assert picture.rings == (1,)  # type: ignore[attr-defined]


def test_too_large_a_number_is_refused() -> None:
    with pytest.raises(CannotShow, match="0 to 1000"):
        shown("number sentence: 999 + ? = 2000")


def test_the_description_is_read_aloud_in_words() -> None:
    assert shown("number sentence: 9 - 7 = ?").description() == "Number sentence: 9 minus 7 equals unknown"
