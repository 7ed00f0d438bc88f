"""Numbers told in a row by which a picture is told off: the one that is wrong is minded."""

from __future__ import annotations

import pytest

from studio.agree.rules.row_shown import NAME
from tests.agree.minded import assert_only_the_slip_is_minded, rules

TALLY = "[show tally: 19 as sticks]\nThe otter writes down nineteen. "


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (TALLY + "Five, ten, fifteen, and four sticks on the end.", "ten", "three"),
        (TALLY + "Five, ten, fifteen, and four sticks on the end.", "four sticks", "seven sticks"),
        (TALLY + "Draw bundles. Five. Ten. Fifteen. And the sticks.", "Fifteen.", "Three."),
        ("[show tally: 11]\nThat makes eleven. Five, ten, eleven.", "ten,", "six,"),
        ("[show base ten: 32]\nHere are thirty-two reeds. Ten, twenty, thirty, and two.", "twenty", "twelve"),
        ("[show double ten frame: 13 dots]\nThirteen ducks are here. Five, ten, thirteen.", "ten, thirteen", "six, thirteen"),
        ("[show dice: 6 and 6 and 6 as dice]\nThe newt rolls three sixes. Six, twelve, eighteen. Eighteen!", "twelve", "six"),
        ("[show dice: 5 and 4 and 2 as dice]\nThe frog has rolled eleven. Look, five, four and two.", "four", "three"),
        ("[show number sentence: 4 + 4 + 4 = 12]\nFour and four and four make twelve. Four, eight, twelve.", "eight", "nine"),
    ],
)  # fmt: skip
def test_a_row_tells_off_what_is_shown(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, NAME)


@pytest.mark.parametrize(
    "text",
    [
        # bundle by bundle
        "[show tally: 13]\nHere are thirteen. Five, five, and three.",
        # how far is counted is no number of the count
        "[show dice: 6 and 2]\nIs that still eight? Start at six and count up two: seven, eight. It is.",
        # the parts and the whole
        "[show number bond: 12 is 10 and 2]\nIn a bond. Ten, and two, and twelve for the whole.",
        # to the end at once
        TALLY + "Five, ten, fifteen, nineteen.",
        # an answer, and what comes on next
        "[show double ten frame: 14 dots]\nHow many did the duck bring? Four. Ten and four is fourteen.",
        "How many hops? Three. [show number line: 60 to 80, mark 68 as line]\n[line: hop 68 to 70]\nSeventy. [line: hop 70 to 73]\nSeventy-three.",
        # no row: the number of tens
        "[show base ten: 14]\nOne ten and four ones. Fourteen.",
        # asked, or taken back
        TALLY + "Five, ten, twenty? No, fifteen comes next.",
        TALLY + "Five, ten, twenty. Oops, that is wrong. Five, ten, fifteen, and four sticks.",
        # excused
        TALLY + "\n[note: on purpose]\nFive, three, fifteen, and four sticks on the end.",
    ],
)  # fmt: skip
def test_other_rows_are_left_in_peace(text: str) -> None:
    assert NAME not in rules(text)
