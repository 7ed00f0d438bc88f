"""Questions that stand on the screen while children think: their answers, and what is asked aloud before them."""

from __future__ import annotations

import operator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.agree import check
from studio.agree.accounts import ACCOUNTS
from studio.agree.expect.place import Place, book_of
from studio.agree.rules import answered_on_screen, asked_otherwise, unexpected, written_said
from studio.agree.wording import spelled
from studio.script.reader import read
from tests.agree.minded import HEAD, assert_only_the_slip_is_minded, case_of, rules

SIGNS = {"+": operator.add, "-": operator.sub}
FORMS = {
    "{0} + {1}": operator.add, "{0} + {1} = ?": operator.add, "{0} and {1} make?": operator.add,
    "{0} and {1} is ?": operator.add, "{0} plus {1}": operator.add, "What is {0} plus {1}?": operator.add,
    "{0} more than {1}": operator.add, "{1} and {0} more": operator.add, "{0} and ? make {1}": lambda one, other: other - one,
    "{0} and what make {1}?": lambda one, other: other - one, "{1} is {0} and what?": lambda one, other: other - one,
    "{1} - {0}": lambda one, other: other - one, "{1}, take away {0}": lambda one, other: other - one,
    "{0} less than {1}": lambda one, other: other - one,
}  # fmt: skip


def said_after(written: str, answer: str) -> str:
    return f"Think. [wait 4 s: {written}] {answer}"


def minded(talk: str) -> bool:
    return answered_on_screen.NAME in rules(talk)


@given(st.sampled_from(sorted(FORMS)), st.integers(2, 20), st.integers(2, 40), st.integers(0, 60), st.booleans())
def test_only_the_right_answer_to_what_is_written_is_left_alone(
    form: str, one: int, more: int, answer: int, words: bool
) -> None:
    """Python's own arithmetic is the judge."""
    other = one + more
    written = form.format(*map(spelled, (one, other))) if words else form.format(one, other)
    right = FORMS[form](one, other)
    assert not minded(said_after(written, f"{spelled(right).capitalize()}. Well done."))
    assert minded(said_after(written, f"{spelled(answer).capitalize()}. Well done.")) == (answer != right)


@given(st.lists(st.integers(1, 20), min_size=3, max_size=4), st.data())
def test_longer_sums_and_differences_are_worked_out(numbers: list[int], data: st.DataObject) -> None:
    total, written = numbers[0], str(numbers[0])
    for number in numbers[1:]:
        sign = data.draw(st.sampled_from([sign for sign in SIGNS if SIGNS[sign](total, number) >= 0]))
        total, written = SIGNS[sign](total, number), f"{written} {sign} {number}"
    assert not minded(said_after(written, f"It's {spelled(total)}."))
    assert minded(said_after(written, f"It's {spelled(total + 1)}."))


@pytest.mark.parametrize(
    ("written", "talk"),
    [
        ("8 + 5", "Eight and two is ten. Three more: thirteen."),  # worked out in steps
        ("9 + 6", "Five. So it is ten and five. Fifteen!"),  # the answer comes a little later
        ("12 - 4", "Seven? No. Eight."),
        ("80 - 30", "Five tens."),
        ("What comes after 14?", "Sixteen! We count by twos."),
        ("What comes after six, going down?", "Five. Go on!"),
        ("Draw two baskets and seven apples", "Ready. Three of them are red."),
        ("Read 54, 64 and 74 aloud", "Sixty-five is not one of them."),
        ("True or false: 4 + 4 = 8", "Two thumbs up!"),
        ("6 + 3", "The frog was not three."),
        ("8 and 6", "Two more!"),  # by how much one has more
    ],
)
def test_what_answers_otherwise_is_left_alone(written: str, talk: str) -> None:
    assert not minded(said_after(written, talk))


def test_only_what_is_said_until_the_next_wait_or_segment_answers() -> None:
    assert not minded("Think. [wait 4 s: 4 + 4] Hm. [wait 2 s: 3 + 4] Seven.")
    assert not minded("Think. [wait 4 s: 4 + 4]\n\n# Ducks\nFive ducks swim by.")
    assert not minded("Think. Now look here. [wait 4 s: 4 + 4]")


