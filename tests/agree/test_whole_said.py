"""A number that is said of all of a picture is all that it shows."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

RULE = "whole as said"


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (
            "[show dots: 7 as stones]\nSeven stones by the water. I begin on the left. [stones: count]\n"
            "One, two, three, four, five, six, seven.",
            "Seven stones",
            "Two stones",
        ),
        ("[show tally: 14 as strokes]\nThis is fourteen in sticks.", "is fourteen", "is five"),
        ("[show base ten: 18 as stall]\nOn the stall, eighteen. A bunch of ten and eight loose.",
         "stall, eighteen", "stall, one"),
        ("[show five frame: 3 dots as ducks]\nThree ducks! Hello ducks.", "Three", "Zero"),
        ("[show dots: 5 as otters]\nNobody came. Nobody left. It is still five, however far they swim.", "five", "two"),
        ("[show dots: 8 as tadpoles]\nThese are eight tadpoles.", "eight", "five"),
        ("[show double ten frame: 15 dots]\nFifteen on the frames. The top frame is full.", "Fifteen", "Ten"),
        ("[show rekenrek: 5 and 2]\nFive squats, two hops. Seven again.", "Seven", "One"),
    ],
)  # fmt: skip
def test_the_wrong_whole_is_found_and_the_right_one_is_not_minded(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, RULE)


@pytest.mark.parametrize(
    "text",
    [
        "[show dots: 7 as stones]\nTwo stones by the water. Five stones in it. That makes seven.",
        "[show dots: 5 as pond]\nMore ducks come. Now there are seven ducks. [pond: add 2]\nTwo ducks came.",
        "[show dots: 4 dots and 3 crosses as newts]\nFour newts. And three newts. Seven newts.",
        "[show tally: 10 as gates]\nTwo gates in a fence. Count them by fives. [gates: count by 5]\nFive, ten.",
        "[show base ten: 30 as proof]\nThree tens on the mat. Thirty.",
        "[show dots: 7 as pond]\nSeven frogs. I nearly began at one again.",
        "[show dots: 7 as stones]\nIs it two stones? No, seven.",
    ],
)
def test_a_part_that_is_told_on_its_own_is_left_in_peace(text: str) -> None:
    assert RULE not in rules(text)
