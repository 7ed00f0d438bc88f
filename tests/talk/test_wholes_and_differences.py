"""Wholes that are asked about, ways in a row, doubles and differences, whichever way they are said. Wordings: common
practice, no source; the sums are checked with Python's own arithmetic."""

from __future__ import annotations

import pytest

from studio.talk.model import Statement
from studio.talk.numbers import find_numbers, words_of
from studio.talk.statements import find_statements


def statements(text: str) -> list[Statement]:
    words = words_of(text)
    return list(find_statements(words, find_numbers(words)))


@pytest.mark.parametrize(
    ("question", "parts"),
    [
        ("So what is fourteen?", (10, 4)),
        ("What is 14 made of?", (10, 4)),
        ("Which two numbers make fourteen?", (9, 5)),
        ("Which cards make 14?", (8, 6)),
        ("Which double makes fourteen?", (7, 7)),
        ("How else can we make fourteen?", (5, 5, 4)),
        ("Do you know other partners of 14?", (12, 2)),
        ("The frogs want some more. Did you spot two that make fourteen?", (11, 3)),
        ("14 is 13 and how many?", (13, 1)),
    ],
)
def test_a_whole_that_is_asked_about_is_laid_against_its_parts(question: str, parts: tuple[int, ...]) -> None:
    right, wrong = " and ".join(map(str, parts)), " and ".join(map(str, (parts[0] + 1, *parts[1:])))
    (true,) = [s for s in statements(f"Frogs croak. {question} {right}.") if s.holds is not None]
    assert true.values == (sum(parts), *parts)
    assert true.holds is True
    (false,) = [s for s in statements(f"Frogs croak. {question} {wrong}.") if s.holds is not None]
    assert false.holds is False


@pytest.mark.parametrize(
    "text",
    [
        "Does it make fourteen? Begin with two and three.",
        "How many more does five need to make fourteen? Two and three are not enough.",
        "Where does fourteen live? It lives between thirteen and fifteen.",
        "Who has fourteen? Nine and three swim off.",
    ],
)
def test_two_numbers_after_another_question_are_no_parts(text: str) -> None:
    assert not [s for s in statements(text) if s.kind == "parts"]


def test_ways_in_a_row_with_two_or_three_parts_make_the_same() -> None:
    right = statements("Say the ways. 10 and 4. 7 and 7. 5 and 5 and 4.")
    assert [(s.values, s.holds) for s in right] == [((10, 4, 14), True), ((7, 7, 14), True), ((5, 5, 4, 14), True)]
    for wrong in (
        "10 and 5. 7 and 7. 5 and 5 and 4.",
        "10 and 4. 7 and 8. 5 and 5 and 4.",
        "10 and 4. 7 and 7. 5 and 6 and 4.",
    ):
        assert [s.holds for s in statements(f"Say the ways. {wrong}")].count(False) == 1


def test_ways_are_laid_against_the_whole_that_follows_them() -> None:
    assert [s.holds for s in statements("Look. Ten and four, seven and seven: all fourteen.")] == [True, True]
    assert False in [s.holds for s in statements("Look. Ten and four, seven and eight: all fourteen.")]
    assert False in [s.holds for s in statements("Look. Ten and four, seven and seven: all thirteen.")]


@pytest.mark.parametrize(
    ("said", "kind", "true", "false"),
    [
        ("Doubling nine gives {}.", "double", 18, 19),
        ("The double of six is {}.", "double", 12, 14),
        ("{} is the double of six.", "double", 12, 10),
        ("Five doubled is {}.", "double", 10, 11),
        ("Half of the 12 frogs is {}.", "half", 6, 5),
        ("Halving twelve gives {}.", "half", 6, 7),
        ("Four fives will build {}.", "groups", 20, 21),
    ],
)
def test_doubles_and_halves_whichever_way_they_are_said(said: str, kind: str, true: int, false: int) -> None:
    for value, holds in ((true, True), (false, False)):
        (found,) = statements(said.format(value))
        assert (found.kind, found.holds) == (kind, holds)


@pytest.mark.parametrize(
    "said",
    [
        "Eleven otters, eight ducks. That is {} more otters.",
        "There are eleven otters and eight ducks. So there are {} more otters than ducks.",
        "There are eleven otters and eight ducks. There are {} fewer ducks than otters.",
        "Eleven otters, eight ducks. The difference is {}.",
    ],
)
def test_a_difference_of_two_amounts_told_before(said: str) -> None:
    for value in (3, 4):
        found = [s for s in statements("Look. " + said.format(value)) if s.kind == "difference"]
        assert [(s.values, s.holds) for s in found] == [((11, 8, value), value == 3)]


@pytest.mark.parametrize(
    "text",
    [
        "Eleven otters, eight ducks. Four more otters came.",
        "Eleven otters, eight ducks. There are four more frogs than ducks.",
        "Nine, ten, eleven. The difference is three.",
    ],
)
def test_more_of_something_else_is_no_difference(text: str) -> None:
    assert not [s for s in statements("Look. " + text) if s.kind == "difference"]
