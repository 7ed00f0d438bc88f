"""What is read aloud, counted by groups, posed before a wait, asked at a stretch or marked in turn agrees with what stands there; the same
with a slip is minded by the rule that is for it. Where the trade's own pages are meant (common practice, no source) the words are invented."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.agree.rules import (
    asked_in_turn,
    beads_told,
    change_told,
    counts,
    each_counted,
    false_arithmetic,
    in_parts,
    list_read,
    marks_in_turn,
    posed,
    read_aloud,
    rounds,
    sounds,
    unexpected_title,
)
from studio.agree.wording import spelled
from tests.agree.minded import assert_only_the_slip_is_minded, rules


@pytest.mark.parametrize(
    ("text", "right", "wrong", "rule"),
    [
        # what is written is read aloud
        ("[show number sentence: 8 - ? = 6 as moths]\nEight take away something is six. What is it? [moths: fill in] Two.", "is six", "is two",
         read_aloud.NAME),
        ("[show number bond: 17 is 10 and ? as bond]\nSeventeen is ten and which number? [wait 5 s] [bond: fill in] Seven.", "is ten and which",
         "is thirteen and which", read_aloud.NAME),
        ("[show text: 15 = 9 + 5]\nFifteen equals nine plus five. Not true! Nine plus five is fourteen.", "Fifteen equals", "Thirteen equals",
         read_aloud.NAME),
        ("[show number sentence: 12 - 2 = 10]\nTwelve minus two equals ten. [wait 6 s] Write T.", "minus two", "minus eleven", read_aloud.NAME),
        ("[show number sentence: 6 + 0 = ? as act]\nSix plus zero? [wait 4 s] [act: fill in] Six.", "Six plus", "Nine plus", read_aloud.NAME),
        # groups, told before they are counted
        ("A tin has four rows, and each row has three hollows. How many muffins? [wait 8 s] Three, six, nine, twelve.", "has three hollows",
         "has six hollows", each_counted.NAME),
        ("Chairs stand with two chairs in every row. Two, four, six, eight, ten.", "with two chairs", "with five chairs", each_counted.NAME),
        ("By fives. Seven feet: five, ten, fifteen, twenty, twenty-five, thirty, thirty-five toes.", "Seven feet", "Twelve feet", each_counted.NAME),
        # beads
        ("[show rekenrek: 7 and 6]\nSeven left hands, six right hands. Thirteen mittens.", "Seven left", "Nine left", beads_told.NAME),
        # posed before a wait
        ("Four plus three plus four. [wait 7 s] Double four is eight, and three more is eleven.", "plus three plus", "plus two plus", posed.NAME),
        ("Begin at eleven, back three. [wait 7 s] Ten, nine, eight. Eight!", "back three", "back seven", posed.NAME),
        # asked at a stretch
        ("Seven and seven? Nine and nine? Six and six? [wait 10 s] Fourteen, eighteen, twelve.", "Nine and nine", "Nine and eight", asked_in_turn.NAME),
        ("Ten and two? Seven take away three? Two and five? [wait 12 s] Twelve. Four. Seven.", "Four", "Nine", asked_in_turn.NAME),
        ("If you draw eight, what do you shout? If you draw six? If you draw one? [wait 6 s] Two! Four! Nine!", "Four!", "Three!",
         asked_in_turn.NAME),
        # marks
        ("[show number line: 0 to 20 as street]\nI find seven, [street: mark 7] then eleven, [street: mark 11] and further on fourteen. [street: mark 14]",
         "then eleven", "then twelve", marks_in_turn.NAME),
        # lists
        ("[show text: 2 and 4, 1 and 5, 0 and 6 as list]\nTwo and four. One and five. Zero and six.", "One and five", "One and three", list_read.NAME),
        # sounds
        ("I clap. Clap, clap, clap. It is three.", "is three", "is four", sounds.NAME),
        # a whole in parts
        ("[show number bond: 12 is 5 and 7]\nThe twelve ducklings come in two parts. Five are in the grass.", "twelve ducklings", "five ducklings",
         in_parts.NAME),
        # what is taken once more
        ("[show tally: 10 as rows]\nTen marks. She takes another two. [rows: take away 2] Ten take away two is eight.", "another two", "another six", change_told.NAME),
        ("[show dots: 9 as pond]\nNine frogs sit in the pond. [pond: take away 3] After the three have jumped, the others are quiet. Nine take away three is six.",
         "the three have", "the five have", change_told.NAME),
        # a count that is told once more, and one by twos that ends
        ("Eight, nine, ten. Ten! Count on from seven.", "nine, ten", "nine, seven", counts.NAME),
        ("The columns give two, four, six, eight and ten. The total is the same.", "and ten", "and two", counts.NAME),
        # a sum, with more told behind it; a number and its last digit
        ("No trade. Two and six make eight, and eight can stay as loose ones.", "Two and six", "Six and six", false_arithmetic.NAME),
        ("Will thirty-five be said when we count by fives from zero? Yes, its last digit is five.", "thirty-five", "thirty-six",
         false_arithmetic.NAME),
        # a no that answers something else
        ("Six and four are ten. Turn it about: four and six are ten. Is the jar any fuller that way? Not by a crumb.", "four and six",
         "four and nine", false_arithmetic.NAME),
        # two sums that both come to something, what lies ahead, a claim that says at its end that it is not true
        ("Seven plus five and five plus seven both come to twelve.", "five plus seven", "five plus six", false_arithmetic.NAME),
        ("Ten is six squares behind me and twenty is four squares ahead. Six and four are ten.", "four are ten", "four are twelve", false_arithmetic.NAME),
        ("Five plus five equals two plus seven: not true. Seven and two are nine.", "are nine", "are eight", false_arithmetic.NAME),
        ("The eleven ones turn into a ten and a one. Eleven is ten and one.", "is ten and one", "is ten and two", false_arithmetic.NAME),
        ("Four friends. Seven, eight, nine, ten, four good friends.", "ten, four", "ten, five", counts.NAME),
        # partners: the next call goes on with no count
        ("Partners of ten. Eight are out. [wait 4 s] Two are in. Nine! [wait 3 s] One. Now six are out, and hidden are [wait 3 s] four. Five are out, "
         "and [wait 3 s] five are in. All ten!", "six are out", "seven are out", rounds.NAME),
    ],
)  # fmt: skip
def test_what_stands_there_is_minded_where_it_is_said_otherwise(text: str, right: str, wrong: str, rule: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, rule)


@pytest.mark.parametrize(
    "text",
    [
        "[show number sentence: 50 - 37 = ? as task]\nFifty minus thirty. Twenty. Then seven more.",
        "[show number sentence: 13 - 4 = 9]\nWhat if I claim that thirteen minus five equals nine? False! It is eight.",
        "[show number bond: 11 is 6 and 5]\nSix and five is one name. Ten and one is another.",
        "[show rekenrek: 8 and 5]\nFive above, five below, and three more on top.",
        "The crane covers ten in each step, and the wagtail covers five. Five, ten, fifteen, twenty.",
        "Two? [wait 3 s] Eleven. Five? [wait 3 s] Fourteen. Eight? [wait 3 s] Seventeen.",
        "Count by fives. Five, ten, fifteen and two.",
        "Seven and seven? Nine and nine? Six and six? [wait 10 s] Did you say them all? Fourteen, and the others in your head.",
        "[show number line: 0 to 20 as path]\nTwo leads to sixteen. [path: mark 16] One leads to fifteen. [path: mark 15] You head for seventeen. From "
        "fifteen it is two. [path: mark 17]",
    ],
)
def test_what_is_only_like_it_is_left_in_peace(text: str) -> None:
    assert not rules(text) & {
        read_aloud.NAME, beads_told.NAME, each_counted.NAME, rounds.NAME, counts.NAME, asked_in_turn.NAME, marks_in_turn.NAME,
    }  # fmt: skip


def test_a_title_may_name_what_is_close_or_what_is_not_there() -> None:
    pond = "[show double ten frame: 19 dots as pond]\nNineteen frogs sit here. Nineteen is ten and nine. A single place is empty. Nine and ten."
    for title in ("So close to twenty", "Almost twenty"):
        assert unexpected_title.NAME not in rules(f"# {title}\n\n{pond}")
    cubes = "[show base ten: 7 as cubes]\nSeven cubes, all ones. Five and two make seven. Six and one make seven. Three and four make seven."
    assert unexpected_title.NAME not in rules(f"# No ten in seven\n\n{cubes}")
    assert unexpected_title.NAME in rules(f"# Twenty cubes\n\n{cubes}")


@given(st.lists(st.tuples(st.integers(1, 9), st.integers(1, 9)), min_size=3, max_size=6), st.data())
def test_of_sums_that_are_asked_at_a_stretch_only_a_wrong_answer_is_minded(
    sums: list[tuple[int, int]], data: st.DataObject
) -> None:
    def told(answers: list[int]) -> set[str]:
        asked = " ".join(f"{spelled(one).capitalize()} and {spelled(other)}?" for one, other in sums)
        return rules(f"{asked} [wait 9 s] {' '.join(spelled(answer).capitalize() + '.' for answer in answers)}")

    answers = [one + other for one, other in sums]
    assert asked_in_turn.NAME not in told(answers)
    at = data.draw(st.integers(0, len(sums) - 1))
    answers[at] = data.draw(st.integers(0, 19).filter(lambda value: value != answers[at]))
    assert asked_in_turn.NAME in told(answers)
