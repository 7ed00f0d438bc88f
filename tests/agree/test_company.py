"""The numbers around a place: which they are, what is said around them, what a number may be to them."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.agree.expect.company import (
    AWAY,
    PAIRS,
    SAID_AFTER,
    SAID_BEFORE,
    SEATS,
    SHOWN_AFTER,
    SHOWN_BEFORE,
    Company,
    of_said,
    of_shown,
)
from studio.agree.expect.hints import tokens_of
from studio.agree.expect.place import Book, Place
from studio.agree.expect.relations import GREATEST, NONE, TO_ONE, TO_TWO, to_one, to_two
from studio.agree.expect.shown.place import ShownBook
from tests.agree.minded import case_of

POND = """---
title: Pond
---
# Frogs
[show ten frame: {0} dots as frame]
{1} frogs sit on a log. {2} more hop up. [frame: add {3} crosses] How many frogs are there now? {4}.
# Ducks
[show number bond: {5} is 4 and 5]
{6} ducks swim in a row.
"""
RIGHT = ("6", "Six", "Two", "2", "Eight", "9", "Nine")
WRONG = ("3", "Nineteen", "Forty-one", "7", "Twelve", "18", "3")


def said(text: str) -> tuple[Book, Company]:
    book = Book(case_of(text))
    return book, of_said([Place(book, index) for index in range(len(book.numbers))])


def shown(text: str) -> tuple[ShownBook, Company]:
    book = Book(case_of(text)).once(ShownBook)
    return book, of_shown(book.places)


def told(company: Company, place: int, first: int, many: int) -> list[int]:
    """The numbers in some seats of a place, as far as there are any."""
    return [value for value in company.numbers[company.near[place, first : first + many]].tolist() if value != NONE]


def test_the_nearest_numbers_sit_next_to_a_place() -> None:
    _, company = said(POND.format(*RIGHT))
    two = 1
    assert company.near.shape == (4, SEATS)
    assert told(company, two, 0, SAID_BEFORE) == [6]
    assert told(company, two, SAID_BEFORE, SAID_AFTER) == [8, 9]
    assert told(company, two, SAID_BEFORE + SAID_AFTER, SHOWN_BEFORE) == [6]
    assert told(company, two, SAID_BEFORE + SAID_AFTER + SHOWN_BEFORE, SHOWN_AFTER) == [2, 9, 4]
    assert told(company, 2, 0, SAID_BEFORE) == [2, 6]
    assert told(company, 2, SAID_BEFORE + SAID_AFTER, SHOWN_BEFORE) == [2, 6]


def test_a_number_of_a_direction_has_company_too() -> None:
    _, company = shown(POND.format(*RIGHT))
    crosses, whole = 1, 2
    assert told(company, crosses, 0, SAID_BEFORE) == [2, 6]
    assert told(company, crosses, SAID_BEFORE, SAID_AFTER) == [8, 9]
    assert told(company, whole, SAID_BEFORE + SAID_AFTER, SHOWN_BEFORE) == [2, 6]
    assert told(company, whole, SAID_BEFORE + SAID_AFTER + SHOWN_BEFORE, SHOWN_AFTER) == [4, 5]


def test_it_is_known_how_far_away_they_are() -> None:
    _, company = said(POND.format(*RIGHT))
    eight, nine, here = 2, SAID_BEFORE, AWAY // 2
    assert company.away[eight, :2].tolist() == [here - 2, here - 3]
    assert company.away[eight, nine] == 0  # in another segment
    assert company.away[eight, nine + 1] == AWAY - 1  # an empty seat


def test_nobody_keeps_himself_company() -> None:
    for _, company in (said(POND.format(*RIGHT)), shown(POND.format(*RIGHT))):
        assert not (company.near == company.own[:, None]).any()


@pytest.mark.parametrize("at", range(len(RIGHT)))
def test_no_word_around_a_number_tells_a_number(at: int) -> None:
    """Otherwise a slip would be expected because a neighbour has heard it."""
    as_it_is, changed = (said(POND.format(*row))[1] for row in (RIGHT, (*RIGHT[:at], WRONG[at], *RIGHT[at + 1 :])))
    for one, other in zip(as_it_is.around, changed.around, strict=True):
        forms = {"form word", "form digits"}
        assert set(tokens_of(one)) - forms == set(tokens_of(other)) - forms


def test_a_lesson_with_one_number_has_no_company() -> None:
    book, company = said("---\ntitle: Pond\n---\n# Frogs\nHere sit seven frogs.\n")
    assert len(book.numbers) == 1
    assert (company.near == 1).all()
    assert (company.away == AWAY - 1).all()
    assert company.numbers.tolist() == [7, NONE]


def test_two_seats_make_a_pair_only_once() -> None:
    pairs = [*zip(*PAIRS, strict=True)]
    assert len({frozenset(pair) for pair in pairs}) == len(pairs)
    assert all(0 <= seat < SEATS for pair in pairs for seat in pair)


def expected(value: Fraction) -> int:
    return int(value) if value.denominator == 1 and 0 <= value <= GREATEST else NONE


@given(st.integers(0, GREATEST))
def test_what_a_number_is_to_one(number: int) -> None:
    """Against Python's fractions; the relations themselves are arithmetic."""
    one = Fraction(number)
    wanted = {
        "the same": one, "one more": one + 1, "one less": one - 1, "two more": one + 2, "two less": one - 2,
        "ten more": one + 10, "ten less": one - 10, "the double": one * 2, "the half": one / 2, "missing to ten": 10 - one,
        "missing to twenty": 20 - one, "so many tens": one * 10, "ten and it": one + 10 if number < 10 else Fraction(-1),
        "its tens": Fraction(number // 10 if number > 9 else -1), "its ones": Fraction(number % 10 if number > 9 else -1),
    }  # fmt: skip
    found = to_one(np.array([number, NONE], dtype=np.int32))
    assert dict(zip(TO_ONE, found[0].tolist(), strict=True)) == {
        name: expected(value) for name, value in wanted.items()
    }
    assert (found[1] == NONE).all()


@given(st.integers(0, GREATEST), st.integers(0, GREATEST))
def test_what_a_number_is_to_two(first: int, second: int) -> None:
    one, other = Fraction(first), Fraction(second)
    wanted = {
        "the sum": one + other, "the difference": max(one, other) - min(one, other), "the next step": other + (other - one),
        "the step before": one - (other - one), "between": (one + other) / 2, "the product": one * other,
        "tens and ones": Fraction(int(f"{first}{second}")) if second < 10 else Fraction(-1),
        "ones and tens": Fraction(int(f"{second}{first}")) if first < 10 else Fraction(-1),
    }  # fmt: skip
    found = to_two(np.array([first, NONE], dtype=np.int32), np.array([second, second], dtype=np.int32))
    assert dict(zip(TO_TWO, found[0].tolist(), strict=True)) == {
        name: expected(value) for name, value in wanted.items()
    }
    assert (found[1] == NONE).all()


def test_some_places_keep_their_company() -> None:
    _, company = said(POND.format(*RIGHT))
    some, which = company.some(np.array([3, 1], dtype=np.int32))
    assert some.numbers.tolist() == company.numbers[which].tolist()
    for place, at in enumerate((3, 1)):
        assert some.numbers[some.near[place]].tolist() == company.numbers[company.near[at]].tolist()
        assert which[some.own[place]] == company.own[at]
        assert some.away[place].tolist() == company.away[at].tolist()
    assert [[*tokens_of(around)] for around in some.around] == [
        [*tokens_of(company.around[at])] for at in which[:-1].tolist()
    ]