def test_a_wrong_answer_on_purpose_is_left_alone() -> None:
    assert not minded("[note: on purpose, they find it]\nThink. [wait 4 s: 4 + 4] Nine.")


def test_the_finding_tells_both_lines_and_what_to_say() -> None:
    (finding,) = (one for one in check(read(HEAD + said_after("4 + 4", "\nNine."))).findings if one.level == "error")
    assert (finding.line, finding.said, finding.shown) == (8, "Nine.", "wait 4 s: 4 + 4")
    assert finding.message == "Line 7 asks “4 + 4” on the screen; that makes 8, and nine is said."
    assert finding.help == "Say eight, or write another question."


def test_a_question_that_no_number_answers_is_minded() -> None:
    findings = check(read(HEAD + said_after("12 and ? is 5", "Seven."))).findings
    (message,) = (one.message for one in findings if one.rule == answered_on_screen.NAME)
    assert message == "Line 7 asks “12 and ? is 5” on the screen, and no number answers that."


def test_a_right_answer_accounts_for_what_is_written_and_for_itself() -> None:
    lift = (
        "Sixty is where we start. [wait 3 s: 5 less than 60] Fifty-five. Next. [wait 3 s: {} less than 55] Fifty. Next."
    )
    assert rules(lift.format(5)) == set()
    assert rules(lift.format(7)) == {answered_on_screen.NAME}
    case = case_of(HEAD + lift.format(5))
    book = book_of(case)
    accounts = next(account for account in ACCOUNTS if account.__name__ == "answers_what_is_written")
    told = {number.value: accounts(case, Place(book, at)) for at, number in enumerate(book.numbers)}
    assert told == {60: False, 55: True, 50: True}
    assert unexpected.NAME not in rules(lift.format(5))


def test_what_a_question_asks_need_not_be_said_where_it_is_worked_out_next() -> None:
    talk = "Who has more? The owl. So look at the short bar. [wait 8 s: {}] Ten, and down: nine, eight, seven, six. The jay has six."
    assert written_said.NAME not in rules(talk.format("4 less than 10"))
    assert written_said.NAME in rules(talk.format("5 less than 10"))


@pytest.mark.parametrize("task", ["count by 2 to 12", "next two", "the last three"])
def test_steps_and_how_many_come_next_need_not_be_said(task: str) -> None:
    talk = f"Four, six, eight, ten, twelve. Your turn now. [wait 8 s: {task}] You came to twelve."
    assert written_said.NAME not in rules(talk)


BITES = (
    "I'll say what's left and what it was, you say the bit. Four left of six. [wait 4 s: 4 and ? is 6] Two. Seven left of ten. "
    "[wait 4 s: 7 and ? is 10] Three. Five left of nine. [wait 4 s: 5 and ? is 9] Four. Eight left of nine. "
    "[wait 4 s: 8 and ? is 9] One. Three left of eight. [wait 4 s: 3 and ? is 8] Five."
)


@pytest.mark.parametrize(
    ("right", "wrong"),
    [("Five left of nine", "Five left of nineteen"), ("Seven left", "Two left")],
)
def test_what_is_asked_aloud_has_the_numbers_that_are_written(right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(BITES, right, wrong, asked_otherwise.NAME)


def test_a_hint_before_the_wait_asks_nothing_else() -> None:
    hint = (
        " Nine plus five. Give one to the nine first. [wait 5 s: Nine plus five] Fourteen. Nine plus five is fourteen."
    )
    assert asked_otherwise.NAME not in rules(BITES + hint)


def test_a_task_has_the_number_with_which_it_is_set_aloud() -> None:
    task = "Eight frogs sit here. Eight is two less than ten. Jump eight times for me. [wait 12 s: jump 8 times] Eight jumps. Oof. "
    assert_only_the_slip_is_minded(task + BITES, "Jump eight times", "Jump nine times", asked_otherwise.NAME)


def test_a_task_in_other_words_may_have_other_numbers() -> None:
    talk = "Take eight buttons for me. [wait 12 s: lay two rows] Two rows of four. "
    assert asked_otherwise.NAME not in rules(talk)
