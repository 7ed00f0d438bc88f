"""The script reader: every form of the language, places, names, mistakes."""

from __future__ import annotations

import pytest
from num2words import num2words

from studio.errors import UnusableInput
from studio.script import model as m
from studio.script.kinds import KINDS
from studio.script.numberwords import to_number, to_words
from studio.script.reader import read, read_change, read_picture

HEADER = "---\ntitle: Nine at the pond\n---\n"


def words_of(body: str) -> list[str]:
    return [word.text for word in read(HEADER + body).words]


def problems_of(text: str) -> list[str]:
    with pytest.raises(UnusableInput) as caught:
        read(text)
    return caught.value.sentences()


# --- every row of the two tables of the language, by its own examples ---

MARKS = {
    "7 dots": m.Marks(7),
    "7 dots and 2 crosses": m.Marks(7, 2),
    "empty": m.Marks(0),
    "12": m.Marks(12),
    "2 crosses": m.Marks(0, 2),
    "seven dots and two crosses": m.Marks(7, 2),
    "2 crosses and 7 dots": m.Marks(7, 2),
}
PARTS = {
    "9 is 7 and ?": m.Parts(9, (7, None)),
    "8 is 5 and 3": m.Parts(8, (5, 3)),
    "10 is 2 and 3 and 5": m.Parts(10, (2, 3, 5)),
    "? is seven and 2": m.Parts(None, (7, 2)),
    "one hundred and five is one hundred and five": m.Parts(105, (100, 5)),
}
EQUATIONS = {
    "7 + ? = 9": m.Equation(((m.Term("+", 7), m.Term("+", None)), (m.Term("+", 9),))),
    "9 - 7 = 2": m.Equation(((m.Term("+", 9), m.Term("-", 7)), (m.Term("+", 2),))),
    "5 + 2 = 2 + 5": m.Equation(((m.Term("+", 5), m.Term("+", 2)), (m.Term("+", 2), m.Term("+", 5)))),
    "8 + 6 = 10 + 4 = 14": m.Equation(
        ((m.Term("+", 8), m.Term("+", 6)), (m.Term("+", 10), m.Term("+", 4)), (m.Term("+", 14),))
    ),
    "nine − seven = two": m.Equation(((m.Term("+", 9), m.Term("-", 7)), (m.Term("+", 2),))),
}
SPANS = {"0 to 10": m.Span(0, 10), "0 to 10, mark 7": m.Span(0, 10, 7), "zero to ten, mark seven": m.Span(0, 10, 7)}
DETAILS = {
    **dict.fromkeys(("five frame", "ten frame", "double ten frame", "dots"), MARKS),
    **dict.fromkeys(("number bond", "bar"), PARTS),
    "number sentence": EQUATIONS,
    "cards": {
        "0 to 8": m.NumberList(tuple(range(9))),
        "3, 5, 8": m.NumberList((3, 5, 8)),
        "three, five and eight": m.NumberList((3, 5, 8)),
        "3 to 0": m.NumberList((3, 2, 1, 0)),
    },
    **{kind: {"12": m.Amount(12), "Twelve": m.Amount(12)} for kind in ("tally", "base ten", "more and less")},
    "dice": {"6 and 6": m.NumberList((6, 6)), "5 and 3 and 4": m.NumberList((5, 3, 4))},
    "word": {"fourteen": m.Phrase("fourteen")},
    **dict.fromkeys(("number path", "number line", "hundred chart"), SPANS),
    "compare bars": {"9 and 7": m.NumberList((9, 7)), "twenty-one and seven": m.NumberList((21, 7))},
    "rekenrek": {"7 and 2": m.NumberList((7, 2))},
    "text": {"Count with me!": m.Phrase("Count with me!"), '"as big as frogs"': m.Phrase("as big as frogs")},
}
CHANGES = {
    "add 3 dots": m.Add(3, "dots"),
    "add 3": m.Add(3),
    "add three crosses, counting": m.Add(3, "crosses", True),
    "take away 2": m.TakeAway(2),
    "Take Away two, Counting": m.TakeAway(2, True),
    "fill in": m.FillIn(),
    "fill in 2": m.FillIn(2),
    "circle 2": m.Circle(2),
    "hop 7 to 9": m.Hop(7, 9),
    "hop from 7 to 9, counting": m.Hop(7, 9, True),
    "turn over 5": m.TurnOver(5),
    "mark nine": m.MarkNumber(9),
    "count": m.Count(),
    "count by 5": m.Count(5),
    "count by fives": m.Count(5),
}


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_is_read_with_all_its_details(kind: str) -> None:
    for written, details in DETAILS[kind].items():
        assert read_picture(f"{kind}: {written}") == (kind, details, kind)
        shout = kind.upper().replace(" ", "  ")
        assert read_picture(f" {shout} :{written} as My-Picture ") == (kind, details, "my-picture")
    for example in KINDS[kind].examples:
        read_picture(f"{kind}: {example}")


