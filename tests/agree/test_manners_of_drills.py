"""What teachers say rightly in drills, games and hurried talk is left in peace, and the same with a slip is not."""

from __future__ import annotations

import pytest

from studio.agree.check import check_talk
from studio.talk.numbers import words_of
from tests.agree.minded import assert_only_the_slip_is_minded, rules

BIGGER = "Who has the bigger card? Four and nine. Nine. Eight and six. Eight. Eleven and ten. Eleven. Twelve and twenty. Twenty."
OVER_TEN = "I say the sum, and you say what is over ten. Seven and five. Two. Six and five. One. Nine and eight. Seven. Seven and seven. Four."
THIRD = "Nine ducks, and three ponds. Two and five. [wait 4 s] Two. Three and three. [wait 4 s] Three. Six and two. [wait 4 s] One."


@pytest.mark.parametrize(
    ("text", "right", "wrong", "rule"),
    [
        # so many in each
        ("[show base ten: 20 as apples]\nThe bears filled four baskets with five apples in each, and that is twenty apples.", "is twenty apples",
         "is twenty-one apples", "true arithmetic"),
        # only the last of the tens is called so
        ("[show base ten: 86]\nEighty-six. Five and three tens are eight tens, two and four ones are six.", "are eight tens", "are nine tens",
         "true arithmetic"),
        # what something is worth is told of two things
        ("[show text: a dime is worth 10 pennies]\nA dime is worth ten cents and ten pennies are worth ten cents. Five and five are ten.", "Five and five are",
         "Five and four are", "true arithmetic"),
        # what is left of a count by fives is told at once
        ("[show dots: 12 dots as rolls]\n[rolls: count by 5]\nFive, ten, and two more make twelve.", "make twelve", "make thirteen", "count fits picture"),
        # the tens are those of the number that is named, and of no other
        ("[show base ten: 33]\nThirty-three. Fifty-one or fifteen? [wait 3 s] Fifty-one is more, five tens against one ten.", "more, five tens", "more, six tens",
         "said as shown"),
        # so many more
        ("[show base ten: 30 as seeds]\nThirty seeds, three tens. [clear]\n[show base ten: 24 as seeds]\nTwenty-four seeds. Six more loose. How many then? [wait 3 s] Thirty.",
         "How many then? [wait 3 s] Thirty.", "How many then? [wait 3 s] Forty.", "how many as shown"),
        # what is missing is counted from one
        ("[show double ten frame: 16 dots]\nTen and six are sixteen. How many more would we need for twenty? Count the empty boxes. One, two, three, four.", "three, four.",
         "three.", "gets where it is to go"),
        # what is given to a sum is not what it makes
        ("[show number line: 50 to 70, mark 58]\nFor fifty-eight plus five, I give two to reach sixty, and three are left. Fifty-eight plus five makes sixty-three.",
         "five makes sixty-three", "five makes sixty-two", "true arithmetic"),
        # a ten is opened
        ("[show base ten: 43 as reeds]\nForty-three. I open a bundle. The four tens become three tens. The three ones become thirteen ones. Thirty and thirteen make forty-three.",
         "thirteen make forty-three", "thirteen make forty-four", "true arithmetic"),
        # a part that is still to come
        ("[show number sentence: 47 = 40 + ?]\nForty-seven equals forty plus an addend that is not yet written. Forty plus seven equals forty-seven.",
         "seven equals forty-seven", "seven equals forty-six", "true arithmetic"),
        # what was too much is taken back at once
        ("[show number sentence: 34 - 9 = 25]\nTwenty-five. Check it: twenty-five and nine is thirty-five back one, thirty-four. Thirty-four minus nine equals twenty-five.",
         "nine equals twenty-five", "nine equals twenty-four", "true arithmetic"),
        # the first of two jumps
        ("[show compare bars: 14 and 6]\nFourteen and six. From six to fourteen I go four, and then four again. From six to fourteen I go eight.",
         "go eight", "go seven", "true arithmetic"),
        # one that is not like the others
        ("[show base ten: 13 as a]\n[show tally: 13 as b]\n[show double ten frame: 13 dots as c]\n[show word: thirty as d]\n"
         "One of these does not belong. Which? [wait 8 s]\nThe blocks are thirteen. The tallies are thirteen. The frames are thirteen. The word says thirty.",
         "word: thirty", "word: forty", "shown number is said"),
        ("Which does not belong: five, ten, twelve, fifteen? [wait 5 s]\nTwelve, if you count by fives. [clear]\nFive, ten, fifteen, twenty.",
         "fifteen, twenty", "fifteen, nineteen", "count goes on"),
        # a sum that isn't right, by any word for not
        ("[show text: Sums]\nFour and four make nine. It isn't right. Four and four make eight.", "four make eight", "four make seven", "true arithmetic"),
        # a hop is told by how far it goes
        ("[show number line: 25 to 45 as bridge]\nI build a bridge from twenty-eight to forty. Where do I put the pillar? On thirty.\n"
         "[bridge: hop 28 to 30]\nTwo.\n[bridge: hop 30 to 40]\nTen. Two and ten is twelve.",
         "hop 30 to 40", "hop 30 to 41", "shown number is said"),
    ],
)  # fmt: skip
def test_the_right_is_left_in_peace_and_the_slip_is_minded(text: str, right: str, wrong: str, rule: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, rule)


