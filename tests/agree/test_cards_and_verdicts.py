"""Coins that are counted up, groups that are counted and sums that are called false after both sides were worked out: what is right is left
in peace, the same with a slip is minded. Wordings: common practice, no source."""

from __future__ import annotations

import pytest

from studio.agree.rules import false_arithmetic, rounds, shown_is_said
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
