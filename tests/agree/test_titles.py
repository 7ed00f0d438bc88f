"""What is promised of the numbers in titles: right ones are left in peace, and one that does not fit its segment is found."""

from __future__ import annotations

import re

import pytest

from studio.agree import check
from studio.agree.expect.titled.place import places
from studio.agree.rules import unexpected_title
from studio.findings import Finding
from studio.script.reader import read
from tests.agree.minded import case_of

LESSON = """---
title: At the pond
---

# {first}

[clear]
[show number bond: 8 is 5 and 3]
Eight frogs sit by the pond. Five are green and three are brown. Five and three make eight.

# {second}

[clear]
[show ten frame: 8 dots as pads]
Today's number is eight. [pads: count] One, two, three, four, five, six, seven, eight. Eight lily pads.
[clear]
[show word: eight]
This is the word eight. One less than eight is seven, and one more is nine.

# {third}

[clear]
[show dots: 6 as ducks]
Six ducks swim. Two more ducks come. [ducks: add 2 dots] Six and two make eight. Eight ducks swim now.
"""


def findings(
    first: str = "Partners of eight", second: str = "Number of the day: eight", third: str = "Six ducks"
) -> list[Finding]:
    text = LESSON.format(first=first, second=second, third=third)
    return [finding for finding in check(read(text)).findings if finding.level != "note"]


def test_right_titles_are_left_in_peace() -> None:
    assert findings() == []
    assert findings("How many in all?", "Eight, eight, eight", "A story of eight ducks") == []
    assert findings("Part 1: warm-up", "Part 2: our number", "Part 3: a story") == []
    assert findings("Lesson 14 begins", "Ready?", "Two more ducks") == []


def test_a_title_in_the_words_of_its_segment_is_left_in_peace() -> None:
    assert findings(second="One more is nine") == []
    assert findings(second="One more is six") != []


def test_a_title_may_be_nearly_so() -> None:
    assert findings(second="Almost nine") == []
    assert findings(second="Nearly seven, and what if there is none?") == []
    assert findings(second="Almost twelve") != []
    assert findings(second="Half of a hundred") != []
    assert findings(second="Half of sixteen") == []


def test_a_title_may_tell_a_product_and_between_which_numbers_one_lies() -> None:
    assert findings(second="Eight, four times two") == []
    assert findings(second="Eight, thirteen times two") != []
    assert findings(second="Between six and thirteen") == []
    assert findings(second="Between twelve and thirteen") != []


def test_a_great_number_that_is_said_in_its_segment_may_be_its_title() -> None:
    text = LESSON.format(first="Up to ten", second="Sixty-four, and then?", third="Six ducks")
    said = text.replace("This is the word eight.", "This is the word eight. I count to sixty-four in my sleep.")
    assert [finding.rule for finding in check(read(text)).errors if finding.line == 11] == [unexpected_title.NAME]
    assert [finding.rule for finding in check(read(said)).errors if finding.line == 11] == []


@pytest.mark.parametrize(
    ("where", "title", "line"),
    [
        ("first", "Partners of six", 5),
        ("first", "Partners of five", 5),  # said and shown, but not what is put together
        ("second", "Number of the day: nine", 11),  # said as one more
        ("second", "The number seven", 11),
        ("second", "Eighteen", 11),
        ("third", "Nine ducks", 20),
    ],
)
def test_a_title_that_does_not_fit_its_segment_is_found(where: str, title: str, line: int) -> None:
    found = findings(**{where: title})
    assert [(finding.rule, finding.line) for finding in found] == [(unexpected_title.NAME, line)]
    assert title in found[0].said


def test_a_number_that_its_segment_never_says_is_doubted_sooner_than_one_that_it_says() -> None:
    assert findings(third="Nine of them on the water") != []
    assert findings(second="Nine of them on the water") == []  # said as one more


def test_what_was_to_be_expected_is_told() -> None:
    (found,) = findings(second="Number of the day: nine")
    assert "says 9" in found.message
    assert re.search(r"One would expect 8 here", found.help)


def test_a_title_over_no_words_and_a_number_too_great_to_count_are_no_matter() -> None:
    text = LESSON.format(first="99999999999999999999 frogs", second="Seven hundred", third="Six") + "\n# Twelve\n"
    check(read(text))


def test_first_and_once_in_a_title_are_no_numbers_that_count() -> None:
    case = case_of(LESSON.format(first="First of all", second="Once more: eight", third="One"))
    assert [place.value for place in places(case)] == [8, 1]