def test_a_name_may_have_several_words_but_not_after_free_words() -> None:
    assert read_picture("dots: 3 as the big pond")[2] == "the big pond"
    assert read_picture("text: as big as a frog")[1:] == (m.Phrase("as big as a frog"), "text")
    assert read_picture('text: "as big as frogs" as the big pond')[1:] == (m.Phrase("as big as frogs"), "the big pond")


@pytest.mark.parametrize("written", CHANGES)
def test_every_change_is_read(written: str) -> None:
    assert read_change(written) == CHANGES[written]
    lesson = read(HEADER + f"[show dots: 3 as Pond] Look. [POND: {written}] Three.")
    change = lesson.directions[1]
    assert isinstance(change, m.ChangePicture)
    assert (change.name, change.change) == ("pond", CHANGES[written])


def test_number_words_are_those_of_an_independent_library() -> None:
    # num2words (a registry package) is the reference, with and without its "and".
    for number in range(1001):
        words = num2words(number)
        assert to_number(words) == number
        assert to_words(number) == words.replace(" and ", " ")
        assert read_change(f"circle {words}") == m.Circle(number)
        assert read_change(f"circle {words.replace('-', ' ').replace(' and ', ' ').upper()}") == m.Circle(number)


def test_equations_of_the_standard_are_read_as_they_are_printed() -> None:
    # CCSSM 1.OA.D.7, D.8, B.3 and C.6, examples.
    for printed in (
        "6 = 6", "7 = 8 - 1", "5 + 2 = 2 + 5", "4 + 1 = 5 + 2", "8 + ? = 11", "5 = ? - 3", "6 + 6 = ?", "2 + 6 + 4 = 2 + 10 = 12",
        "8 + 6 = 8 + 2 + 4 = 10 + 4 = 14", "13 - 4 = 13 - 3 - 1 = 10 - 1 = 9", "6 + 7 = 6 + 6 + 1 = 12 + 1 = 13",
    ):  # fmt: skip
        details = read_picture(f"number sentence: {printed}")[1]
        assert isinstance(details, m.Equation)
        sides = []
        for side in details.sides:
            terms = [f"{term.sign} {'?' if term.value is None else term.value}" for term in side]
            sides.append(" ".join(terms).removeprefix("+ "))
        assert " = ".join(sides) == printed


