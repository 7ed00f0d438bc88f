"""Statements in talk. Examples marked CCSSM are from the Common Core State Standards for Mathematics (2010), grade 1."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from num2words import num2words

from studio.agree import check
from studio.script.reader import read
from studio.talk.model import Statement
from studio.talk.numbers import find_numbers, words_of
from studio.talk.statements import find_statements


def statements(text: str) -> list[Statement]:
    words = words_of(text)
    return list(find_statements(words, find_numbers(words)))


def only(text: str) -> Statement:
    (found,) = statements(text)
    return found


@pytest.mark.parametrize(
    ("text", "holds"),
    [
        ("6 = 6.", True),  # CCSSM 1.OA.D.7
        ("7 = 8 - 1.", True),
        ("5 + 2 = 2 + 5.", True),
        ("4 + 1 = 5 + 2.", False),
        ("Four and one is the same as five and two.", False),
        ("8 + 6 = 8 + 2 + 4 = 10 + 4 = 14.", True),  # CCSSM 1.OA.C.6, from memory
        ("13 - 4 = 13 - 3 - 1 = 10 - 1 = 9.", True),
        ("6 + 7 = 6 + 6 + 1 = 12 + 1 = 13.", True),
        ("Thirteen minus four is thirteen minus three minus one, which is ten minus one, which is nine.", True),
        ("2 + 6 + 4 = 2 + 10 = 12.", True),  # CCSSM 1.OA.B.3
        ("2 + 6 + 4 = 2 + 10 = 13.", False),
        ("Two and three's five.", True),
        ("Two and three's six.", False),
        ("Four and four, and there's eight.", True),
        ("8 + 3 = 11.", True),
        ("3 + 8 = 11.", True),
    ],
)
def test_equations_of_the_standards_are_judged(text: str, holds: bool) -> None:
    assert only(text).holds is holds


@pytest.mark.parametrize(
    ("text", "answer"),
    [
        ("8 + ? = 11", 3),  # CCSSM 1.OA.D.8
        ("5 = ? - 3", 8),
        ("6 + 6 = ?", 12),
        ("What goes with eight to make ten?", 2),  # CCSSM 1.OA.B.4: 10 - 8
        ("If I say five, and the whole is nine, what do you say?", 4),
        ("How many more does five need to get to eight?", 3),
        ("What is one less than fourteen?", 13),
        ("What comes after nine?", 10),
    ],
)
def test_what_a_question_asks_for_is_worked_out(text: str, answer: int) -> None:
    assert only(text).expected == answer


@pytest.mark.parametrize("ones", range(1, 10))
def test_eleven_to_nineteen_are_a_ten_and_ones(ones: int) -> None:  # CCSSM 1.NBT.B.2
    whole = num2words(10 + ones)
    said = f"{whole} is one ten and {num2words(ones)} ones."
    assert only(said).holds is True
    assert only(f"{whole} is one ten and {num2words(ones - 1)} ones.").holds is False


@pytest.mark.parametrize(
    ("text", "kind", "holds"),
    [
        ("Five needs three more to get to eight.", "unknown part", True),
        ("Five needs four more to get to eight.", "unknown part", False),
        ("Five and three make eight.", "sum", True),
        ("Nine is two more than seven.", "more than", True),
        ("One less than fourteen is twelve.", "one less", False),
        ("Double six is twelve.", "double", True),
        ("Nine is less than seven.", "less", False),
        ("Five tens are fewer than six.", "less", True),
        ("Five tens are fewer than four.", "less", False),
        ("Two tens are more than nine.", "greater", True),
        ("Five, six, seven, eight.", "count on", True),
        ("Five, six, nine, eight.", "count on", False),
        ("Count by fives: five, ten, twelve, twenty.", "count on by 5", False),
        ("Five, ten, eleven, twelve.", "count on by 5", True),
        ("Nine take away two is seven.", "difference", True),
        ("Seven and three are partners of ten.", "partners", True),
        ("Fifty-four has five tens.", "tens", True),
    ],
)
def test_each_kind_of_statement_is_found_and_judged(text: str, kind: str, holds: bool) -> None:
    found = only(text)
    assert (found.kind, found.holds) == (kind, holds)


def test_every_reading_is_tried_before_a_statement_is_false() -> None:
    assert all(s.holds for s in statements("Six is two and four and five is two and three."))
    assert all(s.holds for s in statements("Six is zero and six, one and five, two and four."))


def test_a_question_is_paired_with_its_answer() -> None:
    assert only("What is seven plus two? Nine.").holds is True
    assert only("What is seven plus two? It is ten.").holds is False
    assert only("Is 4 + 1 the same as 5 + 2? No.").holds is True
    assert only("True or false: 4 + 1 = 5 + 2. False.").holds is True
    assert only("True or false: 4 + 1 = 5 + 2. True.").holds is False


def test_what_stands_before_a_whole_sum_asks_for_nothing() -> None:
    found = only("And guess what, 4 and 4 make 8, so the frog had one more than a double.")
    assert (found.kind, found.holds) == ("sum", True)
    assert only("And guess what, 4 and 4 make 9, so the frog had one more than a double.").holds is False


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 50), st.integers(0, 50), st.integers(0, 120))
def test_a_sum_holds_exactly_when_it_is_true(one: int, other: int, whole: int) -> None:
    for said in (f"{num2words(one)} and {num2words(other)} make {num2words(whole)}.", f"{one} + {other} = {whole}."):
        assert [s.holds for s in statements(said)] == [one + other == whole]


@settings(max_examples=500, deadline=None)
@given(
    st.one_of(
        st.text(max_size=120),
        st.lists(
            st.sampled_from(
                "one two ten 7 and plus minus is makes more than less needs to get from ? . , = + - tens ones double "
                "what how many count by fives partners of the whole part 3 + ½ ٣ 五 # ¶ § guess".split()
            ),
            max_size=30,
        ).map(" ".join),
    )
)
def test_any_words_are_read_without_a_crash(text: str) -> None:
    for found in statements(text):
        assert 0 <= found.start < found.end


def test_partners_asked_for_one_after_another_are_each_told_once() -> None:
    found = statements(
        "What goes with eight to make nine? One. What goes with six? Three. And with five? Four. And with two? Seven."
    )
    assert [s.values for s in found if s.kind == "partners"] == [(6, 3, 9), (5, 4, 9), (2, 7, 9)]


def test_what_is_left_over_is_no_sum() -> None:
    assert statements("You get four and four, and there's one left over.") == []


def test_what_stands_beside_without_its_number_makes_it_no_sum() -> None:
    assert statements("Nine is four and four and a spare.") == []
    assert [one.holds for one in statements("Nine is four and four. And a spare bed.")] == [False]


def test_things_out_of_a_smaller_number_are_not_taken_away() -> None:
    assert [one.holds for one in statements("Five plus five makes ten bowls from one pot.")] == [True]
    assert [one.holds for one in statements("Ten frogs from twelve frogs is three.")] == [False]


def test_partners_end_where_another_drill_begins() -> None:
    text = "Partners of ten. Two? Eight. Seven? Three. Doubles. Eight? Sixteen. Ten more. Nine? Nineteen."
    assert [one.values for one in statements(text)] == [(2, 8, 10), (7, 3, 10)]
    assert [one.holds for one in statements(text.replace("Three", "Four", 1))] == [True, False]


@pytest.mark.parametrize(
    "text",
    [
        "Thirty-two and twenty more. That's two drops down the chart.",
        "If I swap the two and the five I get two hundred and fifty-six.",
        "Two tens, and how many more tens to get to five tens? Three. Thirty.",
        "Seven tens and how many more tens make ten tens? Three.",
        "Look at twelve, the one is the ten and the two is the two.",
    ],
)
def test_what_is_named_or_moved_is_no_sum(text: str) -> None:
    assert not [statement for statement in statements(text) if statement.holds is False]


def test_ones_told_beside_tens_belong_to_no_sum_of_tens() -> None:
    assert [statement.holds for statement in statements("Two tens and two tens are four tens, and six.")] == [True]
    assert [statement.holds for statement in statements("Two tens and two tens are five tens, and six.")] == [False]


def test_a_count_ends_before_the_sum_of_what_was_counted() -> None:
    body = "Two more come. Five, six.\nFour and two make six.\n"
    found = check(read(f"---\ntitle: Pond\n---\n{body}"))
    assert [(one.kind, one.values) for one in found.statements] == [("sum", (4, 2, 6))]
    assert not found.findings
