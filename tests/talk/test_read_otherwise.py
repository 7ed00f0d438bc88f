"""Sayings of which not every number belongs to one sum: what is right is left alone, and one wrong number is found. Wordings: common
practice, no source; the sums are checked with Python's own arithmetic."""

from __future__ import annotations

import pytest

from studio.talk.model import Statement
from studio.talk.numbers import find_numbers, words_of
from studio.talk.statements import find_statements


def told(text: str) -> list[Statement]:
    words = words_of(text)
    return [one for one in find_statements(words, find_numbers(words)) if one.holds is not None]


@pytest.mark.parametrize(("whole", "part"), [(30, 14), (45, 13), (92, 27)])
@pytest.mark.parametrize(("sign", "by"), [("minus", -1), ("plus", 1)])
def test_a_number_that_is_taken_or_added_in_steps_is_followed_step_by_step(
    whole: int, part: int, sign: str, by: int
) -> None:
    first, last = whole + by * (part - part % 10), whole + by * part
    talk = f"{whole} {sign} {part}: {sign} {part - part % 10} is {first}, {sign} {part % 10} is {{}}."
    assert {one.holds for one in told(talk.format(last))} == {True}
    assert False in {one.holds for one in told(talk.format(last + 1))}


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("I said seven more numbers, and nine minus seven is two.", "I said seven more numbers, and nine minus seven is four."),
        ("Four green socks. And two blue and two striped makes eight.", "Four green socks. And two blue and two striped makes nine."),
        ("Six and one are five apart.", "Six and one are seventeen apart."),
        ("From ten to twenty there's only ten to go.", "From ten to twenty there's only six to go."),
    ],
)  # fmt: skip
def test_what_stands_beside_a_sum_is_no_part_of_it(right: str, wrong: str) -> None:
    assert False not in {one.holds for one in told(right)}
    assert False in {one.holds for one in told(wrong)}


@pytest.mark.parametrize(
    "text",
    [
        "Make up an end for this: ten equals eight plus the bag.",
        "Seven has more letters than ten, and still seven is less.",
        "From ten to twenty there's only one number for which it is true.",
    ],
)
def test_what_is_no_sum_is_not_held_against_the_teacher(text: str) -> None:
    assert False not in {one.holds for one in told(text)}


def test_a_card_that_is_called_out_of_a_row_is_not_what_it_lacks() -> None:
    lacking = 'One is missing. Fourteen, fifteen, sixteen, eighteen. "{}!"'
    assert [one.kind for one in told(lacking.format("Seventeen")) if one.kind == "even row"] == ["even row"]
    assert not [one for one in told(lacking.format("Eighteen")) if one.kind == "even row"]


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("4 tens 2 ones, or 3 tens 12 ones.", "4 tens 2 ones, or 3 tens 13 ones."),
        ("Six tens and four ones is the same as five tens and fourteen ones.", "Six tens and four ones is the same as five tens and fifteen ones."),
        ("34 up to 40 = 6, 40 up to 50 = 10.", "34 up to 40 = 7, 40 up to 50 = 10."),
    ],
)  # fmt: skip
def test_a_number_told_again_by_other_tens_and_the_way_to_a_ten_are_worked_out(right: str, wrong: str) -> None:
    assert {one.holds for one in told(right)} == {True}
    assert False in {one.holds for one in told(wrong)}


@pytest.mark.parametrize(
    "text", ["Is it 3 tens and 5 ones, or 2 tens and 16 ones?", "2 tens and 5 ones. 1 ten and 12 ones come to it."]
)
def test_two_numbers_by_their_tens_and_ones_are_not_taken_for_one(text: str) -> None:
    assert False not in {one.holds for one in told(text)}


@pytest.mark.parametrize(
    "talk",
    [
        "Nine, seven and {} belong to a family.",
        "{}, nine and seven: that is a fact family.",
        "In our family are seven, {}, and nine.",
    ],
)
def test_the_numbers_of_a_family_make_one_of_them(talk: str) -> None:
    """Facts that belong together, "8 + 3 = 11" and "11 - 8 = 3" (CCSSM 1.OA.B.4, 1.OA.C.6), are of three such numbers."""
    assert [one.holds for one in told(talk.format("sixteen"))] == [True]
    assert [one.holds for one in told(talk.format("seventeen"))] == [False]
    assert not told("Could nine, seven and four be a family?") and not told("Nine, seven and four are no family.")