def test_directions_have_their_values() -> None:
    body = (
        "[camera FULL] [wait 5 s] One [wait 2.5 seconds: line up\nyour cards] two [wait one minute] [note: on purpose]\n"
        "[show dots: 3] three [hide Dots] [clear] [note: hold up the red card]"
    )
    found = read(HEADER + body).directions
    assert [type(d).__name__ for d in found] == [
        "Camera", "Wait", "Wait", "Wait", "Note", "Show", "Hide", "Clear", "Note",
    ]  # fmt: skip
    assert [d.at for d in found] == [0, 0, 1, 2, 2, 2, 3, 3, 3]
    assert [(d.seconds, d.words) for d in found if isinstance(d, m.Wait)] == [
        (5.0, ""), (2.5, "line up your cards"), (60.0, ""),
    ]  # fmt: skip
    assert [d.on_purpose for d in found if isinstance(d, m.Note)] == [True, False]
    assert found[2].text == "wait 2.5 seconds: line up\nyour cards"
    assert found[2].place == m.Place(4, 30)
    assert found[3].place == m.Place(5, 17)


# --- header ---


def test_the_header_has_its_values_and_their_lines() -> None:
    text = (
        "\n---\ntitle: 'Nine: a number'\nnumber: 9\ngrade: k\nseries: Pond days\npace: 95.5\nneeds: a pencil, ten counters\n"
        "standards:\n  - 1.OA.D.8\n  - K.CC.A.2\n---\nHello."
    )
    header = read(text).header
    assert header == m.Header(
        "Nine: a number",
        9,
        "K",
        "Pond days",
        95.5,
        ("a pencil", "ten counters"),
        ("1.OA.D.8", "K.CC.A.2"),
        header.lines,
    )
    expected = {"title": 3, "number": 4, "grade": 5, "series": 6, "pace": 7, "needs": 8, "standards": 9}
    assert dict(header.lines) == expected


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("titel: x", "Line 3, column 1: There is no header key 'titel'. Did you mean 'title'?"),
        ("colour: red", "Line 3, column 1: There is no header key 'colour'. The keys are: title, number, grade, series, "
         "pace, needs, standards."),
        ("grade: 3", "Line 3, column 1: 'grade' is K, 1 or 2, not '3'."),
        ("pace: fast", "Line 3, column 1: 'pace' is in words a minute, from 40 to 250, not 'fast'."),
        ("pace: .nan", "Line 3, column 1: 'pace' is in words a minute, from 40 to 250, not '.nan'."),
        ("number: -1", "Line 3, column 1: 'number' is a whole number from 0 to 9999, not '-1'."),
        ("title: Again", "Line 3, column 1: 'title' stands twice in the header (first on line 2); keep one."),
        ("grade: a: b", 'Line 3, column 9: A value with a colon in it needs quotation marks: title: "Nine: a number".'),
        ("series: 'a", "Line 3, column 11: A quotation mark is not closed here."),
        ("needs: {a: b}", "Line 3, column 1: The value of 'needs' cannot be read. Write a word, a number or a list."),
        ("blanks: {n: 1 to 5}", "Line 3, column 1: This is a routine with blanks. Fill it first: studio fill ROUTINE "
         "--set NAME=NUMBER."),
    ],
)  # fmt: skip
def test_a_mistake_in_the_header_gets_its_sentence(line: str, sentence: str) -> None:
    assert problems_of(f"---\ntitle: Pond\n{line}\n---\nHello.") == [sentence]


def test_a_script_without_a_header_says_what_to_write() -> None:
    assert "must begin with a header" in problems_of("# Warm-up\nHello")[0]
    assert "is not closed" in problems_of("---\ntitle: x\nHello")[0]
    assert "The script is empty" in problems_of(" \n\n")[0]
    assert problems_of("---\nnumber: 9\n---\nHello") == [
        "Line 1, column 1: The header has no title. Add a line 'title: ...'."
    ]
    assert "There is nothing to say yet" in problems_of(HEADER)[0]
    assert "There is nothing to say yet" in problems_of(HEADER + "# Warm-up\n[wait 5 s]")[0]


def test_an_aliased_or_deeply_nested_header_is_refused_quickly() -> None:
    bomb = "a: &a [x, x]\n" + "\n".join(f"k{i}: &b{i} [*a, *a, *a]" for i in range(50))
    for header in (bomb, "title: " + "[" * 20_000, "title: " + "{a: " * 5_000):
        assert problems_of(f"---\n{header}\n---\nHello")


