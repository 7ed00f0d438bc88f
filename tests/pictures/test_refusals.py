"""What a picture cannot show is said in a right sentence, and what it shows too."""

from __future__ import annotations

import pytest

from studio.pictures.base import CannotShow
from tests.pictures.made import shown


@pytest.mark.parametrize(
    ("spec", "changes", "said"),
    [
        ("dots: 1", ["take away 2"], "There is only 1 mark in the dots now, so 2 cannot be taken away."),
        ("dots: 2", ["take away 3"], "There are only 2 marks in the dots now, so 3 cannot be taken away."),
        ("rekenrek: 1", ["take away 2"], "Only 1 bead is pushed, so 2 cannot be taken away."),
        ("rekenrek: 2", ["take away 3"], "Only 2 beads are pushed, so 3 cannot be taken away."),
        ("cards: 1 to 5", ["circle 3", "circle 3"], "The 3 in the cards has its ring already."),
        ("number bond: 9 is 7 and 2", ["circle 7", "circle 7"], "The 7 in the number bond has its ring already."),
        ("cards: 1 to 5", ["turn over 3", "circle 3"], "There is no 3 to circle in the cards now; it shows 1, 2, 4 and 5."),
        ("number bond: ? is 100 and 90", ["fill in"], "A number bond can show 0 to 120, not 190."),
        ("bar: ? is 100 and 90", ["fill in"], "A bar can show 0 to 120, not 190."),
        ("number sentence: 900 + 900 = ?", ["fill in"], "A number sentence can show 0 to 1000, not 1800."),
    ],
)  # fmt: skip
def test_a_refusal_is_a_right_sentence(spec: str, changes: list[str], said: str) -> None:
    picture = shown(spec, *changes[:-1])
    with pytest.raises(CannotShow) as refused:
        shown(spec, *changes)
    assert str(refused.value) == said
    assert picture.description()


def test_two_cards_alike_can_each_have_a_ring() -> None:
    assert shown("cards: 7, 7", "circle 7", "circle 7").marks["rings"] == 2


def test_one_bead_is_one() -> None:
    assert shown("rekenrek: 1 and 1").description() == "Rekenrek: 1 bead above and 1 below, 2 in all"


@pytest.mark.parametrize(
    ("word", "numbers"), [("a", ()), ("and", ()), ("A and", ()), ("a hundred and one", (101,)), ("zero", (0,))]
)
def test_a_word_shows_a_number_only_where_it_names_one(word: str, numbers: tuple[int, ...]) -> None:
    assert shown(f"word: {word}").numbers == numbers
