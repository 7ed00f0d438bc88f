"""What is called out with a mark or a ring, and what was asked for just before it."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

RULE = "marked as told"


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (
            "[show hundred chart: 1 to 20 as chart]\nThe newt sits right below the five. [wait 3 s] [chart: mark 15] Fifteen. It is there.",
            "Fifteen.",
            "Ten.",
        ),
        (
            "[show hundred chart: 1 to 20 as chart]\nWhere is fourteen? It is in the second row. [chart: mark 14] There it is, right under the four.",
            "is fourteen",
            "is seventeen",
        ),
        (
            "[show number path: 0 to 10 as path]\nThe heron chose seven. [path: mark 7] She stands there on one leg.",
            "chose seven",
            "chose nine",
        ),
    ],
)
def test_the_wrong_number_is_found_and_the_right_one_is_not_minded(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, RULE)


@pytest.mark.parametrize(
    "text",
    [
        "[show cards: 1, 4, 6, 9 as cards]\nI call a card, you call its partner to ten. Nine! [cards: circle 9] One! Nine plus one makes ten.",
        "[show hundred chart: 1 to 50, mark 39 as chart]\nWhere is thirty-nine? Who sits right above it? [wait 3 s] [chart: mark 29] Twenty-nine.",
        "[show hundred chart: 1 to 60 as chart]\nFind 53 on the chart. [chart: mark 54] One more is 54. [chart: mark 53] Here is 53.",
        "[show cards: 2, 4, 6 as cards]\nThe otter picks two. Now watch. [cards: circle 4] Four goes with it, and that makes six.",
    ],
)
def test_talk_that_only_looks_like_it_is_left_in_peace(text: str) -> None:
    assert RULE not in rules(text)
