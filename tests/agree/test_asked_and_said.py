"""What has the form of a question and is said all the same: tags, questions that are answered at once, questions that take
something as known; and short questions in a row."""

from __future__ import annotations

import pytest

from studio.agree import check
from studio.agree.check import rules_findings
from studio.script.reader import read
from tests.agree.minded import HEAD, assert_only_the_slip_is_minded, case_of, rules

ARITHMETIC = "true arithmetic"
ANSWER = "how many as shown"
VAIN = "what is asked can be"
COUNT = "count goes on"


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        # tags
        ("Seven otters dive. Because one more than six is seven, isn't it?", "six is seven", "six is eight"),
        ("So sixteen and four make twenty, don't you see?", "twenty", "five"),
        ("Six snails and four snails make ten snails, right? Good.", "ten", "eleven"),
        ("Nine ducks. Nine is greater than six, isn't it? Quack.", "six", "eighteen"),
        ("Two fives make ten, don't they?", "ten", "twelve"),
        # something else is asked after it, or it is taken as known
        ("If six and four make ten, what do sixteen and four make? Twenty.", "ten", "nine"),
        ("Six and four is ten, so what is sixteen and four? Twenty.", "is ten", "is nine"),
        ("Did you notice that six and four make ten?", "ten", "eleven"),
        ("Why do six and four make ten?", "ten", "eleven"),
        # yes at once
        ("Would seven plus eight be fifteen as well? Yes, why wouldn't it?", "fifteen", "eight"),
        ("Do five and eight make thirteen? They do!", "thirteen", "twelve"),
        ("Does thirteen minus eight equal five? It does.", "equal five", "equal four"),
        ("Is six fewer than fourteen? It is. By how many?", "fourteen", "four"),
        ("Is 19 more or less than 20? Less.", "20", "18"),
        # short questions in a row
        ("What goes with eight to make nine? One. What goes with six? Three.", "Three", "Four"),
        ("What goes with thirty to make forty? Ten. With twenty? Twenty.", "With twenty", "With ten"),
        ("8 and 8 is 16, so 8 and 9 is? 17.", "17", "18"),
        ("Ten take away three? Seven, because seven and three are partners of ten.", "three?", "five?"),
        # a comma before what is taken away
        ("Twenty-one, less ten, is eleven.", "Twenty-one", "Three"),
        # "not" is said of something else
        ("Ten and three is thirteen. She did not start at one, you see. Ten and three is thirteen.", "thirteen", "six"),
    ],
)
def test_it_is_heard_as_said(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, ARITHMETIC)


@pytest.mark.parametrize(
    "text",
    [
        "Six and four make eleven, right? No, ten.",
        "Six and four make eleven, is that right? No!",
        "Does six and four make eleven? It does not.",
        "Is nine less than two? No.",
        "Do six and four make eleven? They do not.",
        "How many more ones until we have four tens? Two, because 38 plus 2 is 40.",
        "Nine and three is twelve, minus two is ten.",
    ],
)
def test_what_is_asked_or_denied_stays_in_peace(text: str) -> None:
    assert ARITHMETIC not in rules(text)


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (
            "[show double ten frame: 15 dots as pads]\nHow many full rows of five are there? Three. Fifteen pads.",
            "Three",
            "Two",
        ),
        (
            "[show base ten: 35 as reeds]\nHow many tens? Three. How many ones? Five. Thirty-five reeds.",
            "Five",
            "Three",
        ),
        ("[show tally: 14 as snails]\nAnd how many sticks are left over? Four. Fourteen snails.", "Four", "Six"),
        ("[show tally: 14 as snails]\nHow many snails did we count? Was it fourteen? It was!", "fourteen", "nine"),
        ("[show tally: 14 as snails]\nFourteen snails. Is it fourteen? It is!", "Is it fourteen", "Is it nine"),
    ],
)
def test_what_is_asked_of_a_picture_is_what_it_has(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, ANSWER)


