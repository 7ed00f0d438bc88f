"""What the smaller rules promise: each says nothing of right talk, and finds the one number that is wrong."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

RIGHT_AND_WRONG = [
    # relative: the number that more and less start from is there
    ("[show more and less: 45 as near]\n45. [near: fill in 46] 46 is 1 more.", "46 is 1 more", "46 is 2 more", "more and less fit"),
    ("[show base ten: 38]\n38. What is 10 less? [wait 4 s] 28.", "28", "29", "more and less fit"),
    ("[show number path: 10 to 20, mark 14]\nHere is fourteen. One less? Take one step back. [wait 3 s] Thirteen. One more? One step on. [wait 3 s] "
     "Fifteen.", "Thirteen.", "Sixteen.", "more and less fit"),
    # ring_said
    ("[show number sentence: 7 + ? = 9 as line]\nSeven plus what equals nine? [wait 4 s] Two. [line: fill in] "
     "[line: circle 2] The two gets a ring, for we did not know it.", "The two gets", "The nine gets", "ring as said"),
    # the whole is ringed, and said to be, before the ring comes
    ("[show number bond: 20 is 10 and ? as bond]\nTwenty is ten and what? [bond: fill in] Ten. And the whole, ring that, it's twenty. [bond: circle 20]\n"
     "Ten geese stayed.", "And the whole, ring that, it's twenty.", "And the part, ring that, it's ten.", "ring round what was found"),
    # one card of several is ringed and told, the others are only there
    ("[show tally: 14] Fourteen sticks, two bundles and four. [clear] [show cards: 3, 14, 17 as hand] In the row of cards, the middle card is our "
     "answer. [hand: circle 14]", "3, 14, 17 as hand", "3, 15, 17 as hand", "picture can show that"),
    # found_said
    ("[show number bond: 9 is 7 and ? as bond]\nNine is seven and what? [wait 4 s]\n[bond: fill in 2]\nTwo!", "Two!",
     "Three!", "filled in as said"),
    # ways: one number in several ways
    ("[show double ten frame: 14 dots]\nHere is fourteen. [clear] [show tally: 14] Fourteen again. [clear] "
     "[show base ten: 14] This is how it looks with lines. [clear] [show word: fourteen] And here is its name. "
     "It is long. It has many letters.", "[show word: fourteen]", "[show word: sixteen]", "the same number each time"),
    # between
    ("[show number path: 0 to 10, mark 9]\nNine lives between eight and ten.", "Nine lives", "Seven lives", "true arithmetic"),
    # partner questions: the whole was named
    ("[show ten frame: 7 dots]\nPartners of ten. Seven and? [wait 2 s] Three.", "Three.", "Two.", "true arithmetic"),
    ("[show text: What is missing?]\nI say a number, you say what it needs to make ten. Nine? One! Two? Eight!", "Eight!",
     "Seven!", "true arithmetic"),
    # a question whose answer would be no, and nobody says no
    ("[show number sentence: 5 + 2 = 2 + 5]\nIs five plus two the same as two plus five? [wait 4 s] Thumbs up!",
     "two plus five?", "two plus six?", "what is asked can be"),
    # a story, and the bond that is shown for it
    ("[show dots: 7 dots]\nSeven frogs sat on a log. Some more frogs came. Now there are nine frogs on the log. How many "
     "frogs came? [wait 5 s] [clear] [show number bond: 9 is 7 and ? as bond] [bond: fill in 2] Two.",
     "[show dots: 7 dots]\nSeven frogs sat", "[show dots: 5 dots]\nFive frogs sat", "bond fits story"),
    # so many things with so much each
    ("[show dice: 5 and 5 and 5 and 5 as dice]\nFour dice with five dots each make twenty dots.", "twenty dots",
     "nineteen dots", "true arithmetic"),
    # three more come down
    ("[show ten frame: 4 dots as log]\nFour ducks sat on a log. Then three more ducks flew down and sat on it too. How many "
     "ducks are on the log now? [wait 4 s] [log: add 3 crosses, counting] Five, six, seven.", "Then three more",
     "Then nine more", "drawing fits story"),
    # one card of several is asked for
    ("[show cards: 1, 4, 6 as cards]\nWhich card is our number today? [wait 3 s] [cards: circle 4] Four!", "1, 4, 6",
     "1, 5, 6", "picture can show that"),
    # two bars and the two numbers told with them ("one" was said before)
    ("[show text: Who?]\nOnly one can win. Look!\n\nWho has more? [show compare bars: 11 and 8]\n11 is more than 8. By how many? "
     "[wait 5 s] Count on from 8. 9, 10, 11. That's 3 more.", "bars: 11 and 8", "bars: 1 and 8", "pair as told"),
    # an amount and its result in few words
    ("[show double ten frame: 14 dots]\nTen and four. Fourteen.", "Ten and four", "Ten and five", "true arithmetic"),
    # the other part, of a part that is only supposed
    ("[show number bond: 11 is 8 and ? as bond]\nEleven is eight and what? [bond: fill in 3] Three. If one part were five, what would the other be? "
     "Then the other part is six.", "part is six", "part is seven", "said as shown"),
    # where nobody needs to begin
    ("[show number path: 0 to 20, mark 12 as path]\nWe need not start at one. Start at twelve, and hop on. [path: hop 12 to 15, counting] Thirteen, "
     "fourteen, fifteen.", "Start at twelve", "Start at ten", "gets where it is to go"),
    # parts in a row are no whole
    ("[show dice: 2 and 6 and 4]\n[show number bond: 12 is 2 and 6 and 4]\nThe whole is twelve, and we see the parts two, six, and four.",
     "whole is twelve", "whole is thirteen", "said as shown"),
    # "and" between two sayings
    ("[show base ten: 39]\n39. There are 9 ones and 6 is less than 9.", "and 6 is", "and 10 is", "true arithmetic"),
    # a ten that is opened
    ("[show base ten: 44]\nForty-four. We open a ten and have three tens and fourteen ones.", "three tens", "two tens", "said as shown"),
    # one more of them
    ("[show base ten: 30]\nNine ones and one more one is ten ones. That is thirty.", "is ten ones", "is eleven ones", "true arithmetic"),
    # what is missing from a frame
    ("[show ten frame: 7 dots as bank]\nWhat is missing? [wait 2 s] Three!\n[clear]\n[show ten frame: 5 dots]\nFive frogs.", "7 dots", "8 dots", "shown number is said"),
    # a full frame and what is in the next
    ("[show double ten frame: 13 dots as f]\nFrogs everywhere. I see one full frame, and three dots in the other.", "three dots", "four dots", "shown number is said"),
    # a number that is asked about, and not the one on the screen
    ("[show base ten: 25]\nTwenty-five. What would fifty-two have instead? Five tens and two ones.", "Five tens", "Six tens", "said as shown"),
    # so many nests, with so many in each
    ("[show tally: 30 as eggs]\nThirty eggs lie there, five in a nest. [eggs: count by 5] Five, ten, fifteen, twenty, twenty-five, thirty. Six nests.", "Six nests", "Seven nests",
     "count starts and ends right"),
    # what is left is not on the screen yet
    ("[show base ten: 50]\n50 snails, and 7 creep away. That leaves 4 tens and 3 ones. [show number sentence: 50 - 7 = 43] 50 minus 7 equals 43.", "and 3 ones",
     "and 4 ones", "said as shown"),
    # four tens are forty
    ("[show base ten: 27]\nHow many more ones until we have three tens? Three, because 27 plus 3 is 30.", "have three tens", "have four tens", "gets where it is to go"),
    # nothing is there yet
    ("[show tally: 0 as marks]\nI put a mark for every newt. [marks: add 3, counting] One, two, three.", "tally: 0", "tally: 1", "count fits picture"),
    # the stops of the hops
    ("[show number line: 0 to 20, mark 12 as line]\nThirteen. [line: hop 13 to 10, counting] Twelve, eleven, ten. [line: hop 10 to 8, counting] Nine, eight. Count the stops: "
     "thirteen, ten, eight.", "thirteen, ten, eight", "thirteen, ten, nine", "count goes on"),
    # by how much two numbers differ
    ("[show base ten: 13]\nThirteen ducklings. [clear] [show base ten: 31]\nAnd thirty-one. It has two sticks more, and two cubes less.", "two cubes less", "three cubes less",
     "said as shown"),
    # a row that dots and crosses share
    ("[show ten frame: 8 dots and 1 cross]\nEight dots, one cross. The bottom row has 3 dots and then 1 cross.", "has 3 dots", "has 2 dots", "said as shown"),
    ("[show double ten frame: 9 dots and 4 crosses]\nNine and four. So the four crosses are split: one and three. In all there are thirteen.", "one and three", "one and two",
     "true arithmetic"),
    # a count goes on from what is there
    ("[show dots: 10 dots as field]\nWhat if one more row came? [field: add 5 crosses, counting] 11, 12, 13, 14, 15.", "What if one more row came", "What if 9 ducks came",
     "shown number is said"),
    ("[show number path: 0 to 10, mark 4 as path]\nHome they go. [path: hop 4 to 6, counting] Five, six.", "mark 4", "mark 3", "shown number is said"),
    # she had some before
    ("[show compare bars: 9 and 5]\nNine is four more than five.\n\n# Fair\n\n[clear] [show rekenrek: 8 and 6]\nThe otter gives a shell away. She has one less, so eight. The frog has six.",
     "so eight.", "so three.", "more and less fit"),
    # a card is missing on purpose
    ("[show cards: 3, 6, 9, 15, 18 as cards]\nThree, six, nine, and then? A duck took one away. It was the twelve!", "9, 15, 18", "9, 15, 17", "shown number is said"),
    # what is between
    ("[show number path: 0 to 10]\nBetween two and five there are three and four.", "three and four", "three and six", "true arithmetic"),
    # a count that stops and is taken up again
    ("[show dots: 6 dots as flies]\nSix, I think. [flies: count] One, two, three, and a frog croaks. Where was I? I said three. So now comes four! Four, five, "
     "six.", "four! Four, five", "four! Four, seven", "count fits picture"),
    # the count is over, and its last number has a neighbor
    ("[show number path: 0 to 10, mark 4 as path]\nThe newt sits on four. [path: hop 4 to 5, counting] Five! And beside five, further on, is six. Four, five, "
     "six, they lie in a row.", "Five! And beside five, further on, is six.", "Five, six.", "count fits picture"),
    # a number told by its digits
    ("[show hundred chart: 1 to 60, mark 34 as chart]\nOne square down. The 4 stays and the 3 turns into a 4. [chart: circle 44] 44, it did.", "The 4 stays", "The 5 stays",
     "shown number is said"),
    # a double, told with both its numbers, and one less than it
    ("[show rekenrek: 7 and 6]\nSeven on top and six below. From the double seven and seven, one bead went back. Fourteen, one less, thirteen.", "Fourteen, one less",
     "Eighteen, one less", "more and less fit"),
    ("[show rekenrek: 7 and 7]\nSeven and seven. The double seven and seven is fourteen.", "is fourteen", "is sixteen", "true arithmetic"),
    # claimed, tested and taken back
    ("[show double ten frame: 16 dots as f]\nA toad claims that sixteen is five away from twenty. We test it. Four boxes are empty. It is four away, not five.",
     "not five", "not six", "true arithmetic"),
    # the rows of a frame that is named
    ("[show double ten frame: 18 dots as f]\nEighteen. The second frame has five dots on top and three below.", "three below", "four below", "said as shown"),
    # dots that are about to go
    ("[show ten frame: 10 dots as leaf]\nA full frame. Two dots go. Which boxes will be free? [wait 3 s] Look. [leaf: take away 2, counting] Nine, eight.",
     "Two dots go", "Four dots go", "said as shown"),
    # a row of cards told by its ends and its gap
    ("[show cards: 0, 1, 2, 3, 4, 5, 7, 8, 9, 10 as row]\nOur cards go from zero to ten. How many should it be? Eleven. A heron took one. What is gone? It is the six, between "
     "five and seven.", "It is the six", "It is the four", "shown number is said"),
    # any newt has four spots, and so many newts come
    ("[show number sentence: 4 + 4 + 4 = ? as fins]\nA newt has 4 spots. Three newts swim to my pad. How many spots? [wait 4 s] 4 and 4 is 8. 8 and 4 is [fins: fill in] 12.",
     "4 + 4 + 4 = ?", "4 + 4 + 5 = ?", "sentence fits story"),
    # what lies beside the tens
    ("[show base ten: 34]\nThree tens make thirty. And beside the thirty there are four ones. So that makes thirty-four.", "makes thirty-four", "makes thirty-five",
     "true arithmetic"),
    # what two numbers both have
    ("[show hundred chart: 1 to 20, mark 16 as chart]\nSixteen. One row up is six. Sixteen and six, they both have a six.", "both have a six", "both have a seven",
     "true arithmetic"),
    ("[show hundred chart: 1 to 20, mark 14 as chart]\nFourteen. One row up is four. Fourteen and four, they have a four in common.", "a four in", "a six in",
     "true arithmetic"),
    # the number of a picture that has changed
    ("[show base ten: 13 as logs]\nToday's number is 13. It has 1 ten and 3 ones. Add 5 ones. [logs: add 5] Now there are 8 ones. So the number is 18.", "number is 18", "number is 19",
     "number of the day"),
    # somebody says it, and it is not true
    ("[show number sentence: 36 - 10 = 26]\nThirty-six take away ten is twenty-six. So if a toad says twenty-six and ten makes forty-six, that is not true.",
     "forty-six, that", "thirty-six, that", "true arithmetic"),
    # cards around a gap, read aloud
    ("[show cards: 4, 5, 6, 8, 9 as row]\nA crab stole one. Read with me. Four, five, six, and then eight. Stop! After six comes seven. So seven was stolen. And nine is right.",
     "Four, five, six, and", "Four, five, seven, and", "count goes on"),
    # a card is called "the one"
    ("[show cards: 3, 6, 9, 12 as row]\nThree, six, nine, twelve. [row: turn over 9] Which did I turn over? The one between six and twelve. [wait 3 s] It was the nine.",
     "The one between", "Two is between", "true arithmetic"),
    # an unknown
    ("[show number sentence: 9 + 5 = 10 + ? as eq]\nNine plus five equals ten plus an unknown. What would you do? [wait 4 s] The unknown is four. [eq: fill in] Four.",
     "unknown is four", "unknown is three", "answer fits question"),
    # where a hop ends, where it began, and how long it is
    ("[show number path: 0 to 10 as path]\nOff hops the frog. [path: hop 6 to 8, counting] Seven, eight. We end on eight.", "end on eight", "end on zero", "lands where the hop ends"),
    ("[show number path: 0 to 10, mark 8 as path]\nBack, little snail. [path: hop 8 to 4, counting] Seven. Six. Five. Four. Rest, snail, rest. And now snail is on four.",
     "snail is on four", "snail is on nine", "lands where the hop ends"),
    ("[show number line: 0 to 20 as line]\nBig leaps from three! [line: hop 3 to 12] That brings us to twelve, with a splash.", "us to twelve", "us to nineteen", "lands where the hop ends"),
    ("[show number path: 0 to 10, mark 5 as path]\nThe toad sets off. [path: hop 5 to 9, counting] Six, seven, eight, nine. Where is the toad? On nine.", "On nine.", "On two.",
     "lands where the hop ends"),
    ("[show number line: 10 to 30 as line]\nWatch the heron. [line: hop 20 to 30] It went from 20 to 30.", "from 20 to", "from 6 to", "lands where the hop ends"),
    ("[show number path: 0 to 10, mark 8 as path]\nBack, little snail. [path: hop 8 to 4, counting] Seven. Six. Five. Four. Four stones back, dear snail.", "Four stones",
     "Nine stones", "as many steps as hopped"),
    ("[show number path: 0 to 10, mark 9 as path]\nThe otter hops back 2 stones. Where is his hat? [path: hop 9 to 7, counting] 8, 7.", "back 2 stones", "back 8 stones",
     "as many steps as hopped"),
    ("[show number line: 0 to 20, mark 8 as line]\nEight. [line: hop 8 to 13] Two hops took us to ten, and three hops took us to thirteen.", "three hops", "six hops",
     "as many steps as hopped"),
    # what was counted, told in a sentence that goes on or after a question
    ("[show double ten frame: 9 dots as net]\nThe newts go on scoring. [net: add 5 crosses, counting] Ten, eleven, twelve, thirteen, fourteen! Fourteen goals, and listen to the frogs cheer!",
     "Fourteen goals", "Six goals", "count starts and ends right"),
    ("[show double ten frame: 6 dots as raft]\nMore come. [raft: add 7 crosses, counting] Seven, eight, nine, ten, eleven, twelve, thirteen. How many logs have we got? Thirteen logs.",
     "Thirteen logs", "Three logs", "count starts and ends right"),
    # by their tens and their ones
    ("[show number sentence: 23 + 14 = 37 as whole]\nCan 37 be right? 20 and 10 make 30. And the ones, 3 and 4, do not make a ten.", "3 and 4", "3 and 5",
     "shown number is said"),
    # tens for themselves, ones for themselves
    ("[show base ten: 37]\nThirty-seven. See where they came from: 2 tens and 1 ten make 3 tens, and 3 ones and 4 ones make 7 ones.", "and 4 ones", "and 5 ones",
     "true arithmetic"),
    # where one did not land
    ("[show number path: 0 to 10, mark 4 as path]\nThe duck is on four. [path: hop 4 to 7, counting] Five, six, seven. Did we land on eight? No, we landed "
     "on seven.", "landed on seven", "landed on nine",
     "lands where the hop ends"),
    # ones of which a ten was made
    ("[show base ten: 32]\nTwenty-seven and five make thirty-two. Where did the third line come from? The seven ones and three of the five made a new ten.", "seven ones", "six ones",
     "said as shown"),
    # what was left of the beads
    ("[show rekenrek: 10 and 7]\nTen on top, seven below. Seventeen. How many beads did I leave? Three on the bottom row.", "Three on", "Four on",
     "said as shown"),
    # half of it, each of them
    ("[show number bond: 12 is 6 and 6]\nTwelve flies for two toads. Six and six. That is half of twelve.", "half of twelve", "half of fourteen",
     "true arithmetic"),
    # a picture comes on after a count, and is named
    ("[show more and less: 11 as near]\nEleven. One less? Ten. One more? Twelve. [near: fill in] 10, 11, 12. [clear] [show word: eleven] Eleven. No teen at "
     "its end.", "Eleven. No teen", "Nine. No teen",
     "count starts and ends right"),
    # by tens, and then one
    ("[show base ten: 51]\nFifty-one. Count the tens with me, ten, twenty, thirty, forty, fifty. And fifty-one.", "And fifty-one", "And fifty-four",
     "count starts and ends right"),
    # the same difference, asked from the other side
    ("[show compare bars: 9 and 6]\nThe otter caught nine fish. The heron caught six. How many more has the otter? Match them up, and three fish of the "
     "otter's have no partner. Three more. And how many fewer has the heron? Three fewer.", "and three fish", "and four fish",
     "answer fits story"),
    # a pair of three parts is ringed before they are added
    ("[show number sentence: 7 + 5 + 3 = ? as s]\nSeven shells are in the blue bowl. Five shells are in the red bowl. Three shells are in "
     "the green bowl. How many shells are there in all?\nWhich two make ten? [s: circle 7] Seven, [s: circle 3] and three. Ten. Ten and five. "
     "[s: fill in 15] Fifteen shells.", "Fifteen shells.", "Sixteen shells.", "filled in as said"),
    # cards are read aloud, and one does not belong
    ("[show cards: 2, 4, 7, 8 as table]\nTwo, four, seven, eight. Who does not belong? I say seven. Two, four and eight are numbers we say "
     "when we count by twos. [table: circle 7] Seven is out.", "Two, four, seven", "Two, four, nine", "count goes on"),
    # three sums, and then three answers
    ("[show text: Odd one out]\nThree and five. Nine take away one. Four and three. [wait 5 s: Which is out?]\nEight. Eight. Seven. Three and "
     "five is eight, four and three is seven.", "three is seven", "three is eight", "true arithmetic"),
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


@pytest.mark.parametrize(
    "text",
    [
        # a claim that is asked about and denied
        "[show number sentence: 4 + 1 = 5 + 2]\nIs four plus one equal to five plus two? [wait 5 s] No! Four plus one is "
        "five, and five plus two is seven.",
        "[show number sentence: 9 + 4 = 12]\nIt is claimed that nine plus four equals twelve. Nine plus four equals thirteen, "
        "and it does not equal twelve. The claim is false.",
        # several sayings parted by pauses
        "[show text: What we found]\nSeven is three and four, thirteen is one ten and three ones, and twelve minus four is eight.",
        # a line that is worth ten, a frame that is full
        "[show base ten: 15]\nOne line is one ten, and there are five little ones. Fifteen.",
        # things with numbers are no arithmetic
        "[show ten frame: 6 dots]\nLot one! Six frogs. Lot two! Six again.",
        # a wrong guess
        "[show dots: 8 dots]\nHow many are there? Is it nine? No. Eight.",
        # what is left over after a count by fives
        "[show tally: 16]\nEvery bundle is five. Five, ten, fifteen, and one more makes sixteen.",
        "[show tally: 11]\nFive, ten, and then eleven. So that's two bundles of five and a single mark.",
        # a title that names a step, a title that names a part
        "Good morning.\n\n# One more, one less\n\n[show more and less: 14 as near]\nOur number is fourteen. One more is fifteen. One less is thirteen.",
        "Good morning.\n\n# Zero in a bond\n\n[show number bond: 10 is 10 and ? as bond]\nTen is the whole. [bond: fill in 0] Zero! Ten and zero make ten.",
        # crosses in one of two frames
        "[show double ten frame: 9 dots and 5 crosses]\nNine and five. One cross filled the first frame. Four crosses are in the second frame. Fourteen.",
        # two of three parts
        "[show number bond: 10 is 2 and 3 and ? as bond]\nThe whole is ten. The first part is two, the second part is three. [bond: fill in 5] The third part is five.",
        # beads on both rows, and a ten inside
        "[show rekenrek: 4 and 3]\nFour beads on the top row, three beads on the bottom row. Four and three make seven.",
        "[show rekenrek: 6 and 6]\nSix and six. Five on the top and five on the bottom make ten. Ten and two is twelve.",
        # "in eleven there is one ten" sets nothing equal
        "[show base ten: 11]\nIn eleven there is one ten, this long line, and there is one little square.",
        "[show number sentence: 6 = 2 + ? as line]\n6 equals 2 plus which number? [wait 3 s] [line: fill in 4] 4.",
        # a path need not end where the talk does
        "[show number path: 0 to 12 as path]\nStart at 4. [path: hop 4 to 7, counting] 5, 6, 7.",
        # a count by twos, and then one by ones
        "[show ten frame: 10 dots as flock]\nTen ducks. [flock: count by 2] Flap by twos. Two, four, six, eight, ten!\n"
        "Four sit down. [flock: take away 4, counting] Nine, eight, seven, six. Six ducks!",
        # how many dice there are is no sum of them
        "[show dice: 5 and 5 and 5 as dice]\nOn three dice it is five and five and five.",
        # "then three more" is what is over
        "[show ten frame: 8 dots as frame]\nEight dots. Full row of five, then three more.",
        # one side of a sentence is read
        "[show number sentence: 9 + 6 = 10 + ? as line]\n7 plus 3 is 10, and 9 plus 6 equals 10 plus what? [wait 4 s] "
        "[line: fill in 5] 10 plus 5.",
        # counted before it is answered
        "[show number sentence: 8 + 4 = 7 + ? as hole]\nEight plus four is twelve. Seven and what make twelve? Count on from "
        "seven. Eight, nine, ten, eleven, twelve. Five. [hole: fill in 5] Seven plus five.",
        # titles that number parts, and one that only begins with a number
        "Good morning.\n\n# 3. Before and after\n\n[show number line: 0 to 20, mark 11]\nEleven. If you go back one, you're on 10.",
        "Good morning.\n\n# Ten and some more\n\n[show double ten frame: 17 dots]\nOur number is seventeen. Ten and seven make "
        "seventeen. [show base ten: 17] One ten, seven ones.",
        "Good morning.\n\n# Partners of 20\n\n[show number sentence: 12 + 8 = 20]\nTwenty is the number of the day. 12 and 8 make "
        "20. It works like partners of 10: 2 and 8 make 10.",
        # some of what is there is moved
        "[show dots: 8 dots and 4 crosses]\nI see 8 dots and 4 crosses, and I slide 2 crosses over to the 8 to have 10.",
        "[show ten frame: 9 dots as mine]\nNine dots. I rub out two dots. Watch the end. [mine: take away 2, counting] Eight, seven.",
        # the next number of a count by fives
        "[show hundred chart: 1 to 50 as chart]\nWe count by fives. 5, 10, 15, 20. What comes next after 20? [wait 4 s] 25. "
        "[chart: mark 25]",
        # bars that are looked at again
        "[show compare bars: 9 and 5]\nNine snails, five frogs. Nine is four more than five. We know that now. It was not hard.\n\n"
        "We talked. We looked. We laughed. We sang.\n\nWe slept.\n\n[clear]\n[show compare bars: 9 and 5]\nThere are 4 fewer frogs than snails.",
        # the parts, and the whole first
        "[show number bond: 14 is 8 and 6]\nThe bond shows it with the parts: fourteen is eight and six.",
        # how it was before
        "[show base ten: 58 as pile]\n58 reeds. [pile: take away 20] 20 go. 58 was 5 tens and 8 ones. 3 tens are left, and 8 ones. 38.",
        # a stop on the way
        "[show number line: 0 to 20 as line]\nI begin at 14 and go down 6. I'd like to stop at ten on the way. [line: hop 14 to 10] "
        "14 minus 4 is 10. [line: hop 10 to 8] And 10 minus 2 is 8.",
        # things that are called as the tens of a picture are
        "[show base ten: 48]\nThe beavers have forty-eight sticks. Forty-eight is four tens and eight ones.",
        # some in each row
        "[show dots: 25 dots as all]\nFive rows, and there are five dots in each row. [all: count by 5] Five, ten, fifteen, twenty, "
        "twenty-five.",
        # one ten more
        "[show base ten: 40]\n3 tens and 1 ten are 4 tens. That is 40.",
        # how many are counted on; where one might begin
        "[show dice: 4 and 3]\nStart at four and count on three. Five, six, seven. Four and three make seven.",
        # the title names it
        "Good morning.\n\n# Around 46\n\n[show hundred chart: 1 to 100, mark 46 as chart]\nHere it is on the chart. One less is [chart: "
        "mark 45] forty-five. One more is [chart: mark 47] forty-seven.",
        # one number, told from both sides
        "[show more and less: 20]\nOne less is nineteen, one more is twenty-one. Twenty is one more than nineteen and one less than "
        "twenty-one.",
        # by how much, but not than what
        "[show number sentence: 6 + 7 = ? as sum]\nIf 6 + 6 = 12, then 6 + 7 must be one greater. [sum: fill in] It follows that "
        "6 + 7 = 13.",
        "[show number sentence: 9 + 8 = ? as sum]\nNine plus eight, that's one under double nine. [sum: fill in] Seventeen. Nine plus "
        "eight is seventeen.",
        "[show dice: 3 and 4]\nThe roll was 3 and 4. That is 1 less than double 4, so it is 7.",
        # the start is not known
        "[show number sentence: ? - 12 = 14 as page]\nThe smudge sits at the front: smudge minus twelve equals fourteen. "
        "[page: fill in 26] Twenty-six minus twelve equals fourteen.",
        # what is added to a count
        "[show base ten: 34]\n34 takes 3 tens and 4 ones. Ten, twenty, thirty. And 4 ones make 34.",
        "[show base ten: 46]\n46 is 4 tens and 6 ones, and it takes 4 more to get to 50.",
        "[show tally: 8]\nEight. I see it in the marks, a bundle of five, and one, two, three beside it.",
        "[show double ten frame: 8 dots as frame]\nEight dots, and three more. [frame: add 3 crosses, counting] Eight... nine, ten, "
        "eleven, and three crosses are there.",
        # one number helps itself from another
        "[show number sentence: 8 + 7 = 10 + 5]\nEight plus seven. Eight takes two from seven. Eight turns into ten, seven turns into "
        "five. Eight plus seven equals ten plus five.",
        # room, not dots
        "[show double ten frame: 18 dots]\nThe frames have room for 20 dots. With 18 dots in, 2 boxes stay empty.",
        # cards in a row, of which some are named
        "[show cards: 40 to 44 as cards]\nWe laid out cards. 41 comes before 42. [cards: turn over 42] It was the card between 41 and "
        "43, so it was 42.",
        # one of some numbers that are given to be answered
        "[show cards: 1 to 9 as cards]\nI say a number, you say the partner, and together they make ten. My number is seven. [cards: "
        "circle 3] Three! My number is nine. [cards: circle 1] One!",
        "[show number bond: 30 is 20 and ? as bond]\nYesterday it was partners of 20, so today we stretch it to partners of 30. The "
        "whole is 30, and here's a part, 20. What's missing? [bond: fill in 10] 10.",
        # the next card
        "[show cards: 2, 4, 6, 8 as cards]\nTwo, four, six, eight, off we go! Which card comes after four? Tap the floor. [wait 4 s] "
        "[cards: circle 6] Six!",
        # in short sentences
        "[show number line: 0 to 60 as line]\nStart at 12. Jump 10. Where? [wait 3 s] [line: hop 12 to 22] 22. Again. [line: hop 22 to "
        "32] 32.",
        "[show dice: 6 and 4]\nSum? [wait 2 s] Ten. Because? Partners.",
        "[show number path: 1 to 20, mark 7 as path]\nFind seven. Got it? Hop on four. [path: hop 7 to 11, counting] Eight, nine, ten, "
        "eleven. Seven plus four, eleven.",
        # a row of a frame
        "[show ten frame: 6 dots]\nI notice that the top row is full, with five dots. There is one more below. Five and one make six.",
        "[show ten frame: 7 dots]\nIn the frame, five dots fill a row. Two dots start the next row. Five and two make seven.",
        # they come up out of the water
        "[show ten frame: 5 dots as isle]\nFive turtles were dozing there. Then three more turtles climbed up out of the water. How many "
        "turtles were there then? [wait 6 s] [isle: add 3 crosses, counting] Six, seven, eight. There were eight turtles.",
        # counts of two pictures, one after the other
        "[show dots: 5 as heron]\n[show dots: 3 as wren]\nFive for the heron, three for the wren. She gave one more. [heron: take away "
        "1, counting] Five. Four. [wren: add 1 dot, counting] Three. Four. Four and four.",
        # titles that count what is in a story, or tell by what one counts
        "Good morning.\n\n# Two nests\n\n[show dots: 5 dots as eggs]\nThe nest in the alder has five eggs. Five eggs.",
        "Good morning.\n\n# Steps of ten\n\n[show hundred chart: 31 to 60, mark 39 as chart]\nHere is 39. One row down is [chart: mark "
        "49] 49. And then [chart: mark 59] 59.",
        # one part of a hundred
        "[show number bond: 100 is 60 and ? as hundred]\nIf the whole is one hundred and one part is sixty, the other part must be "
        "[hundred: fill in] forty.",
        # the tens, and there are ones
        "[show base ten: 16 as blocks]\nThere is one ten and there are six ones. Ten plus six equals sixteen.",
        "[show base ten: 23]\nSo the old ten and the new ten are two tens, and there are three ones. That is twenty-three.",
        # sixty, first
        "[show number sentence: 30 + 31 = ? as line]\n[show base ten: 60]\nSixty first. [base ten: add 1] One more is sixty-one. "
        "[line: fill in 61] Thirty plus thirty-one equals sixty-one.",
        # it is the other number
        "[show rekenrek: 7 and 8]\n8 and 8 would be 16. 7 is one less than 8, so it is 15. Seven and eight make fifteen.",
        # what is missing in the rows, or stays back
        "[show rekenrek: 8 and 8]\n8 up there, 8 down here. Four beads are missing altogether, 2 on the top and 2 on the bottom. So it is "
        "20 without 4, and that is 16.",
        "[show rekenrek: 10 and 7]\nTen on top. Seven below. Three beads below stay back. Ten and seven. Seventeen.",
        # what is over five in the rows
        "[show rekenrek: 7 and 8]\nSeven and eight. I see five and five, which is ten. Beside them I see two on top and three below, and that is five. Ten "
        "and five are fifteen.",
        # a full row and some beads
        "[show number bond: 20 is 12 and ? as bond]\n[show rekenrek: 10 and 2 as beads]\nI put twelve beads over. Now I fill up the second row. "
        "[beads: add 8, counting] Thirteen, fourteen, fifteen, sixteen, seventeen, eighteen, nineteen, twenty. [bond: fill in] Eight.",
        # left is a side, leaves are counted
        "[show double ten frame: 7 dots as f]\nSeven frogs sit on the left bank. Eight frogs sit on the right bank. How many frogs are sitting "
        "there? [wait 4 s] [f: add 8 crosses, counting] Eight, nine, ten, eleven, twelve, thirteen, fourteen, fifteen. Fifteen frogs.",
        "[show double ten frame: 7 dots and 6 crosses]\nA snail finds seven leaves. Then it finds six leaves. How many leaves did it find? "
        "[wait 6 s]\n\nSix and six make twelve. One more makes thirteen. Thirteen leaves.",
        # it grows until it is the number
        "[show ten frame: 9 dots as frame]\nIt is nine! [hide frame] [show base ten: 9] Nine ones. [show word: nine] Nine. [show tally: 5 as "
        "marks]\nFirst a bundle of five. [marks: add 4, counting] Six, seven, eight, nine.",
        # only the ones of a sum
        "[show base ten: 37]\nAn otter has thirty-seven pebbles. It finds six more pebbles. How many pebbles does it have?\n\n[show double ten "
        "frame: 7 dots and 6 crosses]\nSeven ones and six ones are thirteen ones. Thirty and thirteen make forty-three.",
        # what the answer is like
        "[show base ten: 73 as f]\n73 frogs live in the big pond. The little pond has 50 fewer frogs than the big pond. How many frogs live in "
        "the little pond?\n\nFewer means the answer is smaller, so we go down from 73. [f: take away 50] That is 23.",
        # in steps
        "[show number line: 20 to 40, mark 27 as line]\nA water strider skates 27 steps. It rests, and then it skates 8 more. How many steps "
        "does it skate?\n\n[line: hop 27 to 30, counting] 28, 29, 30. [line: hop 30 to 35, counting] 31, 32, 33, 34, 35. [show number sentence: "
        "27 + 3 + 5 = 35] 27 + 3 + 5 = 35. The answer is 35 steps.",
        # two sentences in signs
        "[show number sentence: 9 + 3 = 12]\n9 + 3 = 12. Now you can write 3 + 9 = 12, 12 - 3 = 9 and 12 - 9 = 3.",
        # "it" is the first number
        "[show tally: 7]\nToday we found that seven is five and two, and that it needs three to be ten.",
        # so many fives
        "[show tally: 15 as marks]\nStart with three fives. [marks: count by 5] Five, ten, fifteen.",
        # so many more, and which
        "[show compare bars: 19 and 21]\nSo 21 is bigger than 19. It is two more: 20, 21.",
        # a sum is asked about, and its double is told
        "[show text: Near double or not?]\nSix plus seven. Near double or not? Yes, because they are neighbors. Six and six is twelve, and one "
        "more is thirteen.",
        # two of three cards are picked
        "[show cards: 2, 5, 4 as bonus]\nThe dragonfly picks the two. [bonus: circle 2] The beetle picks the five. [bonus: circle 5]",
        # a title that tells how many come
        "Good morning.\n\n# Four more frogs\n\n[show double ten frame: 10 dots as log]\nThe number of the day is fourteen. Ten frogs sit here, and four more come. [log: add 4 "
        "crosses, counting] Eleven, twelve, thirteen, fourteen.",
        # tens by the names of what they are drawn as
        "[show base ten: 34 as blocks]\nThirty-four is three sticks and four squares. [blocks: add 20]\nTwo more sticks. Now it shows fifty-four.",
        "[show base ten: 73 as blocks]\n73. [blocks: take away 20]\nTwo rods go. 53 left.",
        "[show base ten: 30 as blocks]\nThree longs. [blocks: add 2, counting] Thirty-one, thirty-two. Three longs, two ones. That is thirty-two.",
        "[show base ten: 64]\n64 is six longs and four ones.",
        "[show base ten: 34 as loaf]\n34 it is. [loaf: add 2, counting]\nAnd two cubes. Thirty-five, thirty-six.",
        "[show base ten: 48]\nEight squares. Half of the squares is four squares, so that is four.",
        # blocks for the tens, dots for the ones
        "[show base ten: 20 as blocks]\n2 tens. [show double ten frame: 13 dots as frames]\nAnd 13 ones next to them. 33 in all.",
        "[show number sentence: 29 + 20 = ? as sum]\nTwenty-nine. Give her two tens. [sum: fill in] Forty-nine.",
        # a number is left out to be found
        "[show cards: 11 to 15]\nRead with me. 11, 12, 14, 15. A duck is sitting on a card. Which number is under her? Thirteen.",
        # ten is made less
        "[show number sentence: 13 - 5 = ? as s]\nThirteen cakes, and five were eaten. Thirteen without three is ten, ten without two more is eight. [s: fill in] Eight.",
        # what is beside it
        "[show base ten: 16]\nNow there's a ten beside the 6 ones, so it's 16. 6 + 10 = 16.",
        # another lesson
        "[show cards: 72 to 74]\nWe did this in lesson 1 as well. Say all three together: 72, 73, 74.",
        # a frame that is called full
        "[show ten frame: 10 dots as full]\n[show five frame: 4 dots as rest]\nI am a full frame and four more. I am fourteen.",
        # one of two
        "[show number bond: 24 is 12 and 12 as bond]\n24 berries for the two captains. One gets 12, and what's for the other? 12.",
        # where one might begin
        "[show dice: 5 and 3]\nYou could count from one. I start at 5, because the 5 are already there. Six, seven, eight.",
        # steps of ten
        "[show hundred chart: 1 to 50 as chart]\n8, 18, 28, 38, 48. From eight to forty-eight I took four steps. Four tens are forty.",
        # a row of a frame
        "[show ten frame: 7 dots]\nSeven. The top row has five dots. Under it I see two dots. Five and two make seven.",
        # the whole is said when the part is found
        "[show number bond: 5 is 1 and ? as bond]\nNow take the card with one. Think of its partner. Is it smaller or bigger? [wait 4 s]\nI think "
        "bigger. It needs more help. [bond: fill in] Four! One and four make five.",
        # one more than the cards are
        "[show cards: 0 to 10]\nThere are 11 cards, because 1 to 10 is ten cards and the zero is one more.",
        # two ways to the answer, and the second is no path
        "[show number path: 0 to 12, mark 6 as path]\nSix. [path: hop 6 to 11, counting] Seven, eight, nine, ten, eleven. [hide path] Now with a frame. "
        "[show ten frame: 6 dots as frame] [frame: add 4 crosses] With four more we are at ten.",
        # stops on the way, and steps from elsewhere
        "[show number path: 0 to 10, mark 8 as path]\nFrom eight. [path: hop 8 to 5, counting] Seven, six, five. Hop to seven, hop to six, hop to five.",
        "[show number line: 20 to 30, mark 26 as line]\n26 is nearer to thirty. It is 6 hops away from 20. [line: hop 26 to 30, counting] 27, 28, 29, 30.",
        # who comes after a count
        "[show ten frame: 8 dots as frame]\nEight. [frame: add 1 cross, counting] Nine. Now five of them swim away. [frame: take away 5] Four are left.",
        # titles whose number counts nothing
        "Good morning.\n\n# Or was it seventy-one?\n\n[show base ten: 17]\nSeventeen. One ten and seven ones.",
        "Good morning.\n\n# Across the ten\n\n[show number sentence: 57 + 6 = ? as sum]\nFifty-seven, and six more. [sum: fill in] Sixty-three.",
        "Good morning.\n\n# A story with three\n\n[show dots: 5 dots]\nFive ducks swim.",
        # one of two dice, and no number
        "[show dice: 2 and 6]\nTwo dice roll along, one shows two and one shows six. Two and six make eight.",
        # of one sum from another
        "[show number sentence: 4 + 3 = 7]\nFour and three is seven. As three and three is six, four and three is just one more.",
        # as many ducks as were counted, by twos
        "[show dots: 6 as legs]\nI see six duck legs. [legs: count by 2] Two, four, six. How many ducks is that? Three ducks.",
    ],
)
def test_talk_of_other_teachers_is_left_in_peace(text: str) -> None:
    assert rules(text) == set()


@pytest.mark.parametrize(
    ("text", "right", "wrong", "rule"),
    [
    # equal groups that are drawn all at once, and of which one goes
    ("[show dots: 12 as spots]\nA newt has four spots. Here come three newts. How many spots is that? Four and four makes eight. Eight and four more makes twelve. "
     "Suppose one dives. Four spots go with it. [spots: take away 4] That leaves eight spots for two newts.", "[spots: take away 4]", "[spots: take away 5]", "drawing fits story"),
    # a hop from a number that was worked with
    ("[show number sentence: 47 + 6 = ? as own]\nForty-seven plus six. Which number comes after forty-seven that ends in nought? [own: fill in] Fifty-three. First three, to make "
     "fifty. Next three more, to make fifty-three. [show number line: 40 to 60 as check] We check it with the line. [check: hop 47 to 50] Three hops to fifty.",
     "hop 47 to 50", "hop 47 to 48", "lands where the hop ends"),
    # a longer number sentence of which the first step is told
    ("[show number sentence: 9 + 36 = 45]\nNine and thirty-six is forty-five. [clear] [show number sentence: 36 + 10 - 1 = 45 as line]\nNine is almost ten. Add ten instead: "
     "forty-six. That was one too many, so go back one. Forty-five again.", "36 + 10 - 1", "35 + 10 - 1", "picture is true"),
    # what was there before one more came
    ("[show base ten: 109]\nA hundred and nine. [base ten: add 1] With the nine ones, another. A full ten! Eleven tens, and no ones at all: 110.", "the nine ones", "the seven ones",
     "said as shown"),
    # leaps of ten are counted
    ("[show hundred chart: 1 to 60, mark 15 as chart]\nThe toad starts on 15. Leap down a row. [chart: mark 25] 25. That is 10 more. [chart: mark 35] 35. Another 10. [chart: mark 45] 45. Stop! "
     "How many leaps were there from 15 to 45? There were 3. 15 plus 30 is 45.", "There were 3.", "There were 4.", "answer fits question"),
    ],
)  # fmt: skip
def test_a_rule_leaves_right_talk_in_peace_and_finds_the_wrong_number(
    text: str, right: str, wrong: str, rule: str
) -> None:
    assert right in text
    assert rule not in rules(text)
    assert rule in rules(text.replace(right, wrong, 1))


def test_a_question_where_to_begin_is_no_beginning() -> None:
    text = (
        "[show number path: 0 to 20 as path]\n2 plus 14. Do I start on 2? I'd rather start on 14 and hop 2. [path: hop 14 to 16, "
        "counting] 15, 16. 2 plus 14 is 16."
    )
    assert "gets where it is to go" not in rules(text)


@pytest.mark.parametrize(
    "text",
    [
        "[show number sentence: 9 + 4 = 12]\nNine plus four equals twelve.",
        "[show text: What we found]\nSeven is three and four, thirteen is one ten and four ones, and twelve minus four is eight.",
        "[show text: Both sides]\nTwenty is one more than nineteen and one less than twenty-two.",
        "[show text: Near doubles]\nSeven is 1 less than double 5.",
        "[show text: Sums]\nFive and five is ten, and one and one is three, and ten and two is twelve.",
        "[show text: Pairs]\nSix with six, and nine with four, and ten with two, they all make twelve.",
    ],
)
def test_what_is_false_in_any_reading_is_found(text: str) -> None:
    assert rules(text) & {"true arithmetic", "picture is true"}


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        # a frog that is named once holds no five
        (
            "[show tally: 30 as marks]\nThirty marks, and a frog looks on. [marks: count by 5] Five, ten, fifteen, twenty, twenty-five, thirty. "
            "Six frogs.",
            "count starts and ends right",
        ),
        # two cards are missing, and one is told
        (
            "[show cards: 2, 4, 8, 10, 14 as cards]\nTwo, four, and then? A duck took one away. It was the six!",
            "shown number is said",
        ),
        # an answer, and then a count that goes too far
        (
            "[show number path: 0 to 10, mark 4 as path]\nThe newt sits on four. What is next? [path: hop 4 to 5, counting] Five! Say it: four, five, six.",
            "count fits picture",
        ),
        # a claim that nobody takes back
        (
            "[show number sentence: 7 + 5 = 12]\nThe toad thinks seven and five is thirteen. It is nine, not thirteen.",
            "true arithmetic",
        ),
        # more dots go than are said
        (
            "[show ten frame: 10 dots as leaf]\nTen. Three dots go. [leaf: take away 4, counting] Nine, eight, seven, six.",
            "said as shown",
        ),
        # the other frame has so many below
        (
            "[show double ten frame: 18 dots]\nEighteen. The first frame has five dots on top and four below.",
            "said as shown",
        ),
        # a card is left out, and nobody says which
        (
            "[show cards: 4, 5, 6, 8, 9]\nRead with me. Four, five, six, eight. We like them. And nine.",
            "count goes on",
        ),
    ],
)
def test_a_manner_of_talk_excuses_no_more_than_it_says(text: str, rule: str) -> None:
    assert rule in rules(text)


@pytest.mark.parametrize(
    ("text", "right", "wrong", "rule"),
    [
        # what a digit is worth
        ("[show base ten: 26 as b]\nTwenty-six dragonflies. The two means two tens. The six means six single squares.", "means two tens", "means three tens", "true arithmetic"),
        ("[show base ten: 15 as b]\nFifteen. The one means one ten, and the five stands for five ones.", "stands for five ones", "stands for four ones", "true arithmetic"),
        # pairs called out for one whole, among them one that does not make it
        ("[show text: Splash!]\nSplash to ten! Four and six? Splash! Seven and two? No, that is nine. Eight and two? Splash! Five and zero? No, five and zero "
         "is five. Five and five? Splash!", "Five and five?", "Five and nine?", "same numbers again"),
        # with some gone
        ("[show text: Eggs]\nA nest of ten with three gone leaves seven.", "leaves seven", "leaves six", "true arithmetic"),
        ("[show text: Crates]\nThree crates and one gone is two crates.", "two crates", "four crates", "true arithmetic"),
        ("[show text: Frames]\n20 dots with 3 missing is 17.", "is 17", "is 16", "true arithmetic"),
        # a clause of its own tells where a number stands
        ("[show text: Doubles?]\nNine is no double, for four and four is eight and five and five is ten, and nine sits between them.", "five is ten", "five is twelve",
         "true arithmetic"),
        # both sides of a sentence are told by what they come to
        ("[show number sentence: 9 + 5 = 10 + ? as line]\nNine wants one snail more. So five gives it one, and how many stay? [wait 4 s] [line: fill in] Four. Nine plus five "
         "equals fourteen.", "Nine plus five equals fourteen", "Nine plus five equals thirteen", "shown number is said"),
        ("[show number sentence: 4 + 3 = 5 + ? as line]\nSomething is hidden. The left is seven. [wait 4 s] [line: fill in] Two, as five and two is also seven.", "4 + 3", "4 + 2",
         "shown number is said"),
        # a number and its tens, beside another
        ("[show base ten: 37]\nThirty-seven newts. They all swim off. And now?\n\n[clear]\n[show compare bars: 37 and 30]\nAnd thirty is three tens. Before, there were seven ones as well. It is seven short.",
         "is three tens", "is four tens", "pair as told"),
        # sentences of a word or two
        ("[show base ten: 61 as read]\nSixty-one.\n\n[read: add 4] Look once more. Tens? Still six. Ones? Five now. Number? Sixty-five.", "add 4", "add 3", "shown number is said"),
        # what was added before
        ("[show base ten: 42 as read]\nForty-two. [read: add 4] Four more: forty-six. [read: add 10] Fifty-six. Look at it once more. It is tall. I added a ten, and one line is worth "
         "more than four squares.", "than four squares", "than three squares", "said as shown"),
        ("[show base ten: 42 as read]\nForty-two. [read: add 4] Four more: forty-six. [read: add 10] Fifty-six. Look at it once more. It is tall. Which did it? I added four ones.",
         "added four ones", "added three ones", "said as shown"),
        # a line is ten, and squares are ones
        ("[show base ten: 14]\nFourteen. One line is more than four squares. 9 is less than 14.", "9 is less than 14", "19 is less than 14", "true arithmetic"),
        # up to a number that the question names
        ("[show base ten: 70 as lines]\n[lines: count by 10] Ten, twenty, thirty, forty, fifty, sixty, seventy. Seven tens. How many more tens to a hundred? [wait 3 s] Three tens. A hundred is ten tens.",
         "Three tens.", "Four tens.", "how many as shown"),
        # the story goes on in a number sentence
        ("[show base ten: 39 as pile]\nThe beaver has thirty-nine sticks. So close!\n\n# One more\n\n[clear]\n[show number sentence: 39 + ? = 40 as wish]\nShe needed one more. Along came "
         "a mole. [wish: fill in] \"One,\" said the mole.\n\n[clear]\n[show base ten: 40 as tidy] Forty sticks, and not a loose one.", "39 + ? = 40", "38 + ? = 40", "shown number is said"),
        # the ones of a list of sums
        ("[show text: Twenty]\nThere are many ways to make 20. 13 and 7. 16 and 4. 18 and 2. Do you see something? 3 and 7, 6 and 4, 8 and 2: the ones are partners of 10.", "6 and 4, 8",
         "6 and 5, 8", "true arithmetic"),
    ],
)  # fmt: skip
def test_what_new_teachers_say_rightly_is_understood_and_minded(text: str, right: str, wrong: str, rule: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, rule)


@pytest.mark.parametrize(
    ("text", "right", "wrong", "rule"),
    [
        # partners, of which nobody counts two
        ("[show number sentence: 3 + 7 = 10 as line]\nThree and seven are a pair for ten. [line: circle 10] "
         "Three and seven make ten.",
         "seven make ten", "seven make eleven", "true arithmetic"),
        # what is left over of a pair
        ("[show base ten: 53]\nFifty-three. Three ones make a pair and a leftover. So five tens and three "
         "ones.",
         "and three ones", "and four ones", "said as shown"),
        # tens that are called by the things they are
        ("[show number sentence: 26 + 8 = ? as sum]\nThe otter has 26 shells, and gets 8 more. Ten go on a "
         "string. He had two strings, now three. Three strings and 4 loose, [sum: fill in 34] thirty-four.",
         "Three strings and 4 loose", "Three strings and 6 loose", "true arithmetic"),
        # what comes to them is added
        ("[show base ten: 30]\nWe have more newts. We had 2 tens and we got 1 more ten, so we have 3 tens. "
         "Thirty newts.",
         "so we have 3 tens", "so we have 4 tens", "true arithmetic"),
        # what was put by for a while comes back
        ("[show number sentence: 40 + 30 = 70 as sum]\nThe otter keeps the 2 in her paw. She says, do 40 "
         "plus 30, and bring the 2 back after. 40 plus 30 is 70.",
         "plus 30 is 70", "plus 30 is 80", "true arithmetic"),
        # named together, then one by one
        ("[show number path: 0 to 10 as log]\nA duck is on two and a toad is on five. Who lives between? "
         "[log: mark 3] [log: mark 4] Three and four. Three. Four.",
         "Three. Four.", "Eight. Four.", "true arithmetic"),
        # the tens first, then the ones that stay
        ("[show text: Story]\nA beaver carried 28 sticks in the morning and 20 more sticks in the evening. "
         "How many sticks did the beaver carry? [wait 3 s]\n[show base ten: 48] Twenty and twenty is forty, "
         "the eight never moves, and that's 48 sticks.",
         "carried 28", "carried 38", "worked as told"),
        # what comes next is told before it is put there
        ("[show base ten: 16 as check]\nSixteen. Add another stone. [check: add 1 dot, counting] Sixteen. "
         "Seventeen.\n\nAnd two more. [check: add 2 dots, counting] Seventeen. Eighteen, nineteen.",
         "And two more", "And four more", "closes with its answer"),
        # what is only supposed of the bars
        ("[show compare bars: 8 and 5 as picture]\nThe otter has eight mussels, her pup has five. Three "
         "more. But say she found two more. Eight plus two. Ten mussels.",
         "Three more", "Two more", "difference as shown"),
        # what is put there, told as what was there first
        ("[show base ten: 25 as ba]\nTwo lines, five squares. [ba: add 25] And again, two lines, five "
         "squares. 25 and 25 is 50.",
         "again, two lines, five", "again, three lines, five", "said as shown"),
        # corrected in the same breath
        ("[show double ten frame: empty as flats]\nMonday, eight snails. [flats: add 8 dots] Eight on the "
         "bottom... sorry, the top row. Eight snails.",
         "Eight on the bottom... sorry, the top row", "Eight on the bottom row", "said as shown"),
        # something to eat is had
        ("[show text: Cake]\nFour of the toads had cake, and three had jelly. No toad had both. How many "
         "toads had something to eat? [wait 3 s] Seven toads ate. The answer is seven.",
         "answer is seven", "answer is six", "answer fits story"),
        # tens taken from tens, and how many tens that are
        ("[show number sentence: 74 - 50 = ? as sum]\n74 take away 50? 7 tens take away 5 tens, 2 tens. "
         "[sum: fill in 24] 24. The 4 stays on its lily pad.",
         "5 tens, 2 tens", "5 tens, 3 tens", "true arithmetic"),
        # singles beside tens of any name
        ("[show base ten: 42 as shells]\nTen shells go on a string. 4 strings and 2 singles, so that's 42.",
         "and 2 singles", "and 3 singles", "true arithmetic"),
        # how far it still is to a number
        ("[show text: Tens]\nThirty-one is one more than thirty, and it is nine short of forty.",
         "nine short", "eight short", "true arithmetic"),
        # a way in jumps
        ("[show bar: 65 is 35 and ? as two]\nThirty-five reeds are green, the others are brown. How many of the "
         "sixty-five are brown? From 35 to 65 is three jumps of ten. Thirty. [two: fill in 30]",
         "three jumps of ten", "four jumps of ten", "true arithmetic"),
        # where nobody goes
        ("[show number line: 0 to 20, mark 13 as line]\nA dragonfly is on 13. She flies on 4. Don't go all the way "
         "back to 0, start from 13. [line: hop 13 to 17, counting] 14, 15, 16, 17. So 13 + 4 = 17.",
         "start from 13", "start from 12", "lands where the hop ends"),
        # as many hops as were made
        ("[show number path: 0 to 20 as path]\nThe young heron takes 2 at a time. [path: hop 0 to 2] 2. [path: hop 2 to "
         "4] 4. [path: hop 4 to 6] 6. [path: hop 6 to 8] 8. [path: hop 8 to 10] 10. 5 steps, and only as far as 10, the "
         "poor bird.\n\nHow far behind is he? From 10 to 20 is 10.",
         "5 steps", "7 steps", "as many steps as hopped"),
        # the ring that goes round the whole
        ("[show dots: 5 as pond]\nFive newts go walking. Two of them stop to look at a worm. [pond: take away 2] How "
         "many are walking on? Three. Five take away two is three.\n\n[clear]\n[show number bond: 5 is 2 and ? as bond]\n"
         "Two looking, and how many walking? [bond: fill in 3] Three. Two and three, five newts. [bond: circle 5] "
         "There's our five, on top.",
         "[bond: circle 5] There's our five, on top", "[bond: circle 2] There's our two", "ring is on the answer"),
    ],
)  # fmt: skip
def test_what_sounds_like_arithmetic_is_understood(text: str, right: str, wrong: str, rule: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, rule)


def test_nobody_lands_on_the_number_of_which_some_are_left() -> None:
    text = ("[show number line: 0 to 20, mark 8 as bridge]\nEight and 5. [bridge: hop 8 to 10, counting] 9, 10. It has used 2. "
            "From 5, 3 are left. [bridge: hop 10 to 13, counting] 11, 12, 13.")  # fmt: skip
    assert "lands where the hop ends" not in rules(text)
    assert "lands where the hop ends" in rules(text.replace("3 are left", "up"))


def test_partners_of_the_ones_are_no_whole_of_longer_numbers() -> None:
    text = "[show text: Twenty]\nThere are many ways to make 20. 13 and 7. 16 and 4: the ones are partners of 10."
    assert not rules(text)
    assert "true arithmetic" in rules(text.replace("16 and 4", "16 and 5"))


def test_sums_of_numbers_that_are_called_out_answer_the_number_before_them() -> None:
    text = ("[show text: A hand]\nI call out a number, you show me a hand and some more. Six! Five and one. Nine! Five and four. "
            "Eight! Five and three.")  # fmt: skip
    assert not rules(text)
    assert "true arithmetic" in rules(text.replace("Six!", "Seven!"))
    assert "true arithmetic" in rules(text.replace("four", "two"))


def test_a_number_told_in_the_same_breath_is_the_one_filled_in() -> None:
    text = ("[show bar: 12 is 5 and ? as bar]\nTwelve along the top. Five in this piece. So the other piece is [bar: fill in] seven "
            "long.\n\n[clear]\n[show dots: 9] Nine frogs sit on pads.")  # fmt: skip
    assert not rules(text)
    assert "filled in as said" in rules(text.replace("seven", "three"))
    assert not rules(text.replace("Nine frogs", "Here: nine frogs"))


def test_a_part_that_was_asked_for_may_be_told_once_more() -> None:
    text = "[show number sentence: 14 - 10 = ? as easy]\nFourteen minus ten. Think: ten and what? [wait 3 s] Ten and four. Four."
    assert not rules(text)
    assert "true arithmetic" in rules(text.replace("and four. Four", "and four. Five"))


def test_what_somebody_once_said_is_to_be_proved() -> None:
    claimed = "[show text: Proof]\nThe toad once said that seven and four make ten, and they argued. Who can {} it with beads?"
    assert rules(claimed.format("prove")) == set()
    assert rules(claimed.format("show")) == {"true arithmetic"}