# --- words ---


def test_words_have_their_places_sentences_paragraphs_and_segments() -> None:
    lesson = read(HEADER + "Hello there!\n\n# Warm-up\nSeven, *eight*, nine. Well\ndone… Yes.\n")
    table = [(w.text, w.plain, w.place.line, w.place.column, w.sentence, w.paragraph, w.segment) for w in lesson.words]
    assert table == [
        ("Hello", "hello", 4, 1, 0, 0, 0),
        ("there!", "there", 4, 7, 0, 0, 0),
        ("Seven,", "seven", 7, 1, 1, 1, 1),
        ("eight,", "eight", 7, 9, 1, 1, 1),
        ("nine.", "nine", 7, 17, 1, 1, 1),
        ("Well", "well", 7, 23, 2, 1, 1),
        ("done…", "done", 8, 1, 2, 1, 1),
        ("Yes.", "yes", 8, 7, 3, 1, 1),
    ]
    assert [w.index for w in lesson.words] == list(range(8))
    assert [w.text for w in lesson.words if w.stressed] == ["eight,"]
    assert [(s.title, s.place.line) for s in lesson.segments] == [("Nine at the pond", 4), ("Warm-up", 6)]


@pytest.mark.parametrize(
    ("body", "words"),
    [
        ("7+2=9", "7|+|2|=|9"),
        ("7 + ? = 9.", "7|+|?|=|9."),
        ("? + 2 = 9", "?|+|2|=|9"),
        ("7+?=9", "7|+|?|=|9"),
        ("7 + __ = 9", "7|+|__|=|9"),
        ("What is 7 + 2 = ?", "What|is|7|+|2|=|?"),
        ("Is it 7 ? Yes", "Is|it|7 ?|Yes"),
        ("9-7=2", "9|-|7|=|2"),
        ("9 – 7 = 2, 9−7", "9|–|7|=|2,|9|−|7"),
        ("9 > 7 and 7<9", "9|>|7|and|7|<|9"),
        ("3-2-1 go", "3-|2-|1|go"),
        ("twenty-one ten-frame", "twenty-one|ten-frame"),
        ("Look - a frog", "Look -|a|frog"),
        ("seven—eight, nine,ten", "seven—|eight,|nine,|ten"),
        ("3,5,8 and 1,000", "3,|5,|8|and|1,000"),
        ("- five frogs\n- two more", "five|frogs|two|more"),
        ("1. Five frogs\n2) [wait 2 s] Two more.\nAll wet.\n3. Seven", "Five|frogs|Two|more.|All|wet.|Seven"),
        ("🦆 Two ducks! 🐸🐸 Five & five❤️ too.🐸 Go", "Two|ducks!|Five|&|five|too.|Go"),
        ("seven🐸seven (🐸) `it`s` ``", "seven|seven ()|it`s"),
        ("a) Look\nb) Listen", "Look|Listen"),
        ("1. Look\n2. 84. 85.\n3. 4. 5. Go", "Look|84.|85.|3.|4.|5.|Go"),
        ("1. 8 frogs\n2. [wait 2 s] 3 go\n3. `5 + 3`", "8|frogs|3|go|5|+|3"),
        ("1. 3. 5. Go\n2. 4. 6. Go", "1.|3.|5.|Go|2.|4.|6.|Go"),
        ("1. Look\n3. Listen", "1.|Look|3.|Listen"),
        ("2. Look", "2.|Look"),
        ("1. Look\n# B\n2. Listen\n# C\n1. Rest", "Look|Listen|1.|Rest"),
        ("3. 2. 1. Go\n1. 2. 3. Go", "3.|2.|1.|Go|1.|2.|3.|Go"),
        ("[show dots: 2]\n[dots: count]\n1. Hop\n2. Hop", "1.|Hop|2.|Hop"),
        ("five (5) frogs, twenty-one (21), one hundred five (105).", "five|frogs,|twenty-one,|one|hundred|five."),
        ('"Six and ten (10)." Twenty five (25)', '"Six|and|ten."|Twenty|five'),
        ("twenty five (5), five (6), (5) 5 (5)", "twenty|five|(5),|five|(6),|(5)|5|(5)"),
        ("7\n- 2 = 5", "7|-|2|=|5"),
        ("--> a -> b == c", "a ->|b ==|c"),
        ("seven *dots and* two", "seven|dots|and|two"),
        ("Have these ready for 5\n* 3 ducks\n* 4 frogs", "Have|these|ready|for|5|3|ducks|4|frogs"),
        ("2 * 3 **bold** *open", "2|*|3|bold|open"),
        ("3*2=6 is 5*4, *so* 3 × 2", "3|*|2|=|6|is|5|*|4,|so|3|×|2"),
        ("6 ÷ 2, 6 / 2 and/or 1/2", "6|÷|2,|6|/|2|and/or|1/2"),
        ("£10 - £3 = £7. 10p - 3p. A 10 - a day", "£10|-|£3|=|£7.|10p|-|3p.|A|10 -|a|day"),
        ("9 frogs - 4 frogs = 5 frogs - all", "9|frogs|-|4|frogs|=|5|frogs -|all"),
        ("9 - **4** = 5. 8- 3 = 5. 8 -- 3 = 5. 9 -- no", "9|-|4|=|5.|8|-|3|=|5.|8|--|3|=|5.|9 --|no"),
        ("8 \u2011 3 = 5, twenty\u2011one", "8|-|3|=|5,|twenty-one"),
        ("7 + \u2b1c = 10, 7+☐=10", "7|+|□|=|10,|7|+|□|=|10"),
        ("5 (five) ducks, 6 (six). 6 (seven)", "5|ducks,|6.|6|(seven)"),
        ("Seven[wait 2 s]? Eight", "Seven?|Eight"),
        ("Eight.[wait 2 s]Nine", "Eight.|Nine"),
        ("one\u00a0two\u200bthree\ttwo", "one|two|three|two"),
        ("---\nHi\n***", "Hi"),
    ],
)
def test_a_line_is_cut_into_the_words_that_are_said(body: str, words: str) -> None:
    assert words_of(body) == words.split("|")


