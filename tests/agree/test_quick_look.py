"""A picture that is seen for a moment, and how many were in it."""

from __future__ import annotations

import pytest

from studio.agree import check
from studio.agree.rules.quick_look import NAME
from studio.script.reader import read
from tests.agree.minded import HEAD


def errors(talk: str) -> int:
    findings = check(read(HEAD + talk)).findings
    return sum(finding.level == "error" and finding.rule == NAME for finding in findings)


@pytest.mark.parametrize(
    ("shown", "asked", "right", "wrong"),
    [
        (
            "dice: 3 and 4",
            "How many?",
            "Seven. Three and three are six, one more is seven.",
            "Nine. Three and three are six.",
        ),
        ("dots: 8 dots", "How many dots did you see?", "Eight!", "Six!"),
        ("rekenrek: 6 and 5", "How many beads?", "Eleven. Five and five, and one more.", "Twelve. Five and five."),
        ("ten frame: 8 dots", "How many boxes were empty?", "Two.", "Three."),
    ],
)
def test_the_first_number_after_a_quick_look_is_how_many_there_were(
    shown: str, asked: str, right: str, wrong: str
) -> None:
    talk = f"[show {shown} as look] Look. [wait 2 s]\n[hide look] {asked} [wait 3 s]\n"
    assert errors(talk + right) == 0
    assert errors(talk + wrong) == 1


@pytest.mark.parametrize(
    "talk",
    [
        "How many red dots? Three.",  # some of them only
        "How many, and how many boxes are empty? Sixteen, and four are empty.",
        "How many? Is it five?",  # a guess
        "Which number comes next? Nine.",
        "How many? Five on the top and three below.",  # parts first
    ],
)
def test_another_question_and_another_answer_are_left_alone(talk: str) -> None:
    assert errors(f"[show ten frame: 8 dots as look] Look. [wait 2 s]\n[hide look] {talk}") == 0


def test_a_new_picture_asks_anew() -> None:
    """What was told of the last picture is no story that the next answer must fit."""
    talk = (
        "[show rekenrek: 5 and 3 as a] Peek! [hide a] How many beads? [wait 3 s]\nEight. Five on the top and three underneath.\n"
        "[show rekenrek: 10 and 2 as b] Peek! [hide b] How many beads? [wait 3 s]\nTwelve. The top row was ten, and two below.\n"
    )
    assert not [finding for finding in check(read(HEAD + talk)).findings if finding.level == "error"]
    assert [finding.level for finding in check(read(HEAD + talk.replace("Twelve", "Seven"))).findings if finding.line]
