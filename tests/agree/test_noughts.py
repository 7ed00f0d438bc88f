"""A nought on the screen is spoken of."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

RULE = "nought is told"


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        ("[show double ten frame: 12 dots as eggs]\nTwelve eggs. Ten in the first frame and two in the other.",
         "12 dots", "0 dots"),
        ("[show ten frame: 6 dots and 2 crosses]\nSix up and two down. Six and two make eight.", "6 dots", "0 dots"),
        ("[show ten frame: 6 dots and 2 crosses]\nSix up and two down. Six and two make eight.",
         "2 crosses", "0 crosses"),
        ("[show rekenrek: 4 and 3]\nPush four, and three more beads. Four and three make seven.", "4 and", "0 and"),
        ("[show ten frame: 3 dots as frame]\nThree frogs.\n[frame: add 3 crosses]\nThree and three make six.",
         "add 3", "add 0"),
        ("[show dots: 4 as pads]\nFour pads. Are there enough?", "4 as", "0 as"),
    ],
)  # fmt: skip
def test_a_nought_that_nobody_speaks_of_is_found(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, RULE)


@pytest.mark.parametrize(
    "text",
    [
        "[show ten frame: 9 dots and 0 crosses]\nNine and zero make nine.",
        "[show ten frame: 7 dots and 0 crosses]\nAll seven are dots.",
        "[show dots: 0 as pond]\nNobody swims here. Now three ducks come. [pond: add 3]\nThree ducks.",
        "[show ten frame: 0 dots]\nThis is a ten frame. It has ten boxes, in two rows of five.",
        "[show ten frame: empty]\nDraw seven dots. You have seven.",
        "[show ten frame: 0 dots]\nDraw seven dots in your frame. You have seven.",
        "[show rekenrek: 7 and 0]\nSeven beads on the top row.",
        "[show dots: 4 as pads]\nFour pads.\n[pads: take away 0]\nNone of the four pads sinks.",
        "[show ten frame: 0 dots]\n[note: on purpose]\nSix frogs hide under the water.",
    ],
)
def test_noughts_that_are_meant_are_left_in_peace(text: str) -> None:
    assert RULE not in rules(text)