def test_signs_written_together_are_glued() -> None:
    lesson = read(HEADER + "7+2=9 is 7 + 2. Eight.[wait 2 s]Nine")
    assert "".join("|" * (not w.glued) + w.text for w in lesson.words) == "|7+2=9|is|7|+|2.|Eight.|Nine"
    assert [w.plain for w in read(HEADER + "9−7, 9–7").words] == ["9", "-", "7", "9", "-", "7"]


@pytest.mark.parametrize(
    ("body", "words"),
    [
        ("Eight - 3 = 5", "eight|-|3|=|5"),
        ("Twenty-one – one - ten = ten", "twenty-one|-|one|-|ten|=|ten"),
        ("One - two - three - gone", "one|two|three|gone"),
        ("Six - 2 left", "six|2|left"),
    ],
)
def test_a_dash_between_number_words_takes_away_only_before_an_equals_sign(body: str, words: str) -> None:
    assert [w.plain for w in read(HEADER + body).words] == words.split("|")


def test_stress_covers_the_words_between_two_asterisks_only() -> None:
    lesson = read(HEADER + "a *b* c *d e* f *7+2* g *h\n\ni **j** k")
    assert [w.text for w in lesson.words if w.stressed] == ["b", "d", "e", "7", "+", "2", "j"]


