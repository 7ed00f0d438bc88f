"""Groups of numbers that are said in the same way: what the others let expect of each."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from studio.agree.expect.groups import Groups
from studio.agree.expect.place import Book
from tests.agree.minded import case_of

HEAD = "---\ntitle: Pond\n---\n# Ducks\n"


def expected(text: str) -> tuple[list[int], list[set[int]]]:
    """The numbers that are said, and for each those that the other groups let expect."""
    book = Book(case_of(HEAD + text + "\n"))
    return book.said, [{one.value for one in same} for same in Groups(book).same]


@given(st.integers(6, 20), st.data())
def test_in_partners_of_a_whole_every_number_is_expected_whatever_the_whole(whole: int, data: st.DataObject) -> None:
    parts = data.draw(st.lists(st.integers(0, whole), min_size=3, max_size=8, unique=True))
    said, found = expected(" ".join(f"{part}? {whole - part}." for part in parts))
    assert said == [value for part in parts for value in (part, whole - part)]
    assert all(value in values for value, values in zip(said, found, strict=True))


@given(st.integers(6, 20), st.integers(0, 20), st.data())
def test_a_slip_changes_what_is_expected_of_its_group_only_by_what_stands_beside_it(
    whole: int, slip: int, data: st.DataObject
) -> None:
    """The number itself never tells what is expected at its place."""
    parts = data.draw(st.lists(st.integers(0, whole), min_size=4, max_size=8, unique=True))
    at = data.draw(st.integers(0, len(parts) - 1))
    pairs = [(part, whole - part) for part in parts]
    right = expected(" ".join(f"{one}? {other}." for one, other in pairs))[1]
    pairs[at] = (pairs[at][0], slip)
    wrong = expected(" ".join(f"{one}? {other}." for one, other in pairs))[1]
    assert wrong[2 * at + 1] == right[2 * at + 1]


def test_a_sum_of_three_is_expected_as_in_the_others() -> None:
    said, found = expected("Two and three and one? Six. Four and one and two? Seven. Five and five and three? Eight.")
    assert 13 in found[-1]
    assert said[-1] == 8


def test_a_mere_count_has_no_groups() -> None:
    assert not any(expected("One, two, three, four, five, six, seven, eight, nine, ten.")[1])


def test_two_alike_are_too_few_to_tell() -> None:
    assert not any(expected("Six? Four. Three? Nine.")[1])


def test_numbers_far_apart_are_no_groups() -> None:
    between = "And now look at the water and at the reeds and at everything that swims there today, my dears."
    assert not any(
        expected(f"Six. {between} Four. {between} Three. {between} Seven. {between} Nine. {between} One.")[1]
    )
