"""A story is worked with the numbers that it tells."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

NAME = "worked as told"

RIGHT_AND_WRONG = [
    (
        "I counted 14 newts by the bridge and 9 newts by the willow.\n\n# Bars\n\n"
        "[show compare bars: 14 and 9 as bars]\n"
        "The upper bar is the bridge, 14. The lower bar is the willow, 9. By how many is it longer? [wait 4 s] 5.",
        "counted 14",
        "counted 8",
    ),
    (
        "Twelve fish were in the brook. Five swam on.\n\n[show number sentence: 12 - 5 = ? as line]\n"
        "Twelve take away five "
        "is seven. [line: fill in 7] Seven.",
        "Twelve fish",
        "Twenty fish",
    ),
]
LOOK_ALIKES = [
    "Eight ducks and six ducks came to the pond.\n\n[show number sentence: 8 + 2 + 4 = 14 as line]\n"
    "Eight and two is ten, "
    "and four is fourteen.",
    "Eight frogs met five newts.\n\n"
    "[show compare bars: 8 and 3 as bars]\nEight is more than three. The five comes later.",
    "The heron ate seven fish and one snail.\n\n[show ten frame: 6 dots as frame]\nSix dots.",
    "[show ten frame: 7 dots as fish]\nSeven fish, said the heron. He closed one eye.\n\n[fish: take away 4]\nThree.",
]


@pytest.mark.parametrize(("text", "right", "wrong"), RIGHT_AND_WRONG)
def test_a_right_text_is_left_alone_and_one_wrong_number_is_found(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, NAME)


@pytest.mark.parametrize("text", LOOK_ALIKES)
def test_what_only_looks_like_it_is_left_alone(text: str) -> None:
    assert NAME not in rules(text)