@pytest.mark.parametrize(
    "text",
    [
        "[show hundred chart: 1 to 100]\nStart on thirty-five and go down four rows. That is forty more, so you meet me at seventy-five.",
        "[show text: Back]\nWhat comes before five when we count? Four. What comes before two? One. What comes before zero? We land!",
        "[show text: Which?]\nTwo plus three, or four plus two? Five. Six. The second wins.",
        "[show text: Calls]\nNine minus four? Eight minus six? Ten minus three? [wait 9 s: keep all answers] Five. Two. Seven.",
        "[show number path: 0 to 20, mark 9]\nIt is more than nine and less than twelve. What's in there? Ten and eleven. Those two.",
        "[show text: Even]\nLook at the ones. Two, four, six, eight, zero: even.",
        "[show ten frame: 2 dots as goslings]\nTwo goslings. Then they came back, all five, [goslings: add 5 dots, counting] three, four, five, six, seven.",
        "[show ten frame: empty as raft]\nZero. [raft: add 3 dots, counting]\nThree otters climb on. One, two, three.\n[raft: add 2 dots]\nTwo more otters. How many? "
        "[wait 2 s] Five.",
        "[show ten frame: 8 dots as feet]\nEight feet in the reeds. How many ducks? [wait 3 s] Four.",
        "[show ten frame: 5 dots as stall]\nFive pebbles.\n\n# A thief?\n\nThen there were six pebbles! [stall: add 1 dot] He counted them twice.",
        "[show number sentence: 6 + 7 = 12 + ? as s]\nSix plus seven is the same as twelve plus a little bit. Which bit? [wait 3 s] [s: fill in 1] One.",
        "[show double ten frame: 9 dots as f]\nThe otter has nine. It wants twelve. [f: add 3 crosses, counting] Ten, eleven, twelve. Three, and now both have twelve. The "
        "difference is zero.",
        "[show dice: 6 and 5]\nSix and five: I know six and four make ten, so six and five make eleven.",
        "[show dice: 5 and 2 and 5]\nThis roll has five, two and five. There is no ten made of two and five, but there's a double. Five and five is ten.",
        "[show text: Ten]\nI say a number, you say what it needs to become ten. Nine! [wait 2 s] One. Nine and one are ten. Seven! [wait 2 s] Three. Seven and "
        "three. Five! [wait 2 s] Five again, because five and five make ten.",
        "[show base ten: 33]\nThirty-three. Three tens and three ones. Fifty-one or fifteen? [wait 3 s] Fifty-one is more, five tens against one ten.",
        "[show base ten: 42]\nForty-two: four tens and two ones. Even nine ones are less than a ten.",
        "[show ten frame: 9 dots as big]\nNine. What do we need so that the frame is full? [wait 3 s]\n[big: add 1 cross, counting]\nTen! We only needed one.\n\nSix and four are "
        "ten, too.\n\nSay them with me: nine, ten, eleven.",
        "[show dots: 12 dots as rolls]\n[rolls: count by 5]\nFive, ten, and two more make twelve.",
        "[show number bond: ? is 9 and 9 as bond]\nTen and what is the same as nine and nine? [wait 5 s] [bond: fill in 18]\nTen and eight. Eighteen acorns.",
        "[show hundred chart: 1 to 100, mark 50 as map]\nFifty. [map: mark 60] Another ten, sixty. [map: mark 70] Seventy. [map: mark 80] Eighty.",
        "[show cards: 0 to 9 as deck]\nPartners of nine. What goes with seven? [wait 4 s]\n[deck: circle 7] Seven. [deck: circle 2] And two. Seven and two is nine.",
        "[show dots: 12 as boots]\nHere are all the boots. Each dot is a boot.\n\n# Jumping by twos\n\n[boots: count by 2]\nTwo, four, six, eight, ten, twelve. Twelve boots.",
        "[show text: Sum]\nWhat do three, six and one make? [wait 5 s] Ten.",
        "[show cards: 4, 9, 2 as row] [row: turn over 9] [row: turn over 2]\nOnly the four looks at us. Higher or lower? [wait 4 s] [row: turn over 9] Nine! And the "
        "last? [wait 4 s] [row: turn over 2] Two.",
    ],
)  # fmt: skip
def test_what_sounds_wrong_and_is_right_is_left_in_peace(text: str) -> None:
    assert rules(text) == set()


