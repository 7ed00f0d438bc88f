"""More manners of talk: what is right is left in peace, and the same text with one wrong number is found."""

from __future__ import annotations

import pytest

from studio.agree import check
from studio.script.reader import read
from tests.agree.minded import rules

# (text, what is right in it, what is wrong instead, the rule that finds it)
ALARMS = [
    # the whole is plain from the part and what is answered
    ("[show bar: 53 is 18 and ? as logs]\nEighteen logs have gone! How many held? [wait 6 s]\n[logs: fill in] Thirty-five logs held.", "53 is 18", "54 is 18",
     "shown number is said"),
    # how many came off is asked after the count
    ("[show dots: 12 as worms]\nTwelve worms. Take some off until nine stay. [worms: take away 3, counting] Eleven, ten, nine. Stop there. How many "
     "came off? Three.", "off? Three.", "off? Seven.", "how many as shown"),
    # nothing lies on the second wire yet, and one is no second row
    ("[show rekenrek: 5 as wire]\nA newt pushed five beads over in one go.\n[wire: add 2 dots, counting]\nSix. Seven.\nFive and two is seven.",
     "[show rekenrek: 5 as wire]", "[show rekenrek: 5 and 3 as wire]", "pair as told"),
    # the second sum goes on from the first
    ("[show double ten frame: 17 dots]\nSeventeen snails. Ten and five is fifteen and two is seventeen.", "and two is", "and three is", "true arithmetic"),
    # further back is less
    ("[show number line: 30 to 50, mark 43 as reeds]\nThe otter is at 43 and swims back. [reeds: hop 43 to 40] Three steps is 40, [reeds: hop 40 to 36] "
     "four more is 36.", "four more is 36", "five more is 36", "more and less fit"),
    # a picture at the end of a segment comes on with the words of the next
    ("Here is the wire.\n\n[show rekenrek: 7 and 6 as wire]\n# Two rows of beads\n\nLook up. The frog pushed seven beads on the top wire. On the lower "
     "one, six.", "lower one, six.", "lower one, nine.", "shown number is said"),
    # groups are told first, then the end of the count
    ("[show tally: 20 as t]\nHow many herons did the toad see? [t: count by 5]\nFive, ten, fifteen, twenty.\nThere are four gates. Twenty herons.",
     "four gates", "six gates", "count starts and ends right"),
    # turned around on purpose
    ("[show text: Turn it around?]\nIs seven take away three the same as three take away seven? Try it with buttons. Tell a friend what you find.",
     "three take away seven?", "three take away eight?", "what is asked can be"),
    # a time of the day is nothing that is told
    ("[show text: The shelf]\nThe otter had nine cups on a shelf. At four in the morning two cups broke. How many cups does the otter have now? [wait 6 s] "
     "Seven cups.", "Seven cups.", "Six cups.", "answer fits story"),
    ("[show base ten: 50 as shelf]\nThere were fifty cups.\n\n# Her news\n\nThe shelf fell down at four in the morning and eight cups cracked. How many cups are "
     "whole? [wait 6 s] Fifty take away eight equals forty-two.", "equals forty-two", "equals forty-three", "true arithmetic"),
    # what follows from it is a claim of its own
    ("[show hundred chart: 1 to 60, mark 24 as chart]\nThe marker is on 24. Move down one row. You are on 34. Down again. 44. Each move adds 10. Two moves add 20. "
     "Which means 24 and 20 makes 44. From 44 move up one row and you are back at 34.",
     "makes 44", "makes 46", "true arithmetic"),
    # where one stands was told before it was asked how far it is
    ("[show dots: 30 dots as pads]\nLook at these lily pads. They come in rows of five. [pads: count by 5] Five, ten, fifteen, twenty, twenty-five, thirty.\n\n"
     "# Walk\n\n[clear]\n[show number line: 0 to 30 as walk]\nListen. A turtle has walked to eighteen. She wants to get to twenty-five. How many steps is that? Use "
     "your chart. [wait 9 s] Tell me. Seven. Show me how. \"Two steps to twenty, and five steps to twenty-five.\" [walk: hop 18 to 20] Here are your two steps. "
     "[walk: hop 20 to 25] Here are your five. Two and five make seven.\n[clear]\n[show number sentence: 18 + ? = 25 as sum]\nWrite this. Fill it in. [wait 6 s] [sum: "
     "fill in 7] Seven. Eighteen plus seven equals twenty-five.", "hop 18 to 20", "hop 15 to 20", "shown number is said"),
    # she waits between the sign and the number
    ("[show text: Newts]\nAll of you at the pond: four plus... two equals six!", "two equals", "three equals",
     "true arithmetic"),
    # what is to be done with the numbers is no result
    ("[show text: Snails]\nEight and five: give two from the five to the eight, it becomes ten and three.",
     "five: give two from the five to the eight, it becomes ten and three", "five gives fourteen", "true arithmetic"),
    ("[show text: Snails]\nSeven and six, that's double six and one over.", "one over", "two over", "true arithmetic"),
    # added up one after the other
    ("[show text: Otters]\nFour shells, two stones and one leaf. That's four and two, six, and with the leaf, seven.",
     "two, six", "two, eight", "true arithmetic"),
    # how many shares are told between the whole and its shares
    ("[show text: Ducks]\nThe ducks share fairly. Six snails shared in two is three and three.", "three and three",
     "three and four", "true arithmetic"),
    ("[show text: Beavers]\nHow many logs? Every raft's a five and four fives make twenty.", "make twenty",
     "make thirty", "true arithmetic"),
    # numbers by their tens
    ("[show text: Herons]\nWho is next in the line of herons? With three tens there is only thirty-six.",
     "only thirty-six", "only forty-six", "true arithmetic"),
    # two sides are told one after the other
    ("[show text: Scales]\nLeft, 5 plus 3. Right, 9. Is it level? No.", "plus 3. Right", "plus 3 makes 7. Right",
     "true arithmetic"),
    ("[show text: Scales]\nIf you glue them you'd be claiming two plus three is the same as nine, and that's "
     "rubbish.", "as nine", "as five", "true arithmetic"),
    ("[show number line: 20 to 60, mark 43 as reeds]\nThe pike claims that forty-three minus fifteen is thirty-two. "
     "Let us swim it honestly.\n[reeds: hop 43 to 33]\nThirty-three.\n[reeds: hop 33 to 28]\nTwenty-eight. The pike "
     "swims off.", "Thirty-three.\n[reeds: hop 33 to 28]\nTwenty-eight. The", "Thirty-three. The", "true arithmetic"),
    # a claim that is only wondered at
    ("[show text: Tens]\nA hundred take away forty is seventy. True? Think of tens.", "True? Think", "Think", "true arithmetic"),
    ("[show text: Sums]\nThe newt wrote that 6 + 7 is 14. Hmm. Look again.", "Hmm. Look", "Look", "true arithmetic"),
    ("[show text: Sums]\nThe newt wrote that 6 + 7 is 14. True? It is not so.", "It is not", "Yes! It is", "true arithmetic"),
    # what is announced as false, voted down or put right
    ("[show text: Sums]\nHere's a false one: 2 + 2 = 5. And here's a true one: 2 + 3 = 5.", "a false", "a new", "true arithmetic"),
    ("[show text: Sums]\nOne of these is a fib. Six and one is seven. Two and two is five. Did you catch it? Two and two "
     "is four.", "a fib", "a sum", "true arithmetic"),
    ("[show text: Sums]\nFour plus one equals five plus two. [wait 3 s] Thumbs down!", "Thumbs down", "Thumbs up", "true arithmetic"),
    ("[show text: Sums]\nFrog wrote 3 + 4 = 8. Can you help Frog? It should be 3 + 4 = 7.", "should be", "is", "true arithmetic"),
    # where the hop ends
    ("[show number line: 30 to 80, mark 64 as reeds]\nThe newt is on sixty-four.\n\nHow does the newt swim? Two "
     "long strokes and four short ones.\n[reeds: hop 64 to 54]\nFifty-four.", "hop 64 to 54]\nFifty-four",
     "hop 64 to 54]\nFifty-two", "true arithmetic"),
    ("[show number line: 30 to 80, mark 70 as reeds]\nThe newt is on seventy, between the reeds.\n[reeds: hop 70 to "
     "60]\nSixty.\n[reeds: hop 60 to 50]\nFifty.\n[reeds: hop 50 to 40]\nForty. That makes thirty gone.",
     "thirty gone", "sixty gone", "count starts and ends right"),
    ("[show number line: 0 to 30, mark 20 as reeds]\n[reeds: hop 20 to 15] Fifteen. [reeds: hop 15 to 10] Ten. How "
     "far has the newt come? From twenty to ten, that's two strides.", "two strides", "three strides",
     "true arithmetic"),
    # of what it takes to make a ten
    ("[show text: Frogs]\nEvery ten was hit by a five as well, because it takes two fives to make a ten.", "two fives",
     "three fives", "true arithmetic"),
    # questions with another sense
    ("[show text: Frogs]\nWhen we count back, what do we say right after six? [wait 3 s] Five.", "Five.", "Four.",
     "answer fits question"),
    ("[show dots: 9 as frogs]\nNine frogs in pairs. Say the big partner last. What goes before five? [wait 3 s] "
     "Four. Four and five.", "Four. Four and five", "Two. Two and five", "answer fits question"),
    ("[show text: Frogs]\nWhat comes after eighteen, counting by twos? [wait 3 s] Twenty.", ", counting by twos", "",
     "answer fits question"),
    # a row that is no count
    ("[show text: Frogs]\nCount the hops. From ten to fourteen is a four, four and three, seven.", "three, seven",
     "three, eight", "count goes on"),
    ("[show hundred chart: 1 to 30 as chart]\nLook at the last digits of the twos. Two, four, six, eight, zero.",
     "Two, four, six, eight, zero", "Two, four, seven, eight", "count goes on"),
    ("[show base ten: 14 as fish]\nFourteen is a ten and four. Three must go from the four, [fish: take away 3, "
     "counting] thirteen, twelve, eleven.", "from the four,", "from the six,", "count goes on"),
    ("[show double ten frame: 13 dots as pads]\nHop, hop. 13 lily pads. Wind takes 5. [pads: take away 5] 13, 10, "
     "8. 8 float.", "13, 10, 8. 8", "13, 11, 8. 8", "count goes on"),
    # something else is looked at after the count
    ("[show hundred chart: 1 to 20 as chart]\n[chart: count by 2]\n2, 4, 6, 8, 10, 12, 14, 16, 18, 20.\n\n[chart: "
     "circle 15]\n15. Did the frog land there? No.", "circle 15]\n15", "circle 15]\n17", "count starts and ends right"),
    ("[show tally: 20 as t]\nSo many ducks! By fives now. [t: count by 5] Five, ten, fifteen, twenty. So four fives.",
     "four fives", "six fives", "groups as counted"),
    # the number to start from is told, and then what it comes to
    ("[show number path: 0 to 20, mark 14 as path]\nFourteen has a mark.\n\n# Last two\n\nSixteen, one less. [wait "
     "3 s] Fifteen. Ten, one more. [wait 3 s] Eleven.", "3 s] Fifteen", "3 s] Thirteen", "more and less fit"),
    ("[show number sentence: 10 + 4 + 3 = 17 as report]\nTen, four more, three more. That's my seventeen.",
     "my seventeen", "my nineteen", "more and less fit"),
]  # fmt: skip

