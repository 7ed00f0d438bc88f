"""Parts that are told one after the other are the parts that lie there."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

RULE = "parts as told"


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        ("[show dice: 4 and 2 as dice]\nTwo dice. Four here, two there. Six again.", "two there", "three there"),
        ("[show dice: 6 and 4 as dice]\nTen with spots. Six on the left, four on the right.", "Six on", "Four on"),
        ("[show dice: 5 and 3 as dice]\nSpots on the rocks, five on this one and three on that one.",
         "5 and 3", "3 and 3"),
        ("[show number bond: 20 is 14 and 6 as bond]\nFourteen at home, six over the hill. Twenty newts.",
         "six over", "twenty over"),
        ("[show number bond: 6 is 4 and 2 as bond]\nFour in this paw, two in that paw.", "two in", "six in"),
        ("[show number bond: 9 is 6 and 3 as bond]\nSix under the willow, three in the rain.", "three in", "nine in"),
        ("[show double ten frame: 8 dots and 8 crosses]\nEight dots against eight crosses. Sixteen in all.",
         "eight crosses", "six crosses"),
        ("[show double ten frame: 16 dots]\nSixteen. Ten in the first frame, six in the other.", "Ten in", "Six in"),
        ("[show double ten frame: 16 dots]\nDraw a full ten. Draw six more. You have sixteen.",
         "full ten", "full sixteen"),
        ("[show double ten frame: 19 dots]\nNineteen! A full tray of ten buns, and nine on the second tray.",
         "ten buns", "four buns"),
        ("[show tally: 12 as tally]\nTwelve. Two crossed bundles and two plain strokes.", "Two crossed", "Ten crossed"),
        ("[show base ten: 18 as stall]\nOn the stall, eighteen. A bunch of ten and eight loose.",
         "of ten", "of eighteen"),
        ("[show rekenrek: 6 and 1]\nPush six, then one. That's seven.", "That's seven", "That's four"),
    ],
)  # fmt: skip
def test_the_wrong_part_is_found_and_the_right_one_is_not_minded(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, RULE)


@pytest.mark.parametrize(
    "text",
    [
        "[show number bond: 9 is 4 and 5]\nFour in the first half, five in the second, nine in the game.",
        "[show number bond: 45 is 40 and 5]\n45 in all, 40 in the sun, 5 in the dark.",
        "[show five frame: 3 dots and 2 crosses]\nFold two. Three up, two down. Still five.",
        "[show ten frame: 7 dots and 3 crosses]\nSeven and three. The bottom row has two dots and three crosses.",
        "[show rekenrek: 7 and 8]\nSeven. And eight, that is one more.",
        "[show double ten frame: 8 dots and 6 crosses]\nTen in the first frame and four in the other.",
        "[show ten frame: 6 dots]\nFour here, two there. Six newts.",
        "[show dice: 5 and 3]\nFive here. Would it be six if one more came in there?",
        "[show tally: 15]\nThree bundles and no single strokes.",
    ],
)
def test_talk_that_only_looks_like_it_is_left_in_peace(text: str) -> None:
    assert RULE not in rules(text)
