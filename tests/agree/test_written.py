"""What stands written on the screen while children look or think: texts, and the words of a wait."""

from __future__ import annotations

import pytest

from studio.agree import check
from studio.agree.rules import wait_said, written
from studio.script.reader import read
from tests.agree.minded import HEAD

ASKED = "Seven ducks swim here. How many more do we need to make twenty? [wait 5 s: {}] Thirteen more."


def errors(talk: str, rule: str) -> list[str]:
    findings = check(read(HEAD + talk)).findings
    return [finding.message for finding in findings if finding.level == "error" and finding.rule == rule]


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("[show text: 9 + 4 = 13] Look at the row.", "[show text: 9 + 4 = 14] Look at the row."),
        ("[show text: 8+6 = 10+4 = 14] Look at the row.", "[show text: 8+6 = 10+4 = 13] Look at the row."),
        ("Look at it. [wait 5 s: 12 - 5 = 7] Well done.", "Look at it. [wait 5 s: 12 - 5 = 8] Well done."),
        ("Look at it. [wait 5 s: 7 + ? = 10] It is three.", "Look at it. [wait 5 s: 7 + 4 = 10] It is three."),
    ],
)
def test_a_sum_that_is_written_on_the_screen_is_true(right: str, wrong: str) -> None:
    assert errors(right, written.NAME) == []
    (message,) = errors(wrong, written.NAME)
    assert message.startswith("Line ") and " writes " in message


def test_a_written_sum_that_is_shown_to_be_found_out_is_left_alone() -> None:
    talk = "[show text: 9 + 4 = 14] Nine plus four is fourteen? No! That is not true. Nine plus four is thirteen."
    assert errors(talk, written.NAME) == []
    noted = "[note: on purpose, they find the mistake]\n[show text: 9 + 4 = 14]\nLook at the row."
    assert errors(noted, written.NAME) == []


@pytest.mark.parametrize("words", ["8 + 4, make ten first", "5, 10, 15, 25, 30", "2 cups = 1 can"])
def test_written_words_that_are_no_sum_are_left_alone(words: str) -> None:
    assert errors(f"Think. [wait 5 s: {words}] Well done.", written.NAME) == []


def test_a_wait_that_repeats_a_question_names_its_numbers() -> None:
    assert errors(ASKED.format("How many more to 20?"), wait_said.NAME) == []
    assert len(errors(ASKED.format("How many more to 12?"), wait_said.NAME)) == 1


def test_a_wait_that_asks_for_something_else_is_at_most_a_note() -> None:
    lesson = read(HEAD + ASKED.format("Put 5 counters on the table"))
    assert [(f.level, f.rule) for f in check(lesson).findings if f.rule == wait_said.NAME] == [("note", wait_said.NAME)]


def test_a_wait_may_name_what_is_shown_or_titled() -> None:
    talk = "# Partners of 9\n[show ten frame: 6 dots]\nHow many more do we need? [wait 5 s: 6 and how many more make 9?] Three."
    assert [f for f in check(read(HEAD + talk)).findings if f.rule == wait_said.NAME] == []
