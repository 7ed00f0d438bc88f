"""What accounts for a number that was not to be expected, and what does not."""

from __future__ import annotations

import pytest

from studio.agree.accounts import ACCOUNTS, SEEN
from studio.agree.expect.place import Place, book_of
from tests.agree.minded import HEAD, case_of

BLOCKS = "[show base ten: 34 as sticks]\nThirty-four. [sticks: add 20] {} more sticks. Now it shows fifty-four."
SEVENTY = "[show base ten: 70 as sticks]\nSeventy. How many more tens to a hundred? [wait 3 s] {}."


def accounted(text: str, said: str) -> bool:
    """Whether something accounts for the first number that is written so."""
    case = case_of(HEAD + text)
    book = book_of(case)
    place = next(Place(book, at) for at, number in enumerate(book.numbers) if number.text.rstrip(".,:!?") == said)
    return any(accounts(case, place) for accounts in (*ACCOUNTS, *SEEN))


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (BLOCKS, "Two", "Three"),
        (SEVENTY, "Three", "Four"),
        ("[show tally: 16]\nIt is a word with {} letters: sixteen.", "seven", "six"),
        ("[show hundred chart: 1 to 50, mark 26]\n26. What is above it? {}.", "16", "15"),
        ("[show dice: 5 and 6 as look]\nLook. [hide look] How many? {}.", "Eleven", "Twelve"),
        ("[show number line: 60 to 90 as line]\nUp we go. [line: hop 68 to 70] {}.", "Two", "Three"),
        ("[show rekenrek: 7 and 0 as beads]\nMore. [beads: add 3 dots, counting] Seven. Eight, nine, ten. {} beads.", "Three", "Four"),
        ("[show cards: 5, 10, 12, 20]\nFive, ten, {}, twenty. Who is the odd one?", "twelve", "eleven"),
        ("[show number sentence: 7 + 3 = ? as a] [show number sentence: 5 + 3 = ? as b]\nSeven plus three. {} plus three.", "Five", "Six"),
        ("[show text: 16 + 4, 26 + 4]\nSixteen plus four, {} plus four. Solve them.", "twenty-six", "twenty-seven"),
        ("How many more do we need to make {}? [wait 4 s: How many more to make 15?] Three.", "fifteen", "fourteen"),
        ("[show tally: 7 as a] [show dice: 5 and 2 as b]\n{} pictures. Which shows more?", "Two", "Three"),
        ("[show dots: 5 as a] [show ten frame: 3 dots as b] [show tally: 5 as c]\nThe catch. {} altogether.", "Thirteen", "Twelve"),
        ("With seven, two and eight claws, how many? [wait 10 s] {}! The ten was at the far end.", "Seventeen", "Eighteen"),
        ("Twice eight pegs, sixteen. It is {} more than double seven.", "two", "three"),
        ("Which are even? {}: two, four, six and eight.", "Four", "Five"),
        ("Thirty-six oars. Twenty-six. Only the tens have dropped, to {}.", "two", "four"),
        ("Twice eight pegs, sixteen. It is {} less than double nine.", "two", "four"),
        ("[show tally: 11]\nStrokes. Two bundles. Left over, {}.", "one", "three"),
        ("[show ten frame: 8 dots as f]\nShort of ten by? [wait 3 s] {}.", "Two", "Three"),
        ("[show ten frame: 6 dots as f]\nFriends of ten. Look at the empty part, say it softly. [wait 3 s] {}.", "Four", "Five"),
        ("Seventeen is done. {} is one less and eighteen is one more.", "Sixteen", "Fifteen"),
        ("[show ten frame: 7 dots as f]\nA row is full. If I wanted {} I would have to look for three.", "ten", "nine"),
        ("[show ten frame: 6 dots as f]\nIt lacks {} dots to be full.", "four", "five"),
        ("[show ten frame: 10 dots as f]\nEach row of this frame has {} dots.", "five", "four"),
        ("[show dots: 1 as pile]\nIt is five. Now one is outside, so what is hidden? [wait 3 s] {}, all snug.", "Four", "Three"),
        ("[show ten frame: 9 dots as wash]\nWe bring {} in. How many hang longer? [wash: take away 4] Five.", "four", "three"),
        ("It was ninety-three. With a crate open there are eight tens and {} ones.", "thirteen", "fourteen"),
        ("Take nineteen. A nineteen wants {} to be happy.", "one", "two"),
        ("Of these cards five lead to seventy and two go further, so {} is right.", "seven", "eight"),
        ("Three is straight above {} on the chart.", "thirteen", "fourteen"),
        ("[show ten frame: 10 dots as one] [show ten frame: 4 dots as other]\nA full frame and more. I am {} today, say the frogs.", "fourteen", "twelve"),
    ],
)  # fmt: skip
def test_a_number_that_the_picture_explains_is_accounted_for(text: str, right: str, wrong: str) -> None:
    assert accounted(text.format(right), right)
    assert not accounted(text.format(wrong), wrong)


