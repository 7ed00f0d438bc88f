"""Coins that are counted up, groups that are counted, sums that are called false after both sides were worked out, and what is said beside a
picture of something else: what is right is left in peace, the same with a slip is minded. Wordings: common practice, no source."""

from __future__ import annotations

import pytest

from studio.agree.rules import false_arithmetic, rounds, said_of_picture, shown_is_said
from tests.agree.minded import HEAD, assert_only_the_slip_is_minded, rules


def test_coins_may_be_told_by_what_they_come_to() -> None:
    text = "[show cards: 10, 10, 5, 1, 1 as coins]\nHere are her coins. Ten, twenty. Then the big one: twenty-five. And the pennies: twenty-six, twenty-seven."
    assert_only_the_slip_is_minded(text, "10, 10, 5, 1, 1", "10, 10, 5, 1, 3", shown_is_said.NAME)


def test_how_many_rows_there_are_is_no_call_in_a_round() -> None:
    round_ = "Partners of fifteen. Ten goes with whom? [wait 4 s] Five. Eleven goes with whom? [wait 4 s] Four. {} [wait 4 s] Three. Seven goes with whom? [wait 4 s] Eight."
    assert rounds.NAME not in rules(HEAD + round_.format("A row holds five. How many rows are covered?"))
    assert rounds.NAME in rules(HEAD + round_.format("Five goes with whom?"))


@pytest.mark.parametrize("verdict", ["so that claim is false", "so it is wrong"])
def test_two_sums_that_are_worked_out_and_called_different_were_claimed_only(verdict: str) -> None:
    talk = '"Three plus three equals five plus two." Three and three are six. Five and two are seven. {}'
    assert false_arithmetic.NAME not in rules(HEAD + talk.format(f"Six is not the same as seven, {verdict}."))
    assert false_arithmetic.NAME in rules(HEAD + talk.format("Now count the frogs."))


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        ("[show number bond: 9 is 8 and ? as bond]\nThe brown hen found eight grains, and nine are gone. [bond: fill in] Then the grey hen found a single grain.",
         "9 is 8 and ?", "9 is 5 and ?"),
        ("[show dice: 6 and 6 and 6 and 1]\nThat many pips were thrown. Nineteen in all.", "6 and 1", "6 and 4"),
        ("[show number sentence: 6 + 3 = 3 + 6]\nThey changed places, and nothing else has changed.", "6 + 3 = 3 + 6", "6 + 3 = 3 + 8"),
    ],
)  # fmt: skip
def test_a_picture_may_be_told_without_every_number(text: str, right: str, wrong: str) -> None:
    assert rules(HEAD + text) == set()
    assert right in text and rules(HEAD + text.replace(right, wrong))


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        ("[show rekenrek: 10 and 8]\nTen beads in the upper row, eight in the lower. Eighteen beads.", "Ten beads in", "Seven beads in"),
        ("[show double ten frame: 14 dots as frame]\nFourteen dots. [frame: take away 5] Five dots were taken off. Nine dots are left.",
         "Five dots were", "Seven dots were"),
        ("[show base ten: 71]\nForty-nine and twenty-two. Four tens and two tens are six tens. Six tens and eleven ones are seventy-one.",
         "two tens are six", "three tens are six"),
    ],
)  # fmt: skip
def test_what_is_said_of_something_else_is_not_held_against_the_picture(text: str, right: str, wrong: str) -> None:
    assert said_of_picture.NAME not in rules(HEAD + text)
    assert right in text and rules(HEAD + text.replace(right, wrong)) & {said_of_picture.NAME, false_arithmetic.NAME}
