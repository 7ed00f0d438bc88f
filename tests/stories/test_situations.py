"""Every situation of Table 1 is told and answered from our own stories (CCSSM 2010, Table 1; from memory)."""

from __future__ import annotations

import pytest

from studio.talk.stories import solve
from tests.stories.pond_stories import POND_STORIES, PondStory

TABLE_1 = {
    "add to, result unknown": "2 + 3 = ?",
    "add to, change unknown": "2 + ? = 5",
    "add to, start unknown": "? + 3 = 5",
    "take from, result unknown": "5 - 2 = ?",
    "take from, change unknown": "5 - ? = 3",
    "take from, start unknown": "? - 2 = 3",
    "put together/take apart, total unknown": "3 + 2 = ?",
    "put together/take apart, addend unknown": "3 + ? = 5",
    "put together/take apart, both addends unknown": "5 = ? + ?",
    "compare, difference unknown": "2 + ? = 5",
    "compare, bigger unknown": "2 + 3 = ?",
    "compare, smaller unknown": "5 - 3 = ?",
}
"""The table's own numbers and sentences (FACTS: CCSSM glossary, Table 1, from memory)."""


@pytest.mark.parametrize("told", POND_STORIES, ids=lambda told: f"{told.situation or 'cannot tell'}: {told.story[:40]}")
def test_a_story_is_told_and_answered(told: PondStory) -> None:
    story = solve(told.story, told.question)
    assert (story.situation, story.sentence, story.answer) == (told.situation, told.sentence, told.answer)
    assert story.unknown == told.situation.partition(", ")[2].removesuffix(" unknown")


@pytest.mark.parametrize("situation", TABLE_1)
def test_the_numbers_of_the_table_are_among_our_stories_with_its_sentence(situation: str) -> None:
    assert any(told.situation == situation and told.sentence == TABLE_1[situation] for told in POND_STORIES)


def test_digits_and_words_tell_the_same_story() -> None:
    words = solve("Nine frogs sit on a log. Two hop away.", "How many frogs are left?")
    digits = solve("9 frogs sit on a log. 2 hop away.", "How many frogs are left?")
    assert (words.sentence, words.answer, words.told) == (digits.sentence, digits.answer, digits.told)


def test_a_number_that_does_not_belong_is_left_out() -> None:
    story = solve(
        "The otter swam 12 miles. The river is 30 miles long. It ate 4 fish.", "How many miles are left to swim?"
    )
    assert story.answer in (18, None)
    story = solve("There are 6 red fish, 3 blue fish and 8 frogs.", "How many fish are there?")
    assert story.told == (6, 3)


def test_a_story_that_would_need_a_number_below_zero_cannot_be_told() -> None:
    story = solve("Two frogs sit on a log. Five frogs hop off the log.", "How many frogs are left?")
    assert (story.situation, story.answer) == ("", None)


def test_equal_groups_are_added_again_and_again() -> None:
    """2.OA.C.4 (CCSSM 2010, from memory): an array is written as a sum of equal addends."""
    story = solve("There are 3 lily pads. Each lily pad has 4 frogs.", "How many frogs are there in all?")
    assert (story.sentence, story.answer) == ("4 + 4 + 4 = ?", 12)
