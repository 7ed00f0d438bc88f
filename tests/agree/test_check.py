"""The check as a teacher meets it: right lessons are left in peace, wrong numbers are found where they stand."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.agree import check, check_talk
from studio.errors import UnusableInput
from studio.script.reader import read
from studio.talk.numbers import words_of

LESSONS = sorted((Path(__file__).parents[2] / "benchmarks" / "lessons").glob("*.lesson.md"))

LESSON = """---
title: Frogs
number: 9
---

# Number of the day: 14

The number of the day is fourteen.
[show double ten frame: 14 dots]
Here are fourteen dots. Fourteen is one ten and four ones.

# Partners of 8

[clear]
[show ten frame: 5 dots as frame]
Five dots. How many more to get to eight?
[frame: add 3 crosses, counting]
Five. Six, seven, eight.
[show number bond: 8 is 5 and ?]
[number bond: fill in 3]
Five needs three more to get to eight. Three is the other part.
[number bond: circle 3]
"""


def errors(text: str) -> list[tuple[str, int]]:
    return [(finding.rule, finding.line) for finding in check(read(text)).findings if finding.level == "error"]


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.name)
def test_a_right_lesson_is_left_in_peace(path: Path) -> None:
    found = check(read(path.read_text(encoding="utf-8"), path.name)).findings
    assert [finding for finding in found if finding.level != "note"] == []


def test_the_lesson_of_these_tests_is_right() -> None:
    assert errors(LESSON) == []


@pytest.mark.parametrize(
    ("right", "wrong", "line"),
    [
        ("one ten and four ones", "one ten and five ones", 10),
        ("Here are fourteen dots", "Here are twelve dots", 10),
        ("[show double ten frame: 14 dots]", "[show double ten frame: 13 dots]", 9),
        ("of the day is fourteen", "of the day is fifteen", 8),
        ("day: 14", "day: 15", 6),
        ("Five dots.", "Six dots.", 16),
        ("get to eight?", "get to nine?", 16),
        ("Six, seven, eight", "Six, nine, eight", 18),
        ("Five. Six", "Four. Six", 18),
        ("8 is 5 and ?", "8 is 6 and ?", 19),
        ("fill in 3", "fill in 4", 20),
        ("needs three more", "needs two more", 21),
        ("Three is the other part", "Two is the other part", 21),
        ("circle 3", "circle 5", 22),
    ],
)
def test_a_wrong_number_is_found_near_where_it_stands(right: str, wrong: str, line: int) -> None:
    assert right in LESSON
    found = errors(LESSON.replace(right, wrong, 1))
    assert any(abs(there - line) <= 5 for _, there in found), found


def test_a_finding_speaks_to_a_teacher() -> None:
    text = LESSON.replace("one ten and four ones", "one ten and five ones")
    finding = next(f for f in check(read(text)).findings if f.rule == "true arithmetic")
    assert "One ten and 5 ones make 15; 14 is one ten and 4 ones." in finding.message
    assert finding.help == "Say 14 is one ten and 4 ones."


def test_a_mistake_on_purpose_is_left_alone() -> None:
    text = LESSON.replace("one ten and four ones.", "one ten and five ones. [note: on purpose, they find it]")
    assert errors(text) == []


def test_the_check_can_be_read_by_programs() -> None:
    told = json.loads(json.dumps(check(read(LESSON, "frogs.lesson.md")).as_json()))
    assert set(told) == {"lesson", "statements", "shown", "stories", "findings"}
    assert set(told["statements"][0]) == {"line", "said", "kind", "values", "holds"}
    assert {"line": 9, "picture": "double ten frame", "kind": "double ten frame", "numbers": [14]} in told["shown"]


def test_heard_words_are_checked_without_a_lesson() -> None:
    statements, findings = check_talk(words_of("Five and two make eight. Five, six, nine, eight."))
    assert [statement.holds for statement in statements] == [False, False]
    assert {finding.level for finding in findings} == {"error"}


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=300))
def test_any_script_gives_findings_or_a_plain_sentence(body: str) -> None:
    try:
        lesson = read(f"---\ntitle: Any\n---\n{body}")
    except UnusableInput as unusable:
        assert str(unusable)
        return
    check(lesson)
