"""Numbers told of another amount than the one on the screen: one that is compared with it, what was there
before, what is only half of it. The same manner with a wrong number is found."""

from __future__ import annotations

import pytest

from studio.agree import check
from studio.script.reader import read
from tests.agree.minded import assert_only_the_slip_is_minded, rules

# (text, what is right in it, what is wrong instead, the rule that finds it)
PAIRS = [
    # ones of a number that is compared with the one on the screen
    ("[show base ten: 38 as was]\nThirty-eight reeds.\n[clear]\n[show base ten: 83 as reeds]\nEighty-three "
     "reeds now. A newt says, \"8 ones against 3 ones, so 38 is more.\" Look at the tens first, newt.",
     "8 ones against", "6 ones against", "said as shown"),
    # a ten is opened into ten ones
    ("[show base ten: 30 as sticks]\nThirty reeds. The beaver unties a stick of ten. It is ten loose ones "
     "now, so he has two sticks and ten.",
     "two sticks and ten", "four sticks and ten", "said as shown"),
    # strokes that lie beside blocks
    ("[show base ten: 13 as blocks]\nThirteen reeds. One ten and three ones.\n[show tally: 13 as more]\nThe "
     "same thirteen. [more: add 1]\nThirteen and one more is fourteen. Is the bundle closed? No, there are "
     "only four loose ones.",
     "only four loose", "only two loose", "said as shown"),
    # tens and ones of so many more
    ("[show base ten: 27 as snails]\nTwenty-seven snails. Fifteen more are coming, and that's one ten and "
     "five ones.\n[show number sentence: 27 + 15 = 42 as all]\nTwenty-seven and fifteen is forty-two.",
     "and five ones", "and six ones", "said as shown"),
    # a number of tens stands for them
    ("[show number bond: 53 is 30 and 23 as coat]\nThe otter has three tens and twenty-three ones. "
     "Fifty-three shells.",
     "twenty-three ones", "twenty-four ones", "pair as told"),
    # pairs of two rows
    ("[show rekenrek: 10 and 6 as beads]\nSixteen beads. Odd or even? Six up here have a partner down "
     "there, so that's twelve all paired.",
     "that's twelve", "that's eleven", "pair as told"),
    # what must go
    ("[show base ten: 17 as fish]\nWe count seventeen fish. Three must go from the seven. [fish: take away "
     "3, counting] Sixteen, fifteen, fourteen.",
     "go from the seven", "go from the nine", "gets where it is to go"),
    # a step is no beginning
    ("[show dice: 5 and 6 as dice]\nFive and six. So I start from ten, which was the double, and I bump it "
     "up by one. Eleven.",
     "start from ten", "start from seven", "gets where it is to go"),
    # what was put down so far
    ("[show dots: 9 as snails]\nNine snails. I put 4 on this leaf, 4 on that leaf. How many have I used? 8. "
     "And there is 1 left.",
     "used? 8.", "used? 7.", "how many as shown"),
    # those that are there with those that went
    ("[show ten frame: 8 dots as eggs]\nCrack, crack. [eggs: take away 2] 2 hatch. 6 eggs. Chicks plus eggs? "
     "Still 8.",
     "Still 8.", "Still 7.", "whole as said"),
    # the whole is ringed, and is said to be the whole
    ("[show number bond: 9 is 4 and ? as bond]\nNine is four and what? [wait 3 s] [bond: fill in] Five. "
     "[bond: circle 9] The whole is nine.",
     "circle 9", "circle 4", "ring round what was found"),
    # "seven's" for "seven is"
    ("[show more and less: 8 as street]\nEight. Who's next door?\n[wait 4 s]\n[street: fill in]\nSeven's one "
     "less. Nine's one more. Seven, eight, nine.",
     "Seven's one", "Six's one", "more and less fit"),
    # "that's how much" asks nothing, and the sum is another's
    ("[show number sentence: 9 - 6 = 3 as extra]\nThe top rows match. Below, East has a fish where West has "
     "four. So three of the West's fish don't have a partner. That's how much fuller West is: three.\nNine "
     "take away six is three.",
     "six is three", "six is four", "true arithmetic"),
    # one side is asked for, and not both
    ("[show number bond: 4 is 3 and ? as second]\nFour fish. One brave fish goes round the rock. Three stay "
     "behind. How many on the right? Tell me.\n[wait 4 s]\n[second: fill in 1]\nOne, yes! Three and one.",
     "One, yes!", "Two, yes!", "filled in as said"),
    # minutes
    ("[show number line: 0 to 20 as clock]\nThe cake lies in the sun for twelve minutes. I look at "
     "five.\n[clock: hop 0 to 5]\nStill soft! How long again before twelve?\n[clock: hop 5 to 10]\n[clock: hop "
     "10 to 12]\nFrom five to ten is five, and from there it's two. Five and two is seven.",
     "is five, and", "is six, and", "true arithmetic"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "right", "wrong", "rule"), PAIRS)
def test_the_wrong_number_is_found_and_the_right_one_is_not_minded(
    text: str, right: str, wrong: str, rule: str
) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, rule)


def test_a_hop_that_is_not_taken_is_no_slip() -> None:
    text = (
        "[show number line: 10 to 20, mark 12 as line]\nWe go back from twelve. [line: hop 12 to 10] Two hops. "
        "I'd need to take another, to nine."
    )
    assert "lands where the hop ends" not in rules(text)
    assert "lands where the hop ends" in rules(text.replace("I'd need to take another", "That brings us"))


def test_a_book_counts_its_own_lessons() -> None:
    head = "---\ntitle: Pond\nnumber: 13\n---\n\n# Frogs\n\nThis is lesson 27"
    minded = [{finding.rule for finding in check(read(f"{head}{rest}")).findings if finding.level == "error"}
              for rest in (" in our book.", " today.")]  # fmt: skip
    assert minded == [set(), {"header agrees"}]
