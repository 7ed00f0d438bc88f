"""How many come or go, what there is then, and how a hop is told."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

RULE = "change as told"


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (
            "[show dots: 12 as snails]\nTwelve snails. [snails: take away 5] Cross out five. What remains is seven.",
            "out five",
            "out seven",
        ),
        (
            "[show base ten: 56 as store]\nFifty-six sticks. The beaver takes two tens away again.\n[store: take away 20]\nThirty-six. Only the tens moved.",
            "takes two",
            "takes four",
        ),
        (
            "[show base ten: 56 as store]\nFifty-six sticks. The beaver takes two tens away again.\n[store: take away 20]\nThirty-six. Only the tens moved.",
            "Thirty-six",
            "Six",
        ),
        (
            "[show number line: 0 to 100, mark 90 as road]\nStart at ninety. [road: hop 90 to 40] Jump back fifty. You land on forty. [road: hop 40 to 10] Jump back thirty. You land on ten.",
            "back thirty",
            "back ten",
        ),
        (
            "[show number path: 0 to 10 as path]\nLet us hop to seven from five. [path: hop 5 to 7, counting] Five... six... seven.",
            "from five",
            "from six",
        ),
        (
            "[show number line: 0 to 20 as nl]\nStart on eight and go up. [nl: hop 8 to 10] That is two more, and we are at ten.",
            "on eight",
            "on nine",
        ),
        (
            "[show number path: 0 to 12 as path]\nStart at three. [path: mark 3] Now I need eight hops. Do them with me. [path: hop 3 to 11, counting] Four, five, six, seven, eight, nine, ten, eleven.",
            "need eight",
            "need nine",
        ),
        (
            "[show number line: 0 to 50 as road]\nWe stand at twenty. [road: hop 20 to 40] Up twenty to forty.",
            "Up twenty",
            "Up five",
        ),
    ],
)
def test_the_wrong_number_is_found_and_the_right_one_is_not_minded(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, RULE)


@pytest.mark.parametrize(
    "text",
    [
        "[show double ten frame: 15 dots as frames]\nFifteen dragonflies. Now take away seven. [frames: take away 5] First five fly off. [frames: take away 2] Then two more. Eight stay.",
        "[show number line: 0 to 30, mark 23 as line]\nWe stand at twenty-three. We go back eight. [line: hop 23 to 20] First back three, to twenty. [line: hop 20 to 15] Then back five more, to fifteen.",
        "[show ten frame: 10 dots as frame]\nTen dots, two full rows. Take one row away.\n[frame: take away 5]\nFive dots are left.",
        "[show base ten: 45 as high]\nHere is forty-five. We want to take nine away. [high: take away 10] A whole ten goes. Thirty-five. [high: add 1] One comes back. Thirty-six.",
        "[show number line: 0 to 20 as line]\nFrom ten to sixteen, by twos. [line: hop 10 to 12] Twelve, [line: hop 12 to 14] fourteen, [line: hop 14 to 16] sixteen.",
        "[show number line: 0 to 20 as line]\nMy line goes from zero to twenty. [line: hop 0 to 5] The frog hops to five.",
    ],
)
def test_talk_that_only_looks_like_it_is_left_in_peace(text: str) -> None:
    assert RULE not in rules(text)
