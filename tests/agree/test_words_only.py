"""What is promised of a script that has no picture yet: it can be checked as soon as it is written."""

from __future__ import annotations

from pathlib import Path

import pytest

from studio.agree import check
from studio.findings import Finding
from studio.script.reader import read
from tests.agree.minded import without_directions

LESSONS = [
    path
    for path in sorted((Path(__file__).parents[2] / "benchmarks" / "lessons").glob("*.lesson.md"))[::340]
    if "[note: on purpose" not in path.read_text("utf-8")
]
TALK = """---
title: At the pond
---

# Partners of eight

Eight frogs sit by the pond. Five of them are green and three of them are brown. Five and three make eight. How many frogs are
there in all? Eight frogs!

# Number of the day: eight

Today's number is eight. Count with me. One, two, three, four, five, six, seven, eight. Eight lily pads float here. One less than
eight is seven, and one more than eight is nine.

# A story

Six ducks swim on the pond. Two more ducks come. How many ducks are there now? Six and two make eight. Eight ducks swim now.
"""


def minded(text: str) -> list[Finding]:
    return [finding for finding in check(read(text)).findings if finding.level != "note"]


def test_right_words_are_left_in_peace() -> None:
    assert minded(TALK) == []


@pytest.mark.parametrize(
    ("right", "wrong", "line"),
    [
        ("Eight frogs sit", "Fifteen frogs sit", 7),
        ("Eight ducks swim", "Six ducks swim", 17),
        ("Six ducks swim on", "Nine ducks swim on", 17),
        ("day: eight", "day: nine", 10),
    ],
)
def test_a_number_that_does_not_fit_the_words_around_it_is_found(right: str, wrong: str, line: int) -> None:
    assert right in TALK
    assert line in {finding.line for finding in minded(TALK.replace(right, wrong, 1))}


def test_of_right_scripts_hardly_one_is_minded_without_its_pictures() -> None:
    """Some can only be understood with them ("Two crossed groups and four marks. Fourteen."): of 243 others nine were minded."""
    assert len(LESSONS) > 25
    assert sum(bool(minded(without_directions(path.read_text("utf-8")))) for path in LESSONS) <= 1
