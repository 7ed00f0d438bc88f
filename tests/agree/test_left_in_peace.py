"""Manners of right lessons that were minded once, each with a slip beside it that is found."""

from __future__ import annotations

from pathlib import Path

import pytest

from studio.agree import check
from studio.agree.rules import (
    counts,
    each_counted,
    false_arithmetic,
    hop_ends,
    hop_lengths,
    how_many,
    list_read,
    rounds,
    said_of_picture,
    shown_is_said,
    story_drawing,
    topic,
    unexpected,
    unexpected_shown,
    unexpected_title,
)
from studio.script.reader import read
from studio.talk.numbers import counting_numbers, words_of
from tests.agree.minded import HEAD, assert_only_the_slip_is_minded, rules

LESSONS = Path(__file__).parents[2] / "benchmarks" / "unlearned"


@pytest.mark.parametrize(
    ("text", "right", "wrong", "rule"),
    [
        ("Look at the ends: four, six, eight, zero.", "Look at the ends: ", "", counts.NAME),
        (
            "Thirteen minus five is one like that. So today we bite twice.",
            "one like that",
            "one",
            false_arithmetic.NAME,
        ),
        (
            "[show double ten frame: 15 dots as f] In the double frame, three rows are full and one is empty. Fifteen.",
            "three rows are full and one is empty",
            "one box is empty",
            said_of_picture.NAME,
        ),
        (
            "[show base ten: 33 as b] So two rods became three rods, and there are three cubes as well: thirty-three.",
            "two rods became three rods, and there are three cubes",
            "there are two rods, and there are three cubes",
            said_of_picture.NAME,
        ),
        (
            "[show cards: 7, 6 as both] Less, point. [wait 4 s] Six is less.",
            "Less, point. [wait 4 s] Six is less.",
            "Look. Six frogs sit there.",
            shown_is_said.NAME,
        ),
        ("[show dots: 6 as socks] Six socks. How many pairs? Three.", "pairs? Three", "pairs? Eight", how_many.NAME),
        (
            "[show double ten frame: 16 dots as f] Sixteen. The second frame lacks four dots to be full.",
            "lacks four dots to be full",
            "has four dots",
            said_of_picture.NAME,
        ),
        (
            "Four boats lie there. A further boat comes, and after it three more. How many boats are there at the end?\n\n"
            "[show dots: 4 dots as bay]\nFirst, four. [bay: add 1 cross] Then one comes. [bay: add 3 crosses] And three.\n\n"
            "At the end eight boats are there.",
            "4 dots as bay]",
            "6 dots as bay]",
            story_drawing.NAME,
        ),
    ],
)
def test_the_manner_is_left_in_peace_and_the_slip_is_found(text: str, right: str, wrong: str, rule: str) -> None:
    assert_only_the_slip_is_minded(HEAD + text, right, wrong, rule)


@pytest.mark.parametrize(
    ("number", "right", "wrong", "rule"),
    [
        (15041, "# Partners of Nine First", "# Partners of Four First", unexpected_title.NAME),
        (15022, "# Partners of 20, then bigger", "# Partners of 9, then bigger", unexpected_title.NAME),
        (15031, "in six coats", "in nineteen coats", unexpected_title.NAME),
        (15456, "# One before twenty", "# Eight before twenty", unexpected_title.NAME),
        (15265, "# More than ten", "# More than nineteen", unexpected_title.NAME),
        (15284, "mark 7 as path] On", "mark 4 as path] On", unexpected_shown.NAME),
        (15175, "[show ten frame: 2 dots as crate]", "[show ten frame: 6 dots as crate]", shown_is_said.NAME),
        (15166, "[show ten frame: 1 dot as row]", "[show ten frame: 3 dots as row]", unexpected_shown.NAME),
        (15577, "left him with ten, [straw", "left him with five, [straw", counts.NAME),
        (15598, "the bottom row has four", "the bottom row has two", said_of_picture.NAME),
        (15599, "three swimmers on the bottom row", "two swimmers on the bottom row", said_of_picture.NAME),
        (15589, "five go in the bottom row", "eight go in the bottom row", said_of_picture.NAME),
        (15673, "Twenty above, four below", "Twenty above, seven below", said_of_picture.NAME),
        (15523, "Nine hops, puff", "Seven hops, puff", hop_lengths.NAME),
        (15639, "and those are five hops", "and those are eight hops", hop_lengths.NAME),
        (
            15639,
            "Now I stand on six, and you do the hopping in your head. How",
            "Now I stand on six. Well. How",
            hop_ends.NAME,
        ),
        (15671, "Eighteen pips on three dice", "Fourteen pips on three dice", unexpected.NAME),
        (15663, "I notice 6 dots and 3 crosses.", "I notice 6 dots and a few crosses.", rounds.NAME),
        (16685, "[wait 4 s] Seven.\n", "[wait 4 s] Nine.\n", unexpected.NAME),
        (16891, "Seventeen and seventy-one.", "Sixteen and seventy-one.", unexpected.NAME),
        (16650, "so that is two", "so that is six", unexpected.NAME),
        (16710, "Two more,", "Seven more,", unexpected.NAME),
        (16853, "biggest of the three", "biggest of the twelve", unexpected.NAME),
        (16763, "eleven cards", "fifteen cards", unexpected.NAME),
        (16863, "Eight remain", "Twelve remain", unexpected.NAME),
        (16822, "Hello to all three", "Hello to all nine", unexpected_title.NAME),
        (16828, "two coins of ten", "six coins of ten", list_read.NAME),
        (16516, "by twos.", "by threes.", each_counted.NAME),
    ],
)
def test_a_lesson_is_left_in_peace_and_its_slip_is_found(number: int, right: str, wrong: str, rule: str) -> None:
    text = next(LESSONS.glob(f"{number}-*")).read_text(encoding="utf-8")
    assert right in text
    assert not check(read(text)).errors
    assert rule in {finding.rule for finding in check(read(text.replace(right, wrong, 1))).errors}


def test_what_is_only_like_the_partners_of_a_number_is_not_what_the_segment_is_about() -> None:
    talk = "{} partners of five, and here we look for partners of fifty. Thirty and twenty make fifty."
    assert topic.NAME in rules(HEAD + talk.format("We look for"))
    assert topic.NAME not in rules(HEAD + talk.format("It is like"))


def test_a_sum_that_is_counted_on_from_is_no_uneven_count() -> None:
    assert counts.NAME not in rules(HEAD + "Five and five, ten, then fifteen, then twenty.")
    assert counts.NAME in rules(HEAD + "Five, six, ten, fifteen, twenty.")


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("One misty Monday four tadpoles woke up.", [4]),
        ("One frog of four woke up.", [1, 4]),
        ("Here's one I like better: seven and seven.", [7, 7]),
        ("Going down by one we land on ten.", [1, 10]),
    ],
)
def test_one_that_counts_nothing_is_told_from_one_that_does(text: str, numbers: list[int]) -> None:
    assert [number.value for number in counting_numbers(words_of(text))] == numbers
