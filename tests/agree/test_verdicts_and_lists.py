"""A claim that is called false in a word of its own is no slip (CCSSM 1.OA.D.7 has children tell true equations from false ones), titles may
number the parts of a lesson, and numbers may be listed; the same with a slip is minded."""

from __future__ import annotations

import pytest

from studio.agree import check
from studio.script.reader import read
from tests.agree.minded import assert_only_the_slip_is_minded, rules

CLAIMS = """[show number sentence: 17 = 10 + 7 as claim] Seventeen equals ten plus seven. Look at the ones. [wait 5 s] True. Ten and seven make seventeen.
[show number sentence: 17 = 10 + 6 as claim] Seventeen equals ten plus six. Look at the ones. [wait 5 s] False. Ten plus six gives only sixteen.
[show number sentence: 20 = 10 + 8 as claim] Twenty equals ten plus eight. Is this one correct? [wait 6 s] It is false. Ten plus eight equals eighteen.
[show number sentence: 5 + 5 = 4 + 4 + 1 as claim] Five plus five equals four plus four plus one. May I? [wait 6 s] No, that is false. The left is ten, the right is nine.
[show number sentence: 10 - 6 = 6 - 3 as claim] Ten minus six equals six minus three. [wait 6 s] Red. On one side I find four, on the other only three.
[show number sentence: 7 = 8 - 1 as claim] Seven equals eight take away one. Is this one correct? [wait 6 s] It is true. Eight take away one is seven."""


def test_what_is_called_false_is_left_alone_and_what_is_called_true_is_not() -> None:
    assert rules(CLAIMS) == set()
    for right, wrong in (
        ("Seven equals eight take away one", "Seven equals eight take away two"),
        ("Seventeen equals ten plus seven", "Seventeen equals ten plus five"),
    ):
        assert right in CLAIMS
        assert "true arithmetic" in rules(CLAIMS.replace(right, wrong, 1))
    assert rules(CLAIMS.replace("17 = 10 + 7", "17 = 10 + 9", 1))


@pytest.mark.parametrize(
    ("text", "right", "wrong", "rule"),
    [
        # sums that are asked together are answered in turn
        ("Ten and two? Seven and three? Two and five? Three and six? [wait 12 s] Twelve. Ten. Seven. Nine. Double two is four.",
         "Double two is four", "Double two is five", "true arithmetic"),
        # each number has its ten
        ("In every number from eleven to nineteen there is a ten. Eleven is ten and one.", "Eleven is ten and one", "Eleven is ten and two",
         "true arithmetic"),
        ("From eleven to nineteen there are eight steps.", "eight steps", "seven steps", "true arithmetic"),
        # a second question goes on from the first
        ("What is double seven? And one more? [wait 5 s] Fourteen, and one more is fifteen.", "one more is fifteen", "one more is sixteen",
         "more and less fit"),
        # no two of them
        ("[show dice: 4 and 4 and 1 as throw]\nHere no two dice give ten. Four and four make eight. With the one, we reach nine.",
         "Four and four make eight", "Four and four make seven", "true arithmetic"),
        # how many is answered before they come
        ("[show number line: 20 to 60, mark 55 as track] We are at fifty-five and must go back thirty. How many big jumps is that? [wait 4 s] Three. "
         "[track: hop 55 to 45] Forty-five. [track: hop 45 to 35] Thirty-five. [track: hop 35 to 25] Twenty-five.",
         "Thirty-five.", "Thirty-six.", "told in a row as shown"),
        # a list behind how many it has
        ("Otter needed four throws: three, four, two and one. Three and four make seven.", "make seven", "make eight", "true arithmetic"),
        # cards that run down but for one
        ("[show cards: 10, 9, 8, 7, 5, 4, 3, 2, 1, 0 as row]\nThe row runs down, from ten to nought. Who slipped away? [wait 9 s] Six. Six and one are seven.",
         "Six and one are seven", "Six and one are eight", "true arithmetic"),
        # a goose that is scolded
        ("Goose tells me six and one more is eight. Tut tut! Eight is two more than six.", "Eight is two more", "Eight is three more",
         "true arithmetic"),
    ],
)  # fmt: skip
def test_lists_and_second_questions_are_understood(text: str, right: str, wrong: str, rule: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, rule)


@pytest.mark.parametrize("titles", [("One", "Two"), ("1. Warm-up", "2. A story"), ("1) Frogs", "2) Ducks")])
def test_titles_may_number_the_parts_of_a_lesson(titles: tuple[str, str]) -> None:
    script = f"""---
title: Pond
---

# {titles[0]}

[show ten frame: 9 dots] Nine frogs sit on the lilies, one, two, three, four, five, six, seven, eight, nine. Nine and one make ten.

# {titles[1]}

[clear] [show ten frame: 8 dots as boxes] Eight ducks swim in the pond. Eight and two make ten. Ten is eight and two.
"""
    found = check(read(script)).findings
    assert not [one for one in found if one.rule == "title fits its segment"]
    wrong = script.replace("# " + titles[0], "# Partners of seven").replace("# " + titles[1], "# Partners of ten")
    assert [one for one in check(read(wrong)).findings if one.rule == "title fits its segment"]
