"""The pair that is told first is the one that lies there."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

RULE = "pair as told"


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (
            "[show dice: 6 and 2 as dice]\nMy dice say six and two. Start at six. Seven, eight.",
            "say six and",
            "say two and",
        ),
        (
            "[show dice: 6 and 6 as dice]\nTwo dice, both sixes. Double six is twelve.",
            "6 and 6",
            "6 and 5",
        ),
        (
            "[show number bond: 9 is 5 and 4 as bond]\nFive frogs and four frogs sit here. That is nine frogs.",
            "Five frogs and",
            "Two frogs and",
        ),
    ],
)
def test_the_wrong_number_is_found_and_the_right_one_is_not_minded(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, RULE)


@pytest.mark.parametrize(
    "text",
    [
        "[show rekenrek: 7 and 8]\nSeven plus eight is fifteen. Here is why: seven and seven is fourteen, and one more is fifteen.",
        "[show text: Doubles]\nI know that six and six make twelve. [show dice: 6 and 6] Then six and seven must make thirteen.",
        "[show dice: 4 and 5]\nWe can roll nine with a four and a five.",
        "[show rekenrek: 8 and 7]\nFive and three up here, and below them five and two. Fifteen.",
    ],
)
def test_talk_that_only_looks_like_it_is_left_in_peace(text: str) -> None:
    assert RULE not in rules(text)