def test_directions_before_the_first_title_open_the_first_segment() -> None:
    lesson = read(HEADER + "[camera full]\n[show dots: 3]\n# Warm-up\nHello\n# Again\nBye")
    assert [s.title for s in lesson.segments] == ["Warm-up", "Again"]
    assert [(d.segment, d.at) for d in lesson.directions] == [(0, 0), (0, 0)]
    assert [w.segment for w in lesson.words] == [0, 1]


def test_line_ends_and_byte_order_mark_change_nothing() -> None:
    body = HEADER + "# A\nOne two.\n\n[wait 2 s] Three\n"
    plain = read(body)
    for other in ("\ufeff" + body, body.replace("\n", "\r\n"), body.replace("\n", "\r")):
        lesson = read(other)
        assert lesson == plain


# --- names of pictures ---


def test_names_match_whatever_their_case_and_a_second_show_replaces() -> None:
    lesson = read(HEADER + "[show dots: 3 as Pond] a [show ten frame: 4 dots as POND] b [pond: add 1] [hide Pond] c")
    shows = [d for d in lesson.directions if isinstance(d, m.Show)]
    assert [(s.name, s.kind) for s in shows] == [("pond", "dots"), ("pond", "ten frame")]


@pytest.mark.parametrize(
    ("body", "sentence"),
    [
        ("[show dots: 3] a [dot: add 1]", "column 19: There is no picture called 'dot' on. Did you mean 'dots'?"),
        ("a [frame: add 1]", "column 4: There is no picture called 'frame' on. Show it first: "
         "[show KIND: DETAILS as frame]."),
        ("[show dots: 3] a [clear] [hide dots]", "column 32: The picture 'dots' is no longer on; it went on line 4. Take this "
         "direction out."),
        ("[show dots: 3] a [clear] [dots: add 1] b", "column 27: The picture 'dots' is no longer on; it went on line 4. Show it again "
         "first."),
        ("[show dots: 3] a [hide all]", "column 24: To take all pictures away, write [clear]."),
        ("a [hide frogs]", "column 9: There is no picture called 'frogs' on, so none can go. Take this direction out."),
        ("[[show dots: 3]] a", "column 2: One bracket is enough: take the second [ and its ] out."),
        ("[show tenframe: 7 dots]a", "column 7: There is no picture 'tenframe'. Did you mean 'ten frame'?"),
        ("[show ten frame: 7 dosts]a", "column 20: '7 dosts' cannot be shown after 'ten frame:'. Did you mean 'dots'? Write it "
         "like '7 dots', '7 dots and 2 crosses' or 'empty'."),
        ("[show ten frame]a", "column 7: Write what to show after a colon: [show ten frame: 7 dots]."),
        ("[show ten frame 7 dots]a", "column 7: Put a colon after 'ten frame': [show ten frame: 7 dots]."),
        ("[show dots: 3 as hide it]a", "column 18: A picture cannot be called 'hide it', because 'hide' begins another direction."),
        ("[show dots: 12345678]a", "column 13: This number is too large; a picture can have numbers up to 999,999."),
        ("[show cards: 0 to 900]a", "column 14: A set of cards can have at most 200 cards."),
        ("[show number line: 9 to 3]a", "column 20: It begins with the smaller number: write '3 to 9'."),
        ("[show dots: 3 dots and 4 dots]a", "column 24: The dots are given twice; write how many there are once."),
        ("[show dots: 3][dots: ad 2]a", "column 22: There is no change 'ad'. Did you mean 'add'?"),
        ("[show dots: 3][dots: tak away 2]a", "column 22: There is no change 'tak away'. Did you mean 'take away'?"),
        ("[show dots: 3][dots: circle 2, counting]a", "column 32: Only 'add', 'take away' and 'hop' can be followed by "
         "', counting'."),
        ("[shwo dots: 3]a", "column 2: There is no direction 'shwo'. Did you mean 'show'?"),
        ("[add 3 dots]a", "column 2: Write which picture changes: [NAME: add 3 dots]."),
        ("[camera bside]a", "column 2: The camera can be 'full', 'beside' or 'off'. Did you mean 'beside'?"),
        ("[wait 900 s]a", "column 7: A wait lasts more than 0 and at most 600 seconds."),
        ("[wait]a", "column 2: A wait is written [wait 5 s] or [wait 5 s: words to show]."),
        ("[]a", "column 2: There is nothing between the brackets."),
        ("a ] b", "column 3: This bracket was never opened. Put a [ before the direction, or delete it."),
        ("a [show dots: 3", "column 3: This bracket is not closed. Put a ] after the direction."),
        ("a \x07 b", "column 3: There is a sign here that cannot be read (U+0007). Delete it."),
        ("#Title\na", "column 1: Put a space after the '#': '# Title'."),
        ("## Title\na", "column 1: A segment's title begins with one '#'."),
        ("# \na", "column 1: This segment has no title. Write it after the '#'."),
        ("# A [clear]\na", "column 5: A direction cannot stand in a title. Put it on the next line."),
    ],
)  # fmt: skip
def test_a_mistake_gets_its_sentence_place_and_nearest_word(body: str, sentence: str) -> None:
    assert problems_of(HEADER + body) == [f"Line 4, {sentence}"]


