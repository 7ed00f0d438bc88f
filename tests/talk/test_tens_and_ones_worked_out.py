"""Two-digit numbers are worked out "tens and tens, ones and ones; and sometimes it is necessary to compose a ten" (CCSSM 1.NBT.C.4; the
wordings are common practice, no source): what is right is understood and left alone, one wrong number is found. The sums are
checked with Python's own arithmetic."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.talk.model import Statement
from tests.talk.test_read_otherwise import told

JOINED = ("{} tens and {} tens are {} tens. {} ones and {} ones are {} ones.", "{} tens plus {} tens make {} tens, {} ones plus {} ones make {} ones.")  # fmt: skip
PARTED = ("{} tens take away {} tens leaves {} tens. {} ones take away {} ones leaves {} ones.", "{} tens minus {} tens is {} tens. {} ones minus {} ones is {} ones.")  # fmt: skip


def holds(statements: list[Statement]) -> set[bool | None]:
    return {one.holds for one in statements}


@given(st.sampled_from(JOINED + PARTED), *(st.integers(2, 4) for _ in range(4)), st.integers(0, 5), st.integers(1, 3))
def test_tens_are_worked_out_with_tens_and_ones_with_ones(
    talk: str, tens: int, more_tens: int, ones: int, more_ones: int, slip: int, by: int
) -> None:
    sign = 1 if talk in JOINED else -1
    if sign < 0:
        tens, ones = tens + more_tens + 1, ones + more_ones + 1
    numbers = [tens, more_tens, tens + sign * more_tens, ones, more_ones, ones + sign * more_ones]
    if min(numbers) < 2:  # "one ten" and "1 tens" are other words
        return
    found = told(talk.format(*numbers))
    assert holds(found) == {True} and len(found) == 2
    numbers[slip] += by
    assert False in holds(told(talk.format(*numbers)))


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("Three tens minus one ten is two tens.", "Three tens minus one ten is four tens."),
        ("Half of four tens is two tens.", "Half of six tens is two tens."),
        ("Double three tens is six tens.", "Double three tens is five tens."),
        ("Two tens and three tens are five tens, and the new ten makes six tens.", "Two tens and three tens are four tens, and the new ten makes six tens."),
        ("Five tens and the traded ten are six tens.", "Five tens and the traded ten are eight tens."),
        ("One ten and seven tens are eight tens. With five ones, that makes eighty-five.", "One ten and seven tens are eight tens. With five ones, that makes eighty-four."),
        ("I have sixty-three, for I see six tens and I see three ones, and six tens and three ones are sixty-three.", "I have sixty-three, for six tens and three ones are sixty-four."),
        ("63 is one less than 64 and 65 is one more.", "63 is one less than 67 and 65 is one more."),
        ("It is one more than sixteen, which is double eight.", "It is one more than sixteen, which is double nine."),
        ("Nine and fifteen differ by six.", "Nine and fifteen differ by five."),
        ("Nine differs from fifteen by six.", "Nine differs from fourteen by six."),
        ("15 < 16 and 16 < 17.", "15 < 16 and 16 < 12."),
        ("Eight and eight give sixteen and there is one frog over.", "Eight and eight give fifteen and there is one frog over."),
        ("Five buttons with two in hiding leave three outside.", "Five buttons with two in hiding leave eleven outside."),
        ("Four plates with two on each, that's eight olives.", "Four plates with two on each, that's nine olives."),
        ("Eight makes ten with two. Good.", "Eight makes eleven with two. Good."),
        ("Forty becomes thirty and ten.", "Forty becomes thirty and thirteen."),
        ("They are six, seven, eight and nine, and those are four goats.", "They are six, seven, eight and nine, and those are five goats."),
    ],
)  # fmt: skip
def test_one_wrong_number_is_found_in_what_is_right(right: str, wrong: str) -> None:
    assert False not in holds(told(right))
    assert False in holds(told(wrong))


@pytest.mark.parametrize(
    "text",
    [
        "From fifty, three tens bring us to eighty.",
        "With the traded ten there are four tens.",
        "The neighbours of twenty are nineteen and twenty-one.",
        "It's five from fifty, and it's five from sixty.",
        "There are three coins that are worth ten each and five coins that are worth five each.",
        "Four wins equals twelve points.",
        "The two in twenty-four means two tens.",
        "Then the nine becomes ten and the six becomes five.",
        "Down, we take three and then four, and we land on six.",
        "On a pair of dice it can be four and four.",
        "Four ones and two ones, six ones. Ninety-six.",
    ],
)
def test_what_sets_other_amounts_beside_each_other_claims_nothing_false(text: str) -> None:
    assert False not in holds(told(text))


@pytest.mark.parametrize(
    "middle", ["eight plus one plus", "eight plus one and", "ten and two and", "two and three, four and"]
)
def test_what_is_asked_after_a_long_sum_is_read(middle: str) -> None:
    """It once could not be read at all."""
    told(f"Five plus five is {middle} one more is what?")
