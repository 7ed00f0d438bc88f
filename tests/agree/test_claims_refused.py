"""What somebody only claims, and is told that it is not so, is left in peace; what is said to be so is not."""

from __future__ import annotations

import pytest

from tests.agree.minded import rules

TALK = "Nine and one make ten. Eight and two make ten. Seven and three make ten. "
CLAIMS = "Which claim holds? [wait 3 s] " + TALK
RIGHT = {
    "addressed by name": TALK + "Owl says six and six is thirteen. Rubbish, Owl; six and six is twelve.",
    "a double, addressed": TALK + "Owl shouts that double zero is two. Think, Owl: double zero is zero.",
    "one number": TALK + "[show number sentence: 10 + ? = 18 as gap] Owl bets on nine. You lose, Owl. [gap: fill in] It is eight: ten plus eight is eighteen.",
    "sure but wrong": TALK + "[show dots: 8] Owl is quite certain that there are nine. Certain but wrong, Owl. There are eight.",
    "of a picture": TALK + "[show ten frame: 6 dots and 4 crosses] Owl claims there are five crosses. Count again, Owl, there are only four!",
    "not so, at length": CLAIMS + "Fourteen minus five equals ten. [wait 8 s] Not so, and I will tell you why. Fourteen minus five equals nine.",
    "wrong after a question": TALK + "Eleven is three more than nine. Right? [wait 6 s] Wrong. Eleven is only two more than nine.",
    "time to judge": CLAIMS + "Eight and eight make eighteen. [wait 5 s] That won't do. The beads come to sixteen.",
    "both sides": CLAIMS + "Seven plus three is equal to five plus four. [wait 8 s] Out of balance! Seven plus three is ten, and five plus four comes to nine.",
    "struck out": CLAIMS + "Seven plus four equals ten plus two. [wait 8 s] We strike it out. The left is worth eleven, yet the right is worth twelve.",
    "how many come after a count": "[show dots: 6 as mice] [mice: count] One, two, three, four, five, six. [mice: add 2 dots] Two cousins squeeze in. Now there are eight.",
    "what comes to the blocks": "[show base ten: 23 as album] Twenty-three, two tens and three ones. Then come a ten and four ones. [wait 8 s] [album: add 14] Thirty-seven.",
    "called out": "Break off the ten. Thirteen! [wait 3 s] Ten and three. Seventeen! [wait 3 s] Ten and seven. Eleven! [wait 3 s] Ten and one. Ten plus two is twelve.",
    "beside the ring": "[show cards: 4 to 8 as cards] [cards: circle 6] The ring is round the six. Which card is to the left of my ring? [wait 4 s] The five.",
}  # fmt: skip
SLIPS = {
    "told without a no": TALK + "Owl says six and six is thirteen. Lovely, Owl; six and six is thirteen.",
    "praised": TALK + "Owl says six and six is thirteen. Well done, Owl! Six and six is twelve.",
    "the right one": TALK + "Owl says six and six is twelve. Rubbish, Owl; six and six is eleven.",
    "agreed": CLAIMS + "Eight and eight make eighteen. [wait 5 s] That is right. The beads come to sixteen.",
    "no time to judge": CLAIMS + "Eight and eight make eighteen. That won't do. The beads come to seventeen.",
    "no claims": TALK + "Eight and eight make eighteen. [wait 5 s] Say it with me. Eight and eight make sixteen.",
    "so many do not come": "[show dots: 6 as mice] [mice: count] One, two, three, four, five, six. [mice: add 2 dots] Three cousins squeeze in. Now there are eight.",
    "not what the blocks have": "[show base ten: 23 as album] Twenty-three, two tens and four ones.",
    "another is called out": "Break off the ten. Thirteen! [wait 3 s] Ten and three. Seventeen! [wait 3 s] Ten and seven. Twelve! [wait 3 s] Ten and one. Ten plus two is twelve.",
    "another ring": "[show cards: 4 to 8 as cards] [cards: circle 6] Which card has a ring? [wait 4 s] The five.",
}  # fmt: skip


@pytest.mark.parametrize("talk", RIGHT.values(), ids=RIGHT)
def test_a_claim_that_is_refused_is_left_in_peace(talk: str) -> None:
    assert rules(talk) == set()


@pytest.mark.parametrize("talk", SLIPS.values(), ids=SLIPS)
def test_a_slip_beside_it_is_found(talk: str) -> None:
    assert rules(talk)
