"""A closing sentence has the number that was just found."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

NAME = "closes with its answer"

RIGHT_AND_WRONG = [
    (
        "How many newts are there? Nine newts and seven. Nine plus seven equals sixteen. There are sixteen newts.",
        "are sixteen newts",
        "are eighteen newts",
    ),
    (
        "The otter counts her cousins. Eight plus eight equals sixteen. Sixteen cousins, and only one bath.",
        "Sixteen cousins",
        "Five cousins",
    ),
    ("We count the snails. Ten take away two equals eight. So eight snails.", "So eight", "So eleven"),
]
LOOK_ALIKES = [
    "We count the snails. Ten take away two equals eight. Two snails, and they are slow.",
    "We count ducks. Six plus two equals eight. Five beavers came by.",
    "Here are ducks. Twelve and two more is fourteen. Seven pairs.",
    "I take nine sticks away. 24 minus 4 is 20. There are still 5 to take away.",
    "Seven and three make ten. Another pair that makes ten is four and six.",
    "How many ducks are there? Six plus two equals eight. Five ducks were asleep, and they woke up.",
]


@pytest.mark.parametrize(("text", "right", "wrong"), RIGHT_AND_WRONG)
def test_a_right_text_is_left_alone_and_one_wrong_number_is_found(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, NAME)


@pytest.mark.parametrize("text", LOOK_ALIKES)
def test_what_only_looks_like_it_is_left_alone(text: str) -> None:
    assert NAME not in rules(text)