def test_all_mistakes_of_a_file_are_told_at_once_and_in_order() -> None:
    text = (
        "---\ntitel: x\n---\n[show tenframe: 7 dots as frame] a\n[frame: ad 2 dots] b [frame: add 2 dots]\n\n"
        "[wait 3 s: think\n of a\n number] [show\ndotss: 3]\nc [hide dotss]"
    )
    assert problems_of(text) == [
        "Line 2, column 1: There is no header key 'titel'. Did you mean 'title'?",
        "Line 4, column 7: There is no picture 'tenframe'. Did you mean 'ten frame'?",
        "Line 5, column 9: There is no change 'ad'. Did you mean 'add'?",
        "Line 10, column 1: There is no picture 'dotss'. Did you mean 'dots'?",
    ]
    many = problems_of(HEADER + "]\n" * 150)
    assert len(many) == 101
    assert many[-1] == "There are 50 more mistakes like these."


def test_a_picture_or_change_on_its_own_gives_its_place_in_the_text() -> None:
    with pytest.raises(UnusableInput) as caught:
        read_picture("ten frame: 7 dosts")
    assert caught.value.problems[0].column == 14
    with pytest.raises(UnusableInput) as caught:
        read_change("ad 2")
    assert "Did you mean 'add'?" in str(caught.value)


@pytest.mark.parametrize(
    ("written", "title"),
    [
        ("Number of the Day # 14", "Number of the Day # 14"),
        ("#14 Frogs", "#14 Frogs"),
        ("Nine: a number", "Nine: a number"),
        ("It's nine: a number", "It's nine: a number"),
        ("\u201cNine: a number\u201d", "Nine: a number"),
        ("\u201cNine\u201d and \u201cten\u201d", "\u201cNine\u201d and \u201cten\u201d"),
        ('"Nine: a number"  # nine', "Nine: a number"),
        ("'Nine'", "Nine"),
        ("Nine", "Nine"),
    ],
)
def test_a_title_is_what_is_written_there(written: str, title: str) -> None:
    assert read(f"---\ntitle: {written}\n---\nHi.\n").header.title == title


def test_an_item_of_what_to_have_ready_may_have_a_colon_in_it() -> None:
    header = read("---\ntitle: Nine\nneeds:\n  - paper\n  - scissors: with a grown-up\n---\nHi.\n").header
    assert header.needs == ("paper", "scissors: with a grown-up")


def test_a_title_with_a_space_before_it_is_a_title() -> None:
    lesson = read("---\ntitle: Pond\n---\nHello frogs.\n\n # Make ten\n\nSeven and three make ten.\n")
    assert [segment.title for segment in lesson.segments] == ["Pond", "Make ten"]
