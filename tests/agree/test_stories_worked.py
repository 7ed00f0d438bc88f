"""Stories of lessons with what is drawn, worked and said after them: one wrong number is found, right ones
are left alone."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

RIGHT_AND_WRONG = [
    (
        "Thirteen toads were crossing the lane. Five got safely to the ditch. How many are still "
        "in the lane?\n\n"
        "# Through ten\n\n"
        "[show double ten frame: 13 dots as lane]\n"
        "The toads again. A full ten and three. Thirteen take away three is ten.\n"
        "[lane: take away 3]\n"
        "Ten take away two is eight.\n"
        "[lane: take away 2]\n"
        "Thirteen take away five is eight. Eight toads.",
        "Thirteen toads",
        "Sixteen toads",
        "worked as told",
    ),
    (
        "Twenty newts play hide-and-seek. The seeker has found sixteen of them. How many are still "
        "hiding?\n\n"
        "[show number path: 10 to 20, mark 16 as path]\n"
        "[path: hop 16 to 20, counting]\n"
        "Sixteen ... seventeen, eighteen, nineteen, twenty. Four hops! Four newts are under the "
        "dock.",
        "found sixteen",
        "found two",
        "worked as told",
    ),
    (
        "A family of otters had ten shells. Then they found some more. Now they have eighteen "
        "shells. How many did they find?\n\n"
        "[show number sentence: 10 + ? = 18 as s]\n"
        "Ten plus something equals eighteen. [s: fill in 8] Eight.",
        "had ten",
        "had eight",
        "asks what the story asks",
    ),
    (
        "[show number sentence: ? + 2 = 8 as third]\n"
        "This is the sneaky one. Some fish were in the shade. Two more came. Now there are eight. "
        "How many were there at the start?\n\n"
        "Eight take away two leaves six. [third: fill in 6] So there were six at the start.",
        "Two more",
        "Six more",
        "asks what the story asks",
    ),
    (
        "There were twelve fish in the shallow end. An otter took three of them home. How many "
        "fish were left?\n\n"
        "[show dots: 12 as lunch]\n"
        "[lunch: take away 3, counting] Twelve. Eleven, ten, nine. Nine fish were left in the "
        "shallow end.",
        "Nine fish",
        "Eight fish",
        "closes with its answer",
    ),
    (
        "[show ten frame: 4 dots as log]\n"
        "Four newts on a log. [log: add 3 crosses, counting] Five, six, seven. Seven newts are "
        "there now.",
        "Seven newts",
        "Ten newts",
        "closes with its answer",
    ),
    (
        "[show number sentence: 3 + ? = 7 as line]\n"
        "Three plus what equals seven? [line: fill in] Four. [line: circle 4] Which number shall "
        "we ring? The four, since nobody told us that one.",
        "The four",
        "The two",
        "ring as said",
    ),
    (
        "[show dots: 14 as case]\n"
        "Last night there were fourteen lily pads. This morning there are only eight. How many "
        "vanished?\n\n"
        "Take some away until eight are there. [case: take away 6, counting] Thirteen, twelve, "
        "eleven, ten, nine, eight. Six pads vanished.",
        "only eight",
        "only seven",
        "drawing fits story",
    ),
    (
        "My bed had twelve sprouts. The bed next door had seven. How many more had I?\n\n"
        "[show compare bars: 12 and 7 as grew]\n"
        "Lay his bar beside mine. Mine is twelve and his is seven. I had five more.",
        "bars: 12 and 7",
        "bars: 12 and 5",
        "drawing fits story",
    ),
    (
        "[show dots: 14 as case]\n"
        "Last night there were fourteen lily pads. This morning there are only eight. How many "
        "vanished?\n\n"
        "[case: take away 6, counting] Thirteen, twelve, eleven, ten, nine, eight. Six pads "
        "vanished.",
        "Six pads",
        "Three pads",
        "answer fits story",
    ),
    (
        "[show ten frame: 3 dots as bank]\n"
        "There were three otters on the bank. Along came some more. Then there were seven otters "
        "on the bank. How many came?\n\n"
        "[bank: add 4 crosses, counting] Four, five, six, seven. How many crosses did we put down? "
        "Four. So how many otters came? Four otters.",
        "? Four otters",
        "? Nine otters",
        "answer fits story",
    ),
    (
        "Six fish swim near the dam. Eight more fish come. How many fish are there now?\n\n"
        "Six plus eight equals fourteen. So fourteen fish.",
        "So fourteen",
        "So eight",
        "answer fits story",
    ),
]
LOOK_ALIKES = [
    # The next segment is about something else
    "Six snails sat on a wall. Four more came. How many is that? Tell me later.\n\n# Warm-up\n\n"
    "[show number bond: 5 is 3 and ? as bond]\nThree is a part of five. [bond: fill in] Two and three make five.",
    # A number that the story tells is told again while it is drawn
    "Five snails are on a leaf. One falls off. How many are on the leaf now?\n\n[show five frame: 5 "
    "dots as leaf] Five snails. "
    "[leaf: take away 1] Now there are four on the leaf.",
    # Checked the other way round when it was found
    "There were six newts. Some more came. Now there are nine newts. How many came?\n\n[show number "
    "sentence: 6 + ? = 9 as s]\n"
    "Six and three make nine. [s: fill in 3] Three came.\n\n"
    "[show number sentence: ? + 3 = 9 as t]\n"
    "And backwards: [t: fill in 6] six.",
    # What comes after a count may be about other things
    "[show ten frame: 4 dots as log]\nFour newts on a log. [log: add 3 crosses, counting] Five, six, seven. "
    "What a crowd! Two ducks looked on.",
    # A question about a ring with an answer that is no number of it
    "[show number sentence: 3 + ? = 7 as line]\nThree plus what equals seven? [line: fill in] Four. [line: circle 4] "
    "What does the ring say? Four was found.",
    # The sum is drawn in another order
    "Six ducks, eight newts and four herons left prints in the mud. How many prints altogether?\n\n"
    "[show double ten frame: 6 dots as mud] Six. [mud: add 4 crosses] Six and four make ten. "
    "[mud: add 8 dots] Ten and eight make eighteen. Eighteen prints.",
    # Worked through the ten, with every number of the story
    "Sixteen ducks are asleep. Seven wake up. How many ducks are still asleep?\n\n[show double ten "
    "frame: 16 dots as ducks]\n"
    "Seven is six and one. [ducks: take away 6] Ten are left. [ducks: take away 1] Nine ducks are still asleep.",
]


@pytest.mark.parametrize(("text", "right", "wrong", "rule"), RIGHT_AND_WRONG)
def test_a_right_text_is_left_alone_and_one_wrong_number_is_found(text: str, right: str, wrong: str, rule: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, rule)


@pytest.mark.parametrize("text", LOOK_ALIKES)
def test_what_only_looks_like_it_is_left_alone(text: str) -> None:
    assert rules(text) == set()


@pytest.mark.parametrize(
    ("lesson", "right", "wrong"),
    [
        (  # the next question of an answered story has a bond of its own
            "# A story\nFour chicks come from the barn and three more chicks come from the well. How many chicks are in the apron?\n"
            "[show number sentence: 4 + 3 = ?]\nSeven chicks. Well found.\n\n"
            "[clear] [show number bond: 8 is 7 and ? as bond]\nSeven are in the apron. She wants eight. [bond: fill in] One is missing.\n",
            "8 is 7",
            "9 is 7",
        ),
        (  # a part that is parted itself
            "# A story\nTwenty-eight ducks swim. Seven more ducks come. How many ducks are there?\n"
            "[show number bond: 7 is 2 and 5]\nThis is how we broke the seven. Twenty-eight plus two is thirty. Now the rest. "
            "There are thirty-five ducks.\n",
            "7 is 2 and 5",
            "36 is 28 and 8",
        ),
    ],
)
def test_a_bond_of_something_else_is_no_bond_of_the_story(lesson: str, right: str, wrong: str) -> None:
    assert "bond fits story" not in rules(lesson)
    assert "bond fits story" in rules(lesson.replace(right, wrong))


def test_what_is_told_beside_a_story_is_not_held_against_its_sentence() -> None:
    lamps = (
        "Otto the otter is two meters tall with his hat on. There are nineteen lamps at his pond. Eleven of them are burning, and "
        "I drew those. [show double ten frame: 11 dots as lamps] How many must he still light? [lamps: add 8 crosses, counting] "
        "Twelve, thirteen, fourteen, fifteen, sixteen, seventeen, eighteen, nineteen. [wait 4 s] Eight. He must light eight lamps. "
        "[show number sentence: 11 + ? = 19 as s] [s: fill in] Eight.\n"
    )
    of_stories = {"drawing fits story", "answer fits story", "sentence fits story"}
    assert not rules(lamps) & of_stories
    assert rules(lamps.replace("11 + ?", "12 + ?")) & of_stories
