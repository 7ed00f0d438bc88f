from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from studio.listen.tokens import VALUE, apart, same, sound_alike, spoken, tokens


def test_the_words_of_every_number_to_999_are_those_of_num2words() -> None:
    """num2words as the reference; it says "one hundred and five", a lesson and this module leave out the "and"."""
    for number in range(1000):
        reference = num2words(number).replace("-", " ").replace(" and ", " ").split()
        assert spoken(number) == reference


@given(st.integers(0, 99))
def test_digits_and_words_of_a_number_compare_equal(number: int) -> None:
    assert tokens(str(number)) == tokens(num2words(number)) == tokens(num2words(number).capitalize() + ",")


@given(st.text(max_size=30))
def test_any_text_gives_plain_lower_case_words(text: str) -> None:
    for token in tokens(text):
        assert token == token.lower() and " " not in token and token


def test_contractions_compare_equal_to_their_long_forms() -> None:
    assert tokens("Let's") == tokens("Let us")
    assert tokens("can’t") == tokens("cannot")
    assert tokens("we'll") == ("we", "will")


def test_words_that_sound_the_same_are_the_same_and_numbers_are_not_mixed_up() -> None:
    assert same("four", "for") and same("two", "to") and same("eight", "ate")
    numbers = list(VALUE)
    assert not any(same(a, b) for a in numbers for b in numbers if a != b)


def test_signs_are_said_as_words() -> None:
    assert same("=", "equals") and same("=", "makes") and same("+", "plus") and not same("+", "minus")


@given(st.lists(st.integers(0, 99), min_size=2, max_size=6), st.sampled_from("-,–"))
def test_a_count_that_was_written_as_one_word_is_apart(values: list[int], between: str) -> None:
    """Tens with ones after them may be one number: "twenty" and "three" are told apart from "twenty-three" by no one."""
    if any(a >= 20 and a % 10 == 0 and 0 < b < 10 for a, b in pairwise(values)):
        return
    joined = between.join(num2words(value) for value in values)
    words = apart(f"so {joined}. And").split()[1:-1]
    assert [tokens(word) for word in words] == [tokens(num2words(value)) for value in values]


@pytest.mark.parametrize("word", ["twenty-three", "ten-frame", "lily-pad", "1,000", "one-hundred", "take-two"])
def test_what_is_no_count_stays_one_word(word: str) -> None:
    assert apart(word) == word


def test_a_word_with_the_sound_of_a_number_is_told_from_one_without() -> None:
    assert sound_alike("eight", "it") and sound_alike("nine", "online") and sound_alike("seven", "sevens")
    assert not sound_alike("two", "it") and not sound_alike("five", "ducks") and not sound_alike("nine", "frogs")