def test_what_only_names_or_likens_or_tells_of_nothing_takes_no_part() -> None:
    assert accounted("Open the log at page nine. Twelve and eight?", "nine")
    assert not accounted("Open the nine. Twelve and eight?", "nine")
    assert accounted("Twenty is right. It is like partners of five, with a nought.", "five")
    assert not accounted("Twenty is right. It is partners of five, with a nought.", "five")
    assert accounted("No shell was lost, and none came in.", "none")
    assert not accounted("No shell was lost, and none is here.", "none")


def test_the_hour_and_two_that_are_compared_take_no_part() -> None:
    assert accounted("Thirteen apples by eleven in the morning.", "eleven")
    assert not accounted("Thirteen apples, eleven in the basket.", "eleven")
    assert accounted("Why are the two so alike? Both ask for a part.", "two")
    assert not accounted("Why are the three so alike? Both ask for a part.", "three")


@pytest.mark.parametrize(
    ("text", "said"),
    [("Twelve dots. How many are empty? I guess {}.", "nine"), ("Duck wanted {}. No way, Duck!", "nine")],
)
def test_a_guess_is_accounted_for_and_a_claim_is_not(text: str, said: str) -> None:
    assert accounted(text.format(said), said)
    assert not accounted(f"There are {said} ducks. So many ducks!", said)


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        ("Way one. A frame.\n\nWay two. Dice.\n\nWay {}. A word.", "three", "four"),
        ("The house has five and {} and ten and one. It is twenty in all.", "four", "three"),
        ("Between five and eight there are two: six and {}.", "seven", "nine"),
    ],
)
def test_a_number_that_goes_on_as_the_others_do_is_accounted_for(text: str, right: str, wrong: str) -> None:
    assert accounted(text.format(right), right)
    assert not accounted(text.format(wrong), wrong)


def test_between_numbers_that_lie_too_far_apart_nothing_is_looked_for() -> None:
    assert not accounted("Between 5 and 99999999999999999999 there are many: six and seven.", "six")
    assert not accounted("Between two and nine there are two: three and four.", "four")


def test_a_later_number_is_not_accounted_for_by_what_was_seen_before() -> None:
    text = "[show dice: 5 and 6 as look]\nLook. [hide look] There are {} dots. Take away two, and eleven are left."
    assert accounted(text.format("eleven"), "eleven")
    assert not accounted(text.format("nine"), "eleven")


def test_answers_to_choose_from_are_left_alone_and_the_one_that_is_chosen_is_not() -> None:
    text = "[show ten frame: 5 dots]\nHow many? A, six. B, five. C, eleven. [wait 6 s] B, {}. You can see them."
    assert accounted(text.format("four"), "six") and accounted(text.format("four"), "eleven")
    assert not accounted(text.format("four"), "four")
