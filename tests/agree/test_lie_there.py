"""So many dice and cards as are told when they come on."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

RULE = "as many as lie there"


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (
            "[show dice: 6 and 6 as dice]\nTwo dice, both sixes. Double six is twelve.",
            "Two dice",
            "Six dice",
        ),
        (
            "[show cards: 8, 11, 15 as cards]\nThree cards lie in the grass: an eight, an eleven and a fifteen.",
            "Three cards",
            "Five cards",
        ),
    ],
)
def test_the_wrong_number_is_found_and_the_right_one_is_not_minded(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, RULE)


@pytest.mark.parametrize(
    "text",
    [
        "[show cards: 1, 4, 6, 9 as cards]\nPick two cards that make ten. One and nine do, and four and six do.",
        "[show dice: 6 and 3 and 4 as dice]\nI look for two dice that make ten. Six and four make ten, and three more makes thirteen.",
        "[show cards: 5, 6, 7, 9 as cards]\nFive, six, seven, nine. With the eight we had five cards.",
    ],
)
def test_talk_that_only_looks_like_it_is_left_in_peace(text: str) -> None:
    assert RULE not in rules(text)
