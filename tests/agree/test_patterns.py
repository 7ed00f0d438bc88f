"""The words around a number are known in their order, and no number among them tells itself."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from studio.agree.expect.patterns import FREQUENT, patterns
from studio.agree.expect.place import Place, book_of
from studio.agree.reading import case_of
from studio.script.reader import read
from studio.talk.numbers import number_words

HEADER = "---\ntitle: Pond\n---\n\n# Pond\n\n"


def names(talk: str, index: int) -> list[str]:
    book = book_of(case_of(read(HEADER + talk)))
    return [name for bundle in patterns(Place(book, index)) for _, name in bundle.names]


def test_the_words_next_to_a_number_are_told_in_their_order() -> None:
    found = names("Look there. Seven and two make nine. Is that so?", 2)
    assert {"@-make", "@-#_make", "@-and_#_make", "@+$", "@=make@$", "!plook_there", "!nis_that_so?"} <= {*found}
    assert "@-make_#" not in found


def test_what_was_learned_of_frogs_is_known_of_kettles() -> None:
    def wide(talk: str) -> list[str]:
        return [name for name in names(talk, 1) if name.startswith("!")]

    assert wide("Seven kettles and two kettles are hot.") == wide("Seven lanterns and two candles are red.")
    assert wide("Seven kettles and two kettles are hot.") != wide("Seven kettles are two kettles hot.")


@given(st.lists(st.integers(0, 20), min_size=3, max_size=3), st.lists(st.integers(0, 20), min_size=3, max_size=3))
def test_patterns_are_the_same_with_other_numbers(some: list[int], others: list[int]) -> None:
    def told(values: list[int]) -> list[list[str]]:
        one, two, three = map(num2words, values)
        talk = f"Here are {one} frogs. Then {two} more frogs came, and now we have {three}. Do you see?"
        return [names(talk, index) for index in range(3)]

    assert told(some) == told(others)


def test_no_number_is_among_the_frequent_words() -> None:
    assert [word for word in FREQUENT if number_words(word) is not None] == []
