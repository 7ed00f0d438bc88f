"""Sums and counts that are told in a manner of their own are right, and a slip beside each is found."""

from __future__ import annotations

import pytest

from tests.agree.minded import rules

RIGHT = {
    "forward from a number": "[show number line: 0 to 20 as line] Stand on thirteen. [line: hop 13 to 20] Seven forward from thirteen is twenty.",
    "by tens and then by ones": "Up by ten, from twenty-three to thirty-three. And then by four: thirty-four, thirty-five, thirty-six, thirty-seven.",
    "a night for each double": "One, two, four, eight, sixteen. From one to sixteen it took four nights.",
    "hours on a clock": "Twelve o'clock. One, two, three. From twelve to three is three hours.",
    "numbers to be put in order": "Put in order, small to large. Twelve, twenty, two. [wait 6 s] Two, twelve, twenty.",
    "a claim that is refused": (
        "Somebody might declare that the difference between eight and six is three. We test it. Six plus three is nine. The claim "
        "must be refused."
    ),
    "what goes, counted for itself": (
        "[show ten frame: 8 dots as f] Eight dots. [f: take away 3, counting] One, two, three. Now there are five."
    ),
    "what goes from a picture that was counted before": (
        "[show ten frame: 5 dots as f] [f: count] One, two, three, four, five.\n\n# Then\n[f: take away 2, counting] One, two. Goodbye."
    ),
    "hops counted for themselves": (
        "[show number line: 0 to 10 as l] Start at four. [l: hop 4 to 7, counting] One hop, two hops, three hops. We land on seven."
    ),
    "a dash that takes away": "Eight - 3 = 5, and ten – six = four.",
    "one row of a frame, named before": "[show ten frame: 8 dots] Eight otters. Check the bottom row. Three dots are there, two boxes are bare.",
    "one that is to be found": "Take one between eleven and nineteen, and give the clues to somebody at home.",
    "what a sum ends in": "They all end in five. Eight and seven always leave a five behind and make a fresh ten.",
    "moved from one to the other": "I slide three across and get sixty plus thirty-three.",
    "as with smaller numbers": "Thirty and what make a hundred? I think of three and seven. Seventy.",
    "its tens": "[show number sentence: 80 + ? = 100] Next, to a hundred. Eighty? I think of eight and two. [wait 3 s] [number sentence: fill in 20] Twenty.",
    "a count behind a pronoun": "[show ten frame: 5 dots as b] [b: count] And this has one, two, three, four, five. Too many!",
    "what comes yet": (
        "[show double ten frame: 5 dots as belly] Five flies. Your piece had nine dots. Will nine more fit? "
        "[belly: add 9 crosses] Five and nine make fourteen."
    ),
    "one of the cards": "Look at the tens. Forty-one and forty-eight have four tens. Only one has three tens.",
    "a guess": (
        "There are nine snails on two leaves. There is one more snail on the big leaf. How many on each?\n\n"
        "[show number bond: 9 is 8 and 1 as try] Shall we guess? Eight and one makes nine. Too different! "
        "[show number bond: 9 is 5 and 4 as good] Five and four make nine."
    ),
    "a sum, and one more that is asked for": "Five plus five is ten, and one more is what? Eleven. So five plus six equals eleven.",
    "one that is asked for at once": "One lives between twenty-three and twenty-five. Which number? [wait 5 s] Twenty-four.",
    "some of the dots": (
        "[show dots: 7 as rest] Seven dots. [rest: take away 2] Now my hand covers two of the seven dots. How many can you still see? Five."
    ),
    "what is to be drawn on each": (
        "[show tally: 12 as feet] Twelve feet. How many ducks is that? [wait 10 s: Draw ducks, give each two feet] Six ducks."
    ),
    "two sums laid against each other": "Six plus six against five plus eight. [wait 5 s] Twelve against thirteen: red.",
    "a difference against a sum": "Nine minus two or four plus four? [wait 5 s] Seven or eight. Four plus four is more.",
    "a number that is hummed": "Twenty-four, twenty-two, mmm, eighteen. [wait 2 s] Twenty.",
    "the first is hummed": "Mmm, sixty-six, fifty-six, forty-six. [wait 3 s] Seventy-six came first!",
    "asked for, what was hummed": "Five, ten, something, twenty. What was it? Fifteen.",
    "a number that is left out": "I leave one out, you call it. Five, ten, twenty. [wait 3 s] Fifteen was missing. Nine, eight, six, five. [wait 2 s] Seven.",
    "tasks with their numbers": (
        "Write the answers down.\n\nOne. Two plus three. [wait 5 s]\nTwo. Nine minus one. [wait 5 s]\nThree. Three plus what makes nine? [wait 5 s]\n"
        "Four. Seven minus two. [wait 5 s]\n\n# Reading\n\nFive. Eight. Six. Five."
    ),
    "what a number ends in": "Is sixty-five in the fives? Yes, it ends in five. Seventy-two? No, ends in two. Ninety! Ends in zero.",
    "between the two": "So the ten sits in between the nine and the eleven.",
    "what other numbers end in": "What number comes after thirty-eight that ends in zero? Forty. Forty-five and the next, it ends in zero. Fifty.",
    "what is added up": "Three and three is six. Six and two is eight. We add up all the hops: three, three and two. Eight hops, that is eight.",
    "traded for ones": "[show number sentence: 30 + 17 = 47 as way] Forty-seven. Trade a ten for ones and it becomes thirty plus seventeen.",
    "up by tens": "[show number line: 0 to 80, mark 36 as line] Stand at thirty-six and go up four tens. [line: hop 36 to 76] You land on seventy-six.",
    "what one does": "Seven crates. And what does one do with seven crates? It makes one want to bake. [show dots: 7] Seven.",
    "what lies in all pictures": (
        "[show dots: 5 as sole] Five of these. [show ten frame: 3 dots as bream] Of those, three. [show tally: 5 as squid] Five again. Thirteen "
        "altogether. Nine and four make thirteen. Ten and three make thirteen."
    ),
    "one more picture": (
        "[show double ten frame: 20 dots as left] I fill two frames, twenty. [show ten frame: 10 dots as middle] I fill another, thirty. "
        "[show five frame: 4 dots as last] Then four on a small frame, and we're at thirty-four. Thirty and four make thirty-four."
    ),
    "more than a double": "Twice eight pegs, sixteen. It is two more than double seven, for each side got a peg more. Eight and eight make sixteen. Seven and seven make fourteen.",
    "true sentences with their numbers": "One. Six plus two equals eight.\nTwo. Nine take away three leaves six.\nThree. Two plus two is four.",
}  # fmt: skip
SLIPS = {
    "forward from a number": "[show number line: 0 to 20 as line] Stand on thirteen. [line: hop 13 to 20] Six forward from thirteen is twenty.",
    "one row of a frame, named before": "[show ten frame: 8 dots] Eight otters. Check the bottom row. Four dots are there.",
    "not evenly counted": "Three and three is six. Six and two is eight. We count all the hops: three, three and two. Eight hops.",
    "up by other tens": "[show number line: 0 to 80, mark 36 as line] Stand at thirty-six and go up five tens. [line: hop 36 to 76] You land on seventy-six.",
    "not what lies in all pictures": (
        "[show dots: 5 as sole] Five of these. [show ten frame: 3 dots as bream] Of those, three. [show tally: 5 as squid] Five again. Fifteen "
        "altogether. Nine and four make thirteen. Ten and three make thirteen."
    ),
    "another picture": (
        "[show double ten frame: 20 dots as left] I fill two frames, twenty. [show ten frame: 7 dots as middle] I fill another, thirty. "
        "[show five frame: 4 dots as last] Then four on a small frame, and we're at thirty-four. Thirty and four make thirty-four."
    ),
    "not more than a double": "Twice eight pegs, sixteen. It is five more than double seven, for each side got a peg more. Eight and eight make sixteen. Seven and seven make fourteen.",
    "what goes, counted for itself": (
        "[show ten frame: 8 dots as f] Eight dots. [f: take away 3, counting] One, two, three. Now there are six."
    ),
    "what goes from a picture that was counted before": (
        "[show ten frame: 5 dots as f] [f: count] One, two, three, four, five.\n\n# Then\n[f: take away 2, counting] One, two, three. Goodbye."
    ),
    "hops counted for themselves": (
        "[show number line: 0 to 10 as l] Start at four. [l: hop 4 to 7, counting] One hop, two hops, four hops. We land on seven."
    ),
    "a dash that takes away": "Eight - 3 = 6.",
    "no number between": "Pick fifteen between eleven and twelve, and give the clues.",
    "another ending": "They all end in five. Eight and seven always leave a four behind and make a fresh ten.",
    "not equal": "I have three and get sixty plus thirty-three.",
    "other parts": "What makes a hundred? I think of three and seven hundred. And eighty? Seven and two.",
    "other tens": "Look at the tens. Forty-one has four tens. Only forty-two has three tens.",
    "a count that leaps": "[show ten frame: 5 dots as b] [b: count] And this has one, two, three, five. Too many!",
    "a sum before one more": "Five plus five is eleven, and one more is what? Twelve.",
    "another sum with one more": "Five plus five is ten, and one more is what? Twelve. So five plus six equals eleven.",
    "not the number between": "One lives between twenty-three and twenty-five. Which number? [wait 5 s] Twenty-six.",
    "some of other dots": (
        "[show dots: 7 as rest] Seven dots. [rest: take away 2] Now my hand covers two of the nine dots. How many can you still see? Five."
    ),
    "one of the sums": "Six plus six against five plus nine. [wait 5 s] Twelve against thirteen: red.",
    "what one of them makes": "Nine minus two or four plus four? [wait 5 s] Nine or eight. Four plus four is more.",
    "not what was hummed": "Twenty-four, twenty-two, mmm, eighteen. [wait 2 s] Nineteen.",
    "beside what was hummed": "Twenty-four, twenty, mmm, eighteen. [wait 2 s] Twenty.",
    "another first": "Mmm, sixty-six, fifty-six, forty-six. [wait 3 s] Seventy-five came first!",
    "another answer": "Five, ten, something, twenty. What was it? Nine.",
    "not what was left out": "I leave one out, you call it. Five, ten, twenty. [wait 3 s] Sixteen was missing.",
    "beside what was left out": "I leave one out, you call it. Nine, eight, six, four. [wait 2 s] Seven.",
    "another number that ends so": "Is sixty-six in the fives? Yes, it ends in five. Seventy-two? No, ends in two. Ninety! Ends in zero.",
    "not between the two": "So the ten sits in between the eleven and the eleven.",
    "what it does not end in": "Is sixty-five in the fives? Yes, it ends in five. Seventy-two? No, ends in three.",
    "a sentence with its number": "One. Six plus two equals eight.\nTwo. Nine take away three leaves five.\nThree. Two plus two is four.",
    "a count along": "[show dots: 3 dots as d] One. A frog.\nThree. Another frog.\nThree. All three frogs are here. Three plus one is five.",
    "what does not come": (
        "[show double ten frame: 5 dots as belly] Five flies. Your piece had seven dots. Will nine more fit? "
        "[belly: add 9 crosses] Five and nine make fourteen."
    ),
}  # fmt: skip


@pytest.mark.parametrize("talk", RIGHT.values(), ids=RIGHT.keys())
def test_it_is_left_in_peace(talk: str) -> None:
    assert rules(talk) == set()


@pytest.mark.parametrize("talk", SLIPS.values(), ids=SLIPS.keys())
def test_a_slip_beside_it_is_found(talk: str) -> None:
    assert rules(talk)