# manners in which a slip was not seen
MISSES = [
    # partners are said in turns
    ("[show text: Partners]\nPartners of ten first. I say nine, you say one. I say six, you say four. I say three, you say seven.", "you say four",
     "you say five", "true arithmetic"),
    ("[show text: Partners]\nToday's partners make six. Watch my paws. I show five. You show... one! I show four. You show two. I show three. Hmm, you show three as "
     "well.", "I show four", "I show one", "true arithmetic"),
    # nobody names what they come to
    ("[show text: Catch]\nReady? I throw a 5, you throw back a 2. I throw a 4, you throw back a 3. I throw a 6, you throw back a 1.", "back a 3", "back a 8",
     "true arithmetic"),
    # only the numbers are said
    ("[show text: Partners]\nI say a number, you say its partner to make 8. Ready? Five. [wait 2 s] Three! Six. [wait 2 s] Two! Four. [wait 2 s] Four again! Very quick.",
     "Two!", "Seven!", "true arithmetic"),
    ("[show text: Partners]\nClap its partner to ten. Nine and... one. Five and... five. Seven and... three.", "... three", "... two", "true arithmetic"),
    # a sum that is asked for
    ("[show text: Doubles]\nDoubles, please. What about 3 and 3? That's 6. 5 and 5? 10. 8 and 8? Also 16.", "5 and 5?", "5 and 4?", "true arithmetic"),
    # what is taken away, and what one has
    ("[show text: Snails]\nI take away ten from forty-eight, and I have thirty-eight. Then I take away five from thirty-eight, and I have thirty-three.",
     "have thirty-three", "have thirty-one", "true arithmetic"),
    # steps and neighbours without the number that they start from
    ("[show number line: 0 to 10, mark 5 as line]\nOn the line, five is in the middle. One step back is four. One step on is six.", "back is four", "back is two",
     "more and less fit"),
    ("[show number path: 0 to 12 as path]\nWhere is the ten of the snail? [path: mark 10] Here it is, ten. One before it is nine. One after it is eleven.", "is nine", "is seven",
     "more and less fit"),
    ("[show number line: 0 to 50, mark 15 as reeds]\nThe newt is on fifteen and wants to get to forty. Up five to twenty. Up twenty to forty.", "Up five", "Up nine",
     "more and less fit"),
]  # fmt: skip
LEFT_IN_PEACE = [
    # a count of one step
    "[show compare bars: 14 and 13 as bars]\nThere are fourteen otters on the pond. There are thirteen frogs on the pond. How many more otters than frogs are "
    "there? [wait 6 s]\n\n[show number sentence: 13 + ? = 14 as sum]\nLet us count on from thirteen to fourteen. Thirteen. Fourteen.\n[sum: fill in 1]\nThirteen "
    "plus one equals fourteen. There is one more otter than frogs.",
    # what both of them have
    "[show more and less: 90]\n90. One more? 91. One less? 89. Which of the three has the most tens? 90 and 91, they have 9 tens.",
    # other games in turns
    "[show text: One more]\nPartners of ten were yesterday. Today it is one more. I say five, you say six. I say eight, you say nine. I say three, you say four.",
    "[show text: Doubles]\nWe made ten. Now doubles. I say five, you say ten. I say three, you say six. I say four, you say eight.",
    # other questions about two numbers
    "[show text: Bigger]\nPoint to the greater number. 9 and 12? 12. 17 and 14? 17.",
    "[show text: Apart]\nHow far apart are they? Nine and twelve? Three. Six and eight? Two.",
    # steps of ten
    "[show hundred chart: 1 to 60, mark 40 as chart]\nWe step by tens from forty. One step back is thirty. One step on is fifty.",
    # what a number lacks is no sum
    "[show text: Ten]\nI see a 7 in the reeds... and what's a 7 always looking for? A 3!",
    # from here to there
    "[show number path: 0 to 10 as path]\nThe frog is on ten. Down ten to zero, all the way. [path: hop 10 to 0]",
]  # fmt: skip