@pytest.mark.parametrize(
    "text",
    [
        BIGGER,
        OVER_TEN,
        THIRD,
        "From eleven to seventeen there are seven numbers.",
        "Fourteen to ten: thirteen, twelve, eleven, ten, four steps.",
        "I leave a number out. Twenty, nineteen, seventeen, sixteen. [wait 3 s] Eighteen! Fourteen, thirteen, twelve, ten. [wait 3 s] Eleven!",
    ],
)
def test_a_game_is_no_false_arithmetic_and_no_false_count(text: str) -> None:
    assert rules(f"[show text: Game]\n{text}").isdisjoint({"true arithmetic", "count goes on"})


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (OVER_TEN, "Seven and five. Two.", "Seven and five. Three."),
        (THIRD, "Two and five. [wait 4 s] Two.", "Two and five. [wait 4 s] Three."),
        (BIGGER, "Eight and six. Eight.", "Eight and six. Seven."),
    ],
)
def test_a_game_excuses_only_answers_by_its_rule(text: str, right: str, wrong: str) -> None:
    assert right in text
    assert "true arithmetic" in rules(f"[show text: Game]\n{text.replace(right, wrong)}")


def test_a_ten_that_is_traded_is_no_story() -> None:
    assert rules(
        "[show base ten: 47]\nNow trade one ten for ten ones. How many tens are left? Three. How many ones? Seventeen."
    ).isdisjoint({"story can be", "answer fits story"})


def test_two_false_sums_are_no_game() -> None:
    assert "true arithmetic" in rules(
        "[show text: Sums]\nFour and nine. Nine. Three and one. Four. Eight and six. Eight."
    )


def test_a_game_that_was_only_heard_is_no_false_arithmetic() -> None:
    """In heard words there are no segments with titles."""
    _, found = check_talk(words_of(BIGGER))
    assert "true arithmetic" not in {finding.rule for finding in found}


@pytest.mark.parametrize(
    ("talk", "wrong"),
    [
        (
            "Could it be thirty-six? Thirty-six? Three and six. Yes.",
            "Could it be fourteen? Fourteen? Nine and six. Yes.",
        ),
        ("One bucket and seven lying about. Seventeen.", "One bucket and seven lying about. Nineteen."),
        ("Six and forty, that is four leaps. We leap by tens.", "Six and forty, that is five leaps. We leap by tens."),
        (
            "An even number ends in one of these: Two, four, six, eight, zero.",
            "We count: Two, four, seven, eight, ten.",
        ),
        (
            "Two and two. [wait 3 s]\nSix and one. [wait 3 s]\nTen take away two. [wait 3 s]\nFive and five. [wait 3 s]\n"
            "Check: four, seven, eight, ten.",
            "Two and two. [wait 3 s]\nSix and one. [wait 3 s]\nTen take away two. [wait 3 s]\nFive and five. [wait 3 s]\n"
            "Check: four, nine, eight, ten.",
        ),
    ],
)
def test_digits_leaps_and_answers_in_a_row_are_no_false_sums_and_counts(talk: str, wrong: str) -> None:
    minding = {"true arithmetic", "count goes on"}
    assert minding.isdisjoint(rules(talk))
    assert not minding.isdisjoint(rules(wrong))


@pytest.mark.parametrize(
    ("right", "wrong", "rule"),
    [
        (
            "[show cards: 3, 8, 5 as board]\nThree and eight and five. [board: circle 8] Eight has a ring. Which number has no ring "
            "yet? [wait 3 s] Five. [board: circle 5] There.",
            "[show cards: 3, 8, 5 as board]\nThree and eight and five. Which number gets a ring? [wait 3 s] [board: circle 8] Five.",
            "ring as said",
        ),
        (
            "[show dice: 4 and 2 as one]\nLook at mine.\n[show dice: 5 and 4 as other]\nFour and two against five and four.",
            "[show dice: 5 and 4 as other]\nFour and two, my dice say.",
            "pair as told",
        ),
        (
            "[show base ten: 65 as whole]\nI see six tens and five ones. Cover four tens with your hand. What peeks out? Two tens "
            "and five ones.",
            "[show base ten: 65 as whole]\nHere it is. I see two tens and five ones.",
            "said as shown",
        ),
        (
            "[show number sentence: 7 + 3 = ? as a] [show number sentence: 6 + 4 = ? as b] [show number sentence: 5 + 3 = ? as c]\n"
            "Seven plus three. Six plus four. Five plus three. [wait 8 s] Seven and three make ten.",
            "[show number sentence: 7 + 3 = ? as a] [show number sentence: 6 + 4 = ? as b] [show number sentence: 5 + 5 = ? as c]\n"
            "Seven plus three. Six plus four. Five plus three. [wait 8 s] Seven and three make ten.",
            "true arithmetic",
        ),
        (
            "[show cards: 8, 3, 10, 6 as deck]\nOtter plays the first of each pair.\n# Pairs\nEight and three. Ten and six.",
            "[show cards: 8, 3, 10, 6 as deck]\nOtter plays the first of each pair.\n# Pairs\nEight and three. Ten and five.",
            "shown number is said",
        ),
    ],
)
def test_pictures_of_games_are_told_in_their_own_ways(right: str, wrong: str, rule: str) -> None:
    assert rule not in rules(right)
    assert rule in rules(wrong)
