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

LESSONS = sorted((Path(__file__).parents[2] / "benchmarks" / "lessons").glob("*.lesson.md"))[::100]
"""Every hundredth, for time; `benchmarks/agreement.py` checks all."""
KNOWN = frozenset(
    "232 733 849 864 1545 2106 2317 2320 2412 2695 2984 3359 3376 4251 5182 5668 5810 5837 5935 5978 6006 6060 6086 "
    "6113 6183 6346 7282 7349 7423 7582 7605 7610 7639 7730 7741 7750 7924 7960 8104 8127 8471 8580 8638 8677 "
    "8680 8727 8762 8764 8824 8846 8848 9143 10935 10959 10985 11087 11117 11122 11155 11197 11205 11263 11280 11286 "
    "11308 11317 11349 11352 11356 11401 11430 11652 11674 11679 11680 11684 11727 11766 11782 11784 11798 "
    "11860 11894 11916 11929 11938 11942 11944 11945 11946 12008 12055 12056 12066 12082 12084 12086 12089 12123 "
    "12160 12187 12191 12195 12196 12314 12342 12396 12398 12399 12441 12485 12536 12569 12602 12616 12678 12724".split()
)
"""Right lessons of which one number is minded all the same, though it was learned from them; some of those from 10855 on ask for pictures
that cannot be shown."""

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


@pytest.mark.parametrize("path", [path for path in LESSONS if path.name.partition("-")[0] not in KNOWN],
                         ids=lambda path: path.name)  # fmt: skip
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


def test_groups_that_come_to_something_else_are_told_in_one_breath() -> None:
    told = check(read("---\ntitle: Pond\n---\n[show dice: 5 and 5]\nTwo fives make eleven.")).errors[0]
    assert told.message.endswith("2 × 5 is 10, not 11.")
    assert told.help == "Say 10, or change the other numbers."
    told = check(read("---\ntitle: Pond\n---\n[show ten frame: 10 dots]\nHalf of ten is six.")).errors[0]
    assert told.message.endswith("half of 10 is 5, not 6.")


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


def _lesson(body: str) -> str:
    return f"---\ntitle: Pond\ngrade: K\nnumber: 13\n---\n\n# Pond\n\n{body}\n"


@pytest.mark.parametrize(
    "body",
    [
        "[show number sentence: 6 + 7 = 13]\nSix plus seven. Double six is twelve. Six and seven is one more than that. 13.",
        "[show ten frame: 5 dots as frame]\nWe want seven. We have five.\n[frame: add 2 dots]\nTwo more make seven.",
        "[show dots: 8 dots]\nHow many? Is it six? Is it ten? There are eight.",
        "[show dots: 8 dots]\nFour here and four there. Eight in all.",
        "[show base ten: 64]\nYou see 6 tens and 4 ones.\nIf I gave you 2 more tens, you would have 84.",
        "[show base ten: 64]\n64. If I took away all 4 ones, you would have 60.",
        "[show number sentence: 12 - 7 = 5]\n12 - 7 = 5. Take away 2 to get to ten, then 5 more. Ten take away five is five.",
        "[show ten frame: 3 dots]\nThree frogs. We meet again on lesson fourteen.",
        "[note: on purpose]\n[show number sentence: 5 + 2 = 8]\nHeron says five plus two equals eight.",
        "[show number sentence: 5 + 2 = 8]\n[note: on purpose]\nHeron says five plus two equals eight.",
        "[show number path: 0 to 10 as path]\nJump five, and five again. [path: hop 0 to 5] [path: hop 5 to 10] 5, 10.",
        "Hop back four: nine, eight, seven, six.",
        "36 - 10 = 26, 36 - 20 = 16, 36 - 30 = 6, 5 + 5 = 10.",
        "[show base ten: 36]\n36. We can trade one ten: then it's 2 tens and 16 ones.",
        "[show five frame: 5 dots]\nThis frame is too small for seven! It has room for five.",
        "One less is thirteen, and one more is fifteen.",
        "7 + 3 is 10, plus 2 more is 12.",
        "A duck had 15 eggs. Some hatched. Now 9 are left. How many hatched? I know the whole. It is 15. 6 eggs hatched.",
        "What is 7 + 8? It is 15, because 7 + 7 is 14 and one more makes 15.",
    ],
)
def test_talk_that_only_sounds_like_a_slip_is_no_error(body: str) -> None:
    found = check(read(_lesson(body))).findings
    assert [finding for finding in found if finding.level != "note"] == []


@pytest.mark.parametrize(
    "body",
    [
        "[show ten frame: 5 dots]\nHere are seven frogs.",
        "Breathe out for four. One, nine, three, four.",
        "From nine to twelve. Ten, fifteen, twelve.",
        "Welcome to lesson fourteen.",
        "[show number sentence: 5 + 2 = 8]\nHeron says five plus two equals eight.",
        "Six and seven is twelve.",
        "36 - 10 = 26, 36 - 20 = 15, 36 - 30 = 6.",
        "If I show you one, what do you need to make six? You need four.",
    ],
)
def test_a_slip_that_looks_like_such_talk_is_an_error(body: str) -> None:
    assert errors(_lesson(body))


@pytest.mark.parametrize(
    ("title", "found"), [("Two stories", 0), ("Round two", 0), ("Nine sleepy frogs", 1), ("Partners of nine", 1)]
)
def test_a_number_in_a_title_is_looked_for_unless_it_counts_parts_of_the_lesson(title: str, found: int) -> None:
    text = f"---\ntitle: Pond\n---\n\n# {title}\n\n[show ten frame: 4 dots]\nFour frogs. Three and one make four.\n"
    assert len(errors(text)) == found


def test_a_slip_whose_cause_is_told_is_not_told_again() -> None:
    """The learned rule is silent where another one says what is wrong."""
    text = LESSON.replace("one ten and four ones", "one ten and nine ones")
    found = [finding for finding in check(read(text)).findings if finding.level != "note"]
    assert "true arithmetic" in {finding.rule for finding in found}
    line = next(finding.line for finding in found if finding.rule == "true arithmetic")
    assert not [finding for finding in found if finding.rule == "number fits its place" and finding.line == line]
