"""Neighbours of a number: each manner is understood, and the one number that is wrong is minded."""

from __future__ import annotations

import pytest

from studio.agree.rules.neighbours import NAME
from tests.agree.minded import assert_only_the_slip_is_minded, rules

NEAR = "[show more and less: 8 as near]\nEight is our number. "
PATH = "[show number path: 0 to 10 as path]\n[path: mark 6]\nHere is six. "
CHART = "[show hundred chart: 1 to 40 as chart]\n[chart: mark 23]\nHere is twenty-three. "


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (NEAR + "Before eight comes seven. After eight comes nine.", "Before eight", "Before five"),
        (NEAR + "Before eight comes seven. After eight comes nine.", "nine", "eleven"),
        (PATH + "Six lily pads from the bank. One step back is five. One step on is seven.", "is five", "is two"),
        (PATH + "The newt is on six. Small step back, five. Small step past, seven.", "past, seven", "past, nine"),
        (PATH + "If I step back by one I land on five. If I step on by one I land on seven.", "on five", "on three"),
        (PATH + "Who is standing next to six? Five in front, seven behind.", "next to six", "next to three"),
        (PATH + "Five lives on this side and seven lives on that side.", "seven lives", "zero lives"),
        (PATH + "Neighbours? Five and seven.", "Five and", "Two and"),
        (PATH + "Here sits the frog. It is between five and seven on the path.", "and seven", "and three"),
        (PATH + "Six has a neighbour before and a neighbour after. Five comes before. Seven comes after.", "Seven", "Nine"),
        (PATH + "Five is on one side of it and seven is on the other.", "Five is", "Two is"),
        (PATH + "It's after five and before seven.", "after five", "after ten"),
        (PATH + "It's after five and before seven.", "before seven", "before six"),
        (PATH + "On the stones, it stands between five and seven.", "between five", "between zero"),
        (PATH + "Where does six sit? Between five and seven.", "does six", "does two"),
        (PATH + "And along the shore, five comes before it, seven comes next.", "five comes", "three comes"),
        (PATH + "And along the shore, five comes before it, seven comes next.", "seven comes", "nine comes"),
        (PATH + "Five is the step before, and after six, seven, there is a heron.", "after six", "after two"),
        (NEAR + "One below eight is seven, one above it is nine.", "One below", "Two below"),
        (NEAR + "One below eight is seven, one above it is nine.", "below eight", "below five"),
        (NEAR + "Less by one: seven. More by one: nine.", "Less by one", "Less by six"),
        ("[show text: Who?]\nNumbers have neighbours. Who lives just below 34? It's 33. Who lives just above? It's 35.", "34", "12"),
        (CHART + "Twenty-three sits right under thirteen.", "thirteen", "three"),
        (CHART + "It sits right above 33.", "33", "30"),
        (CHART + "Ten less is right above, thirteen. Ten more is right below, thirty-three.", "thirty-three", "thirty"),
        (CHART + "To the left, 22. To the right, 24.", "24", "26"),
        (CHART + "Straight below it, 33.", "33", "31"),
        (CHART + "What is straight above it? Thirteen.", "Thirteen.", "Twelve."),
    ],
)  # fmt: skip
def test_neighbours_lie_on_both_sides(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, NAME)


@pytest.mark.parametrize(
    "text",
    [
        # by fives and by tens
        "[show number line: 0 to 30 as line]\n[line: mark 15]\nWe hop by fives. Before fifteen comes ten. After fifteen comes twenty.",
        CHART + "Ten before it, thirteen. Ten after it, thirty-three.",
        # one move after the other
        PATH + "One step on is seven. One step back is six.",
        # frames and hands have sides as well
        "[show ten frame: 7 dots]\nOn the left, four. On the right, three.",
        # what it is under is above
        CHART + "It stands under the thirteen, in the third row.",
        # one number is between, and named from both sides
        "[show number path: 0 to 10, mark 6 as path]\nHere is six. What comes after six, and before eight? [wait 5 s] "
        "[path: mark 7] Seven!",
        # between two round numbers, and from one of them
        PATH + "It stands between five and ten.",
        "[show number line: 0 to 30, mark 17 as line]\nHere is seventeen. It stands between sixteen and twenty.",
        # not above on a chart
        CHART + "One above twenty-three is twenty-four, one below it is twenty-two.",
        # what lies under a number that is no neighbour on the chart
        "[show ten frame: 8 dots]\nThree sit under five.",
        # two numbers are marked
        PATH + "And nine. [path: mark 9]\nOne step back is eight, one step on is seven.",
    ],
)  # fmt: skip
def test_look_alikes_are_left_in_peace(text: str) -> None:
    assert NAME not in rules(text)
