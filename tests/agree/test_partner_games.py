"""Games in which one says a number and the other one its partner."""

from __future__ import annotations

import pytest

from studio.agree.rules.false_arithmetic import NAME
from tests.agree.minded import assert_only_the_slip_is_minded, rules

BLANK = "[show text: Partners]\nSit up like a heron. "


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        # the answer stands in the next paragraph
        (BLANK + "Partners of ten, I throw, you catch. I say eight, you say...\n[wait 2 s]\nTwo! I say four, you say...\n"
         "[wait 2 s]\nSix!", "say eight", "say six"),
        # the whole is named last
        (BLANK + "I say four, you say... one! I say two, you say... three! Who goes with zero to make five? Five does.", "say two", "say six"),
        # the whole is wrong
        (BLANK + "I sing a part, you sing its partner. The whole is always ten. I sing nine, you sing... one! I sing seven, you "
         "sing... three! I sing six, you sing... four!", "always ten", "always eight"),
        (BLANK + "I say a number, you say its partner to ten. Ready? Six. Four! Three. Seven! Eight. Two! Nice and loud.", "to ten", "to nine"),
        # numbers are called out
        (BLANK + "I'll call a number and you shout its partner to ten. Nine! You shout... one. Six! Four, well done.", "Six!", "Five!"),
        (BLANK + "When I say a number, clap its partner to nine. Six. [wait 3 s] That's three claps. Seven. [wait 3 s] Two claps.", "Six.", "Eight."),
        (BLANK + "The heron asks for the partners of ten. Eight? And you answer, two. Five? And you answer, five.", "Five?", "Three?"),
        (BLANK + "I say part of ten and you say the rest. Nine and... one. Seven and... three.", "one.", "two."),
        # after a pause
        (BLANK + "I throw the ball, you throw it back. Partners of nine.\nEight... one! Six... three! Four... five! Two... seven!",
         "one!", "seven!"),
        (BLANK + "I throw the ball, you throw it back. Partners of nine.\nEight... one! Six... three! Four... five! Two... seven!",
         "of nine", "of twelve"),
        (BLANK + "Partners of ten, and you cheer. Two ... eight, hooray. Seven ... three, hooray. Ten ... zero, hooray.", "Seven", "Six"),
        # what goes with a part
        (BLANK + "What goes with eight to make nine? [wait 3 s] One. What goes with six? [wait 3 s] Three. What goes with five? [wait "
         "3 s] Four.", "with six", "with ten"),
        (BLANK + "What goes with thirty to make forty? Ten. With twenty? Twenty. With thirty-five? Five. With thirty-eight? Two.",
         "Five.", "Eight."),
        # in rhyme
        (BLANK + "Nine and *one*, in the sun! Eight and *two*, morning dew!\nSeven and *three*, willow tree! Six and *four*, otter's "
         "door!\nAll make ten, now sing again!", "Eight", "Four"),
        # some are hidden
        (BLANK + "Partners of four, then. I hold up one pebble, so how many are hiding? Three are hiding. I hold up two, so how many are "
         "hiding? Two are hiding.", "hold up two", "hold up three"),
        # the whole of a list
        (BLANK + "Partners of three first. Quick as a newt. Three and zero. Two and one. One and two. Zero and three.", "of three", "of six"),
        # gates of tallies
        ("[show tally: 10]\nTwo gates of five make ten.", "of five", "of six"),
    ],
)  # fmt: skip
def test_partners_come_to_their_whole(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, NAME)


@pytest.mark.parametrize(
    "text",
    [
        # another game
        BLANK + "Partners of ten tomorrow. Today I say five, you say six. I say eight, you say nine. I say two, you say three.",
        # counts, and numbers for two wholes
        BLANK + "Partners of ten come later. Two, three. Four, five. Six, seven. Eight, nine.",
        BLANK + "What goes with eight to make ten? Two. With six? Four. What goes with eighteen to make twenty? Two. With sixteen? Four.",
        BLANK + "Partners of ten. Six and four, snap! Eight and two, snap! Seven and two, no snap! Five and five, snap!",
        # two wholes in one segment
        BLANK + "Partners of ten help with partners of twenty. I say fifteen, you say five. I say eighteen, you say two. I say twelve, "
        "you say eight.",
        BLANK + "I say partners of ten, and I say three, you say seven. Good. Listen to the frogs. Eight. Nine. Ten. There they go.",
        # the number is echoed
        BLANK + "Partners of ten. You be the echo. Five. Five. Six. Six.",
    ],
)  # fmt: skip
def test_other_games_are_left_in_peace(text: str) -> None:
    assert NAME not in rules(text)
