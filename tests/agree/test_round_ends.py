"""Where lines, paths, charts and rows of cards begin and end."""

from __future__ import annotations

import pytest

from studio.agree.rules.round_ends import NAME
from tests.agree.minded import advice


def minded(picture: str, talk: str) -> list[str]:
    return advice(f"[show {picture} as row] {talk}", NAME)


@pytest.mark.parametrize(
    ("picture", "talk", "better"),
    [
        ("number line: 0 to 19, mark 12", "A frog sits on twelve.", "Let it end at 20, or say what is at 19."),
        ("number path: 7 to 20, mark 15", "A frog sits on fifteen.", "Let it begin at 5, or say what is at 7."),
        ("number path: 2 to 10, mark 5", "A frog sits on five.", "Let it begin at 0, or say what is at 2."),
        ("hundred chart: 1 to 14, mark 9", "Nine is in the first row.", "Let it end at 20, or say what is at 14."),
        ("hundred chart: 16 to 40, mark 23", "Twenty-three is coloured.", "Let it begin at 11, or say what is at 16."),
        ("cards: 0 to 13", "Look for partners of ten.", "Let it end at 10, or say what is at 13."),
    ],
)
def test_an_end_that_nothing_speaks_of_is_minded(picture: str, talk: str, better: str) -> None:
    assert minded(picture, talk) == [better]


@pytest.mark.parametrize(
    ("picture", "talk"),
    [
        ("number line: 0 to 20, mark 12", "A frog sits on twelve."),
        ("number line: 0 to 19, mark 12", "A frog sits on twelve and wants to get to nineteen."),
        ("number path: 0 to 13, mark 12", "A frog sits on twelve."),
        ("number path: 0 to 17", "Hop along. [row: hop 12 to 17] There it is."),
        ("number path: 7 to 17", "A frog sits here."),
        ("number path: 41 to 50, mark 49", "A frog sits on forty-nine."),
        ("number line: 0 to 14", "Where is twelve?"),
        ("number line: 6 to 14", "Where is twelve?"),
        ("hundred chart: 1 to 31", "The days of a month."),
        ("hundred chart: 21 to 60", "Four rows of it."),
        ("cards: 0 to 10", "Look for partners of ten."),
        ("cards: 1 to 12", "There are twelve cards."),
    ],
)
def test_ends_that_are_round_or_spoken_of_are_let_be(picture: str, talk: str) -> None:
    assert not minded(picture, talk)


def test_an_end_on_purpose_is_let_be() -> None:
    talk = "A frog sits on twelve. [note: on purpose, the line is torn off]\n"
    assert not minded("number line: 0 to 19, mark 12", talk)