@pytest.mark.parametrize(
    "text",
    [
        "[show base ten: 35 as reeds]\nThirty-five reeds. How many more ones make a ten? Five.",
        "[show base ten: 35 as reeds]\nThirty-five. How many ones would two tens be? Twenty.",
        "[show tally: 14 as snails]\nFourteen snails. Is it eight? No!",
    ],
)
def test_what_is_asked_beyond_the_picture_stays_in_peace(text: str) -> None:
    assert ANSWER not in rules(text)


@pytest.mark.parametrize(
    ("asked", "minded"),
    [
        ("Five plus three equals six, yeah? And he has more boats than the gulls have.", True),
        ("So five plus three is six, yeah? Look how many fewer boats the gulls have.", True),
        ("Five plus three equals six, yeah? No! It is eight.", False),
        ("Five plus three is six? That isn't true.", False),
        ("Five plus three equals six. Is it true? Draw it. Count them. How many? Eight. So it is not true.", False),
        ("Is five plus three equal to six? Draw it. Count them. Take your time. How many? Eight. Not six.", False),
    ],
)
def test_what_only_sounds_asked_is_answered_with_no_at_once(asked: str, minded: bool) -> None:
    assert (VAIN in rules(asked)) == minded


@pytest.mark.parametrize(
    ("told", "minded"),
    [
        (
            "Nine and one is ten. Nine plus one equals eleven. The cross is new, it is not painted yet. Here she comes. Feather, no.",
            True,
        ),
        (
            "Nine and one is ten. Nine plus one equals eleven. Two frogs hop by and sing, and nobody has seen a silly one.",
            True,
        ),
        (
            "Nine plus one equals eleven. Wings, please. Count on. Nine and one is ten. Look again. We find it false.",
            False,
        ),
        ("Nine plus one equals eleven. Oh no, nine and one is ten.", False),
        ("Nine plus one equals eleven. That is not right. Nine and one is ten.", False),
        ("Nine plus one equals eleven. It is ten, not eleven. Nine and one is ten.", False),
    ],
)
def test_what_denies_a_sum_stands_close_by(told: str, minded: bool) -> None:
    assert (ARITHMETIC in rules(told)) == minded


@pytest.mark.parametrize(
    ("count", "minded"),
    [
        ("I count with my fingers. Six, seven, twelve, nine. Four cherries are missing.", True),
        ("Skip as far as you can: twenty-five, twenty-six, three, twenty-eight.", True),
        ("Six, seven, nine, ten. Which number did I skip? Eight.", False),
    ],
)
def test_a_count_with_another_number_leaves_none_out(count: str, minded: bool) -> None:
    assert (COUNT in rules(count)) == minded


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        # what is counted by, tells what comes next
        ("Counting by twos, what comes after ten? [wait 5 s] Twelve.", "Twelve", "Thirteen"),
        # so many on every one are groups
        ("Four plates with two snails on every plate make eight snails.", "eight", "six"),
        ("Four plates, and five snails on every plate, make twenty snails.", "twenty", "nine"),
        # what was read of a story is not all of it
        (
            "There's a bus with seven bears on it. At the stop four bears get off and two get on. How many bears ride on? Five.",
            "Five",
            "Six",
        ),
    ],
)
def test_what_is_told_beside_a_question_counts(text: str, right: str, wrong: str) -> None:
    assert right in text
    assert [*rules_findings(case_of(HEAD + text))] == []
    assert [*rules_findings(case_of(HEAD + text.replace(right, wrong)))] != []


def test_a_question_that_can_have_no_answer_says_so() -> None:
    text = HEAD + "Nine plus something is eight. [wait 5 s] Five."
    (finding,) = [one for one in check(read(text)).findings if one.rule == "answer fits question"]
    assert finding.message.endswith("has no answer, for that would be less than nothing.")
    assert finding.help == "Change one of its numbers."


def test_a_number_that_is_still_unknown_is_not_asked_to_be_the_same() -> None:
    assert VAIN not in rules("Ten is worth the same as six with how much? With four.")
