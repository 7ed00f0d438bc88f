"""Right talk that was minded once, and the slip in it that still is."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

RIGHT_AND_WRONG = [
    # a pair of three parts is ringed before they are added
    ("[show number sentence: 7 + 5 + 3 = ? as s]\nSeven shells are in the blue bowl. Five shells are in the red bowl. Three shells are in "
     "the green bowl. How many shells are there in all?\nWhich two make ten? [s: circle 7] Seven, [s: circle 3] and three. Ten. Ten and five. "
     "[s: fill in 15] Fifteen shells.", "Fifteen shells.", "Sixteen shells.", "filled in as said"),
    # cards are read aloud, and one does not belong
    ("[show cards: 2, 4, 7, 8 as table]\nTwo, four, seven, eight. Who does not belong? I say seven. Two, four and eight are numbers we say "
     "when we count by twos. [table: circle 7] Seven is out.", "Two, four, seven", "Two, four, nine", "count goes on"),
    # three sums, and then three answers
    ("[show text: Odd one out]\nThree and five. Nine take away one. Four and three. [wait 5 s: Which is out?]\nEight. Eight. Seven. Four and "
     "three is seven.", "three is seven", "three is eight", "true arithmetic"),
    # bonds are counted, not frogs
    ("[show text: Partners]\nThree and five, two and six, one and seven, zero and eight. That makes four bonds for eight. One and seven make "
     "eight.", "One and seven make", "One and six make", "true arithmetic"),
    # where a count starts is said twice
    ("[show number bond: 9 is 6 and ? as b]\nNine is the whole. Go up from six, six, and then seven, eight, nine. [b: fill in 3] Three.",
     "seven, eight, nine", "eight, eight, nine", "count goes on"),
    # a question whose answer is no
    ("[show text: Yes or no]\nIs four and five eight? No, it is nine. Is two and six eight? Yes. Two and six make eight.", "six make eight",
     "six make nine", "true arithmetic"),
    # places that are empty are those that are needed
    ("[show double ten frame: 18 dots]\nEighteen dots. Only two places are empty, so we need two more to reach twenty. Eighteen and two make "
     "twenty.", "two make twenty", "three make twenty", "true arithmetic"),
    # what comes after a number on the way back
    ("[show number path: 0 to 10, mark 5]\nWe are at five. What comes after five, if we go back? [wait 3 s] Four. It is one less than five.",
     "Four. It", "Three. It", "answer fits question"),
    # what both grow by
    ("[show text: Beans]\nOne bean is sixteen cubes tall, the other nine. If both grow by two cubes they'll be eighteen and eleven cubes "
     "tall. Sixteen and two make eighteen.", "two make eighteen", "two make nineteen", "true arithmetic"),
    # "which" tells of the sum, not of the one more
    ("[show number sentence: 8 + 7 = 15]\nEight plus seven equals fifteen. It is one more than seven plus seven, which is fourteen.",
     "which is fourteen", "which is thirteen", "true arithmetic"),
    # beads told by their colours
    ("[show rekenrek: 7 and 7]\nI see five and five, which is ten, and two and two, which is four. Fourteen!", "rekenrek: 7 and 7",
     "rekenrek: 7 and 8", "shown number is said"),
    # the same is asked of other partners
    ("[show text: Hidden]\nPartners of four. I hold up one pebble, so how many are hiding? Three are hiding. I hold up two, so how many are "
     "hiding? Two are hiding.", "hold up two", "hold up three", "true arithmetic"),
    # what is left over from twos is no answer of the story
    ("[show dots: 16 as bridge]\nSixteen frogs march over the bridge. Seven of them hop off. How many frogs are left? [bridge: take away 7] "
     "Nine!\nNine can't march in twos, you see. One is left over.", "Nine!", "Eight!", "how many as shown"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "right", "wrong", "rule"), RIGHT_AND_WRONG)
def test_right_talk_is_left_in_peace_and_the_wrong_number_is_found(
    text: str, right: str, wrong: str, rule: str
) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, rule)


def test_what_somebody_once_said_is_to_be_proved() -> None:
    claimed = "[show text: Proof]\nThe toad once said that seven and four make ten, and they argued. Who can {} it with beads?"
    assert rules(claimed.format("prove")) == set()
    assert rules(claimed.format("show")) == {"true arithmetic"}
