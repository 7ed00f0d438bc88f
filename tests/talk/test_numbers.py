"""Number words against two independent references: num2words (writes them) and text2num (reads them)."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from num2words import num2words
from text_to_num import alpha2digit, text2num

from studio.script.model import Place, Word
from studio.talk.numbers import find_numbers, number_words, words_of


def read(text: str) -> list[tuple[int, str]]:
    return [(number.value, number.form) for number in find_numbers(words_of(text))]


def values(text: str) -> list[int]:
    return [value for value, form in read(text) if form in ("word", "digits")]


def test_every_number_word_of_num2words_is_read() -> None:
    for value in range(1001):
        spelled = num2words(value)
        for text in (spelled, spelled.replace("-", " "), spelled.replace(" and ", " "), spelled.capitalize() + "."):
            assert values(text) == [value], text


def test_every_ordinal_of_num2words_is_told_apart() -> None:
    for value in range(1, 100):
        assert read(num2words(value, to="ordinal")) == [(value, "ordinal")]
        assert read(num2words(value, to="ordinal_num")) == [(value, "ordinal")]


def test_text2num_reads_the_same_values() -> None:
    for value in range(1001):
        spelled = num2words(value)
        assert text2num(spelled, "en") == number_words(spelled) == value


@pytest.mark.parametrize(
    "text", ["I have five frogs", "twenty one ducks and three otters", "ninety-nine", "one hundred and twelve pads"]
)
def test_text2num_finds_the_same_numbers_in_a_sentence(text: str) -> None:
    theirs = [int(word) for word in alpha2digit(text, "en", threshold=0).split() if word.isdigit()]
    assert values(text) == theirs


def test_differences_from_text2num_are_meant() -> None:
    # text2num turns an ordinal into digits too ("third" -> "3rd"); here it is told apart by its form.
    assert alpha2digit("the third frog", "en", threshold=0) == "the 3rd frog"
    assert read("the third frog") == [(3, "ordinal")]
    # text2num reads the frame's name as a number; here a ten frame is a thing.
    assert alpha2digit("a ten frame", "en", threshold=0) == "a 10 frame"
    assert read("a ten frame") == []
    # "a dozen", "a pair", "none" are no number words for text2num.
    assert alpha2digit("a dozen", "en", threshold=0) == "a dozen"
    assert values("a dozen and a pair and none") == [12, 2, 0]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("five, six", [5, 6]),
        ("twenty. One", [20, 1]),
        ("twenty, one", [20, 1]),
        ("eighteen nineteen twenty twenty one", [18, 19, 20, 21]),
        ("five ten fifteen twenty twenty-five", [5, 10, 15, 20, 25]),
        ("one hundred and five", [105]),
        ("one hundred five", [105]),
        ("a hundred", [100]),
        ("the hundred chart", []),
        ("a hundred chart", []),
        ("a thousand", [1000]),
        ("1,000", [1000]),
        ("1000", [1000]),
        ("half a dozen eggs", [6]),
        ("two dozen", [24]),
        ("a pair of ducks", [2]),
        ("Four and one is a pair.", [4, 1]),
        ("Four and six are a pair for ten.", [4, 6, 10]),
        ("Three ones make a pair and a leftover.", [3]),
        ("Here are a pair of newts.", [2]),
        ("double six", [6]),
        ("one ten and four ones", [1, 10, 4]),
        ("one more", [1]),
        ("one less than six", [1, 6]),
        ("the next one", []),
        ("this one", []),
        ("Which one is bigger?", []),
        ("the red one", []),
        ("the number one", [1]),
        ("one frog", [1]),
        ("the one frog", [1]),
        ("There is only one.", [1]),
        ("one by one", []),
        ("It makes one want to clap", []),
        ("what does one do with seven crates", [7]),
        ("that makes one duck", [1]),
        ("one at a time", []),
        ("No one knows", []),
        ("One day a frog", []),
        ("One, two, three", [1, 2, 3]),
        ("base ten blocks", []),
        ("a double ten frame with 7 dots", [7]),
        ("come to me for tea, we won", []),
        ("½ ² ٣ 1/2 7:30 3.5", []),
        ("Two and three's five.", [2, 3, 5]),
        ("Ten's the whole, twenty-nine's nearly thirty, and Seven’s odd.", [10, 29, 30, 7]),
        ("Six'll do, seven'd do too. That 19's lonely.", [6, 7, 19]),
        ("Nine take away one's eight. One's left over.", [9, 1, 8, 1]),
        ("This one's easy, and that one's tall.", []),
        ("We count by 10's. Two 5's make ten.", [2, 10]),
        ("Six on the one and two on the other.", [6, 2]),
        ("The one and two more.", [1, 2]),
    ],
)
def test_numbers_in_words_of_a_lesson(text: str, expected: list[int]) -> None:
    assert values(text) == expected


def test_homophones_are_numbers_only_inside_a_count_that_is_heard() -> None:
    assert values("one to three for five") == [1, 2, 3, 4, 5]
    assert values("three to won") == [3]
    assert values("from one to three") == [1, 3]
    written = tuple(
        Word(i, w, w.strip(","), Place(1, 1 + 5 * i), 0, 0, 0) for i, w in enumerate("one, to, three".split())
    )
    assert [n.value for n in find_numbers(written)] == [1, 3]


def test_places_are_kept() -> None:
    words = (
        Word(0, "See", "see", Place(4, 1), 0, 0, 0),
        Word(1, "twenty", "twenty", Place(4, 5), 0, 0, 0),
        Word(2, "one.", "one", Place(5, 1), 0, 0, 0),
    )
    (number,) = find_numbers(words)
    assert (number.value, number.start, number.end, number.line, number.column) == (21, 1, 3, 4, 5)
    assert number.text == "twenty one."


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=80))
def test_any_text_is_read_without_a_crash(text: str) -> None:
    for number in find_numbers(words_of(text)):
        assert 0 <= number.start < number.end


@settings(max_examples=200, deadline=None)
@given(st.lists(st.integers(0, 1000), min_size=1, max_size=6))
def test_numbers_parted_by_commas_stay_apart(wanted: list[int]) -> None:
    assert values(", ".join(num2words(n) for n in wanted)) == wanted
