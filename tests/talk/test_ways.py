"""A number told in several ways, in a row of sums and differences of which none says what it makes."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.agree.rules import false_arithmetic
from studio.agree.wording import spelled
from studio.talk.numbers import find_numbers, words_of
from studio.talk.speech import speech
from studio.talk.statements import ways
from tests.agree.minded import assert_only_the_slip_is_minded, rules


def told(talk: str) -> list[tuple[str, bool | None]]:
    words = words_of(talk)
    return [(one.written, one.holds) for one in ways.find(speech(words, find_numbers(words)))]


def test_sums_and_differences_in_a_row_make_the_same() -> None:
    assert told("Forty and ten. Thirty and twenty. Fifty-one minus one.") == [
        ("40 + 10 = 50", True), ("30 + 20 = 50", True), ("51 - 1 = 50", True)
    ]  # fmt: skip
    assert told("Ten and ten and five. Twenty and six. Thirty minus five.")[1] == ("20 + 6 = 25", False)


@given(st.integers(9, 60), st.integers(4, 7), st.randoms(use_true_random=False), st.data())
def test_the_one_that_makes_another_number_is_told(
    whole: int, many: int, chance: random.Random, data: st.DataObject
) -> None:
    parts = data.draw(st.lists(st.integers(1, whole - 1), min_size=many, max_size=many, unique=True))
    pairs = [(part, whole - part, "and") if chance.random() < 0.6 else (whole + part, part, "minus") for part in parts]
    pairs[0] = (whole + parts[0], parts[0], "minus")
    wrong = data.draw(st.integers(0, many - 1))
    pairs[wrong] = (pairs[wrong][0] + 1, *pairs[wrong][1:])
    talk = ". ".join(f"{spelled(one).capitalize()} {sign} {spelled(other)}" for one, other, sign in pairs) + "."
    assert [holds for _, holds in told(talk)] == [at != wrong for at in range(many)]


def test_two_that_were_found_are_ways_of_what_is_said_often() -> None:
    talk = "The number of the day is nine. Nine is odd. I know nine, nine likes company. I took eight and one, and seven and {}."
    assert told(talk.format("two")) == [("8 + 1 = 9", True), ("7 + 2 = 9", True)]
    assert told(talk.format("three")) == [("8 + 1 = 9", True), ("7 + 3 = 9", False)]
    assert told("I took eight and one, and seven and two.") == []


@pytest.mark.parametrize(
    "talk",
    [
        "Six and four. Seven and three. Six and two. Which does not belong?",
        "Two and six. Nine minus one. Eight and eight. A tie!",
        "Six and four. Seven and three. Eight and two.",  # a list of partners
        "Six and four? Ten. Seven and three? Ten. Five and four? Nine.",
        "Seven plus three. A swan glides by and she looks at all of us for a while. Six plus three. She goes on. Two plus five.",
    ],
)
def test_sums_that_need_not_make_the_same_are_left_alone(talk: str) -> None:
    assert told(talk) == []


DAY = (
    "The number of the day is fifty. Fifty is five tens. Half of fifty is twenty-five. Forty and ten. Thirty and twenty. "
    "Fifty-one minus one. Forty-five and five. One less than fifty is forty-nine. One more than fifty is fifty-one."
)


@pytest.mark.parametrize(("right", "wrong"), [("Thirty and", "Nineteen and"), ("minus one", "minus four")])
def test_a_slip_in_a_way_is_found(right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(DAY, right, wrong, false_arithmetic.NAME)


def test_the_odd_one_is_left_alone_where_it_is_asked_for() -> None:
    talk = (
        "Five plus two. Three plus four. Six plus two. Six plus one. Which is the odd one out? Six plus two is eight."
    )
    assert false_arithmetic.NAME not in rules(talk)
