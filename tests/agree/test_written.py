"""What stands written on the screen while children look or think: texts, and the words of a wait."""

from __future__ import annotations

import pytest

from studio.agree import check
from studio.agree.rules import answered_on_screen, word_spelled, written, written_said
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
        ("[show text: Seven and three make ten] Look.", "[show text: Seven and three make eleven] Look."),
        (
            "Look at it. [wait 5 s: Six and three make nine] Good.",
            "Look at it. [wait 5 s: Six and three make ten] Good.",
        ),
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


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("How many more to 20?", "How many more to 12?"),
        ("7 and how many?", "8 and how many?"),
        ("Lay out seven counters", "Lay out six counters"),
    ],
)
def test_a_wait_names_numbers_that_are_said_around_it(right: str, wrong: str) -> None:
    assert errors(ASKED.format(right), written_said.NAME) == []
    (message,) = errors(ASKED.format(wrong), written_said.NAME)
    assert message.startswith("Line ")


@pytest.mark.parametrize(
    "words",
    [
        "Draw two bars",
        "Which two?",
        "Find a pair",
        "29 + 6",
        "Round 4",
        "None are left",
        "Take your time",
        "How many bundles of five?",
    ],
)
def test_what_they_are_told_to_make_and_a_problem_of_their_own_need_not_be_said(words: str) -> None:
    assert errors(ASKED.format(words), written_said.NAME) == []


def test_a_wait_may_name_what_is_shown_or_titled() -> None:
    talk = "# Partners of 9\n[show ten frame: 6 dots]\nHow many more do we need? [wait 5 s: 6 and how many more make 9?] Three."
    assert errors(talk, written_said.NAME) == []
    assert errors(talk.replace("6 and how", "5 and how"), answered_on_screen.NAME)


def test_a_wait_on_purpose_is_left_alone() -> None:
    assert errors("[note: on purpose, a riddle]\n" + ASKED.format("How many more to 12?"), written_said.NAME) == []


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("[show text: Line B: 35, 40, 45, ?] By fives: forty, forty-five, and then fifty.", "[show text: Line B: 36, 40, 45, ?] By fives: forty, forty-five, and then fifty."),
        ("[show text: 88, ?, 68, 58] Between eighty-eight and sixty-eight belongs seventy-eight.", "[show text: 88, ?, 68, 55] Between eighty-eight and sixty-eight belongs seventy-eight."),
        ("[show text: Box A: 34 - 6] Draw sticks, and cross out six. Twenty-eight are left.", "[show text: Box A: 35 - 6] Draw sticks, and cross out six. Twenty-eight are left."),
    ],
)  # fmt: skip
def test_what_is_clear_from_the_rest_of_a_written_row_or_task_need_not_be_said(right: str, wrong: str) -> None:
    assert errors(right, written_said.NAME) == []
    assert len(errors(wrong, written_said.NAME)) == 1


@pytest.mark.parametrize("title", ["7 + 3 = {}", "Seven and three make {}", "Seven frogs and three frogs are {} frogs"])
def test_a_sum_in_a_title_is_true(title: str) -> None:
    for text in (f"---\ntitle: {title}\n---\nFrogs hop.\n", f"---\ntitle: Pond\n---\n# {title}\nFrogs hop.\n"):
        for value, many in (("10", 0), ("11", 1)):
            found = [f for f in check(read(text.format(value))).findings if f.rule == written.NAME]
            assert len(found) == many
    asked = "# 6 + 2 = 9\nIs that right? No! Six and two make eight."
    assert errors(asked, written.NAME) == []
    assert errors("[note: on purpose]\n# 6 + 2 = 9\nFrogs hop.", written.NAME) == []
    assert errors("# 6 + 2 = 9\n[note: on purpose]\nFrogs hop.", written.NAME) == []
    for told in (
        "Find the mistake: 2 + 2 = 5",
        "The otter says 6 + 2 = 9",
        "Can 5 and 4 make 10",
        "Eight and Six, Make Ten First",
        "Do 7 and 3 make 11?",
        "40 + 23, 50 + 12",
    ):
        assert errors(f"# {told}\nFrogs hop.", written.NAME) == []


def test_a_number_word_on_the_screen_is_spelled_right() -> None:
    def told(talk: str) -> list[str]:
        return [finding.level for finding in check(read(HEAD + talk)).findings if finding.rule == word_spelled.NAME]

    for word, levels in (("fourty", ["note"]), ("forty", []), ("frogs", []), ("forties", []), ("fort", [])):
        assert told(f"[show word: {word}] Forty frogs.") == levels
    assert told("[show word: seven-teen] Seventeen.") == []
    assert told("[show word: heaven] Seven frogs look to heaven.") == []