@pytest.mark.parametrize("text", LEFT_IN_PEACE)
def test_other_manners_are_left_in_peace(text: str) -> None:
    assert (
        rules(text) & {"true arithmetic", "more and less fit", "answer fits question", "number fits its place"} == set()
    )


@pytest.mark.parametrize(("text", "right", "wrong", "rule"), ALARMS + MISSES)
def test_manner_is_left_in_peace_and_the_wrong_number_found(text: str, right: str, wrong: str, rule: str) -> None:
    assert right in text
    assert rules(text) == set()
    assert rule in rules(text.replace(right, wrong, 1))


@pytest.mark.parametrize("before", ["", "Hello, frogs. "])
def test_a_question_is_answered_rightly_at_the_very_beginning_too(before: str) -> None:
    for right, wrong in (
        ("Three and five? Eight.", "Three and five? Nine."),
        ("What is ten? Six and four.", "What is ten? Six and five."),
    ):
        assert "true arithmetic" not in rules(before + right)
        assert "true arithmetic" in rules(before + wrong)


def test_a_row_that_begins_behind_a_question_is_no_answer_to_it() -> None:
    assert "true arithmetic" not in rules("Take eight steps, or three and five? [wait 8 s] Thirteen, ten, five.")


def test_what_goes_on_from_a_slip_and_is_right_is_left_alone() -> None:
    for more, many in ((13, 1), (14, 2)):
        found = check(read(f"---\ntitle: Pond\n---\nOne less than 12 is 10. One more is {more}.\n")).errors
        assert len(found) == many
