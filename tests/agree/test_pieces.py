"""Working that is told in pieces."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

NAME = "pieces fit"

RIGHT_AND_WRONG = [
    ("Seven up to 10 is 3, then 10 up to 12 is 2. 3 and 2 is 5.", "10 is 3", "10 is 4"),
    ("8 up to 10 is 2, then 10 up to 13 is 3. 2 and 3 is 5.", "2 and 3 is 5", "1 and 4 is 5"),
    ("I count up from 8. To 10 is 2. To 14 is 4.", "To 14 is 4", "To 14 is 5"),
    ("Ten is two above eight. Thirteen is three above ten.", "Thirteen is three", "Thirteen is five"),
    ("8 newts wait for 2 more. Give it 2 of the 5, which leaves 3.", "leaves 3", "leaves 4"),
    ("Give eight its two. That leaves three of the five.", "leaves three", "leaves six"),
    (
        "9 + 6 is our sum at the pond. Nine needs one. Six gives one, five stay. Ten and five is fifteen.",
        "five stay",
        "six stay",
    ),
    ("The vole took out four of its ten shells, and six were left in it.", "six were", "four were"),
    ("One of the six fills the ten. Five are left over.", "Five are", "Eight are"),
    ("Forty-six frogs swim. Bolt the thirty on to forty-six, seventy-six.", "six, seventy-six", "six, eighty-six"),
    ("Tens: thirty and twenty, fifty. Ones: six and five, eleven.", "six and five", "six and four"),
]
LOOK_ALIKES = [
    "How much further? From 6 up to 9: seven, eight, nine. That is 3.",
    "From ten up to fifty is four jumps of the frog.",
    "[show hundred chart: 1 to 50, mark 24 as chart]\nFourteen is above twenty-four.",
    "Tens: two and three, five tens are here.",
    "One of the two frogs is green. Is one left over? No, both swim.",
    "Two of the seven newts are red. Five more come, and three are left in the reeds.",
    "Two frogs go up to the log. Three is enough, says the heron.",
]


@pytest.mark.parametrize(("text", "right", "wrong"), RIGHT_AND_WRONG)
def test_a_right_text_is_left_alone_and_one_wrong_number_is_found(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, NAME)


@pytest.mark.parametrize("text", LOOK_ALIKES)
def test_what_only_looks_like_it_is_left_alone(text: str) -> None:
    assert NAME not in rules(text)
