"""Riddles: the number that is told or shown after the clues fits them all."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

NAME = "clues fit the number"
HAT = (
    "Here are your clues. It's less than ten. It's more than six. It is even, too. [wait 6 s] Have you guessed?\n\n"
    "[show word: eight as hat] Eight! It was under the lily pad."
)
TEEN = (
    "Clue: it's a teen number. Clue: it's less than sixteen. Clue: it's double seven. Whisper your guess. [wait 6 s]\n\n"
    "[show double ten frame: 14 dots as pond] Was it fourteen? It was! Ten here, and four more there."
)
SPOKEN = "Say it to the newts. I am one less than seven. Who am I? [wait 4 s] Six! What a splash."
BETWEEN = "What is more than six and less than eight? [wait 4 s] Did you say seven? Why?"
FROG = "The frog croaked. I am even, I am greater than eight and I am less than twelve. [wait 4 s] Ten, said the heron."


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (HAT, "less than ten", "less than five"),
        (HAT, "more than six", "more than eleven"),
        (TEEN, "sixteen", "twelve"),
        (TEEN, "double seven", "double six"),
        (TEEN, "Was it fourteen", "Was it twelve"),
        (SPOKEN, "less than seven", "less than thirteen"),
        (SPOKEN, "Six!", "Four!"),
        (BETWEEN, "than six", "than twelve"),
        (BETWEEN, "say seven", "say three"),
        (FROG, "greater than eight", "greater than eighteen"),
    ],
)
def test_a_number_that_does_not_fit_the_clues_is_minded(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, NAME)


@pytest.mark.parametrize(
    "text",
    [
        # a clue rules cards out, and those are told next
        "[show cards: 8, 11, 16 as row]\nClue: the number is more than ten. Who can go home? [wait 4 s] Eight. Eleven and "
        "sixteen stay.",
        # a guess that is refused
        "Guess! I am more than six. I am less than nine. Is it four? No! Could it be eight? Yes, it is.",
        # no riddle at all
        "There are ten otters. It is more than six. Four otters dive.",
        # every riddle for itself
        "A riddle. I am more than six. Who am I? Next riddle. I am less than four. Who am I?",
        # what is asked for is one less than another number
        "Guess my game. It is one less than ten. Which number is one less than nine? Eight.",
    ],
)
def test_what_is_no_answer_to_the_clues_stays_in_peace(text: str) -> None:
    assert NAME not in rules(text)
