from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from studio.listen.tokens import VALUE, same, spoken, tokens


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
