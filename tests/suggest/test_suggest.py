"""Directions for a script that has only words: what is proposed, where, and that it passes the check."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.agree import check
from studio.errors import UnusableInput
from studio.script.model import Lesson, Wait
from studio.script.reader import read
from studio.stage.staging import stage
from studio.suggest import MOST, apply, suggest, suggest_file
from tests.agree.minded import without_directions


def lesson_of(words: str) -> Lesson:
    return read(f"---\ntitle: Pond\n---\n{words}\n")


def with_directions(words: str) -> str:
    lesson = lesson_of(words)
    return apply(lesson.text, suggest(lesson)).split("---\n", 2)[2]


def directions(words: str) -> list[str]:
    return [suggestion.direction for suggestion in suggest(lesson_of(words))]


def troubles(text: str) -> list[str]:
    return [f"{f.line} {f.rule}: {f.message}" for f in check(read(text)).findings if f.level != "note"]


def test_a_count_and_a_need_give_a_frame_that_grows_and_its_bond() -> None:
    assert directions("Five, six, seven, eight. Five needs three more to get to eight.") == [
        "show ten frame: 5 dots",
        "ten frame: add 3 crosses, counting",
        "show number bond: 8 is 5 and ?",
        "number bond: fill in 3",
    ]


def test_directions_stand_before_the_words_that_they_belong_to() -> None:
    assert with_directions("Five, six, seven, eight.\nFive needs three more to get to eight.") == (
        "[show ten frame: 5 dots]\n[ten frame: add 3 crosses, counting]\nFive, six, seven, eight.\n"
        "[show number bond: 8 is 5 and ?]\nFive needs [number bond: fill in 3] three more to get to eight.\n"
    )


STORY = """# Story
Here is a story from the pond.
Seven frogs sit on a log. Some more frogs hop on. Now there are nine frogs on the log.
How many frogs hopped on?

We count on from seven. Seven. Eight, nine.

The whole is nine. One part is seven. The other part is two.
Seven plus two equals nine.
Two frogs hopped on.
"""


def test_a_story_gets_drawing_sentence_bond_fill_in_and_ring() -> None:
    assert directions(STORY) == [
        "show dots: 7 dots",
        "show number sentence: 7 + ? = 9",
        "wait 10 s: Draw the story",
        "dots: add 2 crosses, counting",
        "show number bond: 9 is 7 and ?",
        "number bond: fill in 2",
        "number sentence: fill in 2",
        "number sentence: circle 2",
    ]


def test_a_story_of_taking_away_is_drawn_so() -> None:
    found = directions(
        "Eight ducks swim on the pond. Three of them fly off. How many ducks are still on the pond?\n\n"
        "We count back. Eight. Seven, six, five. Eight minus three equals five. Five ducks are still on the pond."
    )
    assert "show dots: 8 dots" in found
    assert "dots: take away 3, counting" in found
    assert "show number sentence: 8 - 3 = ?" in found
    assert "number sentence: circle 5" in found


def test_the_number_of_the_day_is_shown_many_ways() -> None:
    found = directions(
        "The number of the day is fourteen. Fourteen is one ten and four ones.\n\n"
        "Now count the tallies by fives. Five, ten, eleven, twelve, thirteen, fourteen.\n\n"
        "One less than fourteen is thirteen. One more than fourteen is fifteen.\n\n"
        "Hop on the number path from nine to fourteen. Nine. Ten, eleven, twelve, thirteen, fourteen.\n\n"
        "Double six is twelve."
    )
    for direction in (
        "show word: fourteen",
        "show base ten: 14",
        "show tally: 14",
        "tally: count by 5",
        "show more and less: 14",
        "more and less: fill in 13",
        "more and less: fill in 15",
        "number path: hop 9 to 14, counting",
        "show dice: 6 and 6",
    ):
        assert direction in found


def test_a_segment_that_shows_pictures_already_is_left_as_it_is() -> None:
    words = "# One\n[show dots: 5 dots]\nFive dots. Five, six, seven.\n\n# Two\nFive, six, seven.\n"
    lesson = lesson_of(words)
    assert {lesson.words[s.word].segment for s in suggest(lesson)} == {1}


def test_directions_taken_out_again_leave_the_script() -> None:
    lesson = lesson_of(STORY)
    text = apply(lesson.text, suggest(lesson))
    assert re.sub(r"(?m)^(\[[^\]]*\])+\n|\[[^\]]*\] ?", "", text) == lesson.text


EVERY = sorted((Path(__file__).parents[2] / "benchmarks" / "lessons").glob("*.lesson.md"))
LESSONS = EVERY[::900]
"""Every 900th, for time; `benchmarks/suggest.py` takes all."""
PURPOSE = "[note: on purpose"

TALKS = {
    "story": STORY,
    "partners": "Seven is six and one. Seven is five and two. Seven is four and three.\n",
    "making ten": "Eight needs two more to make ten. So 8 + 6 = 8 + 2 + 4 = 10 + 4 = 14. Fourteen minus six is "
    "eight.\n",
    "comparing": "The otter has nine shells. The duck has four shells. How many more shells does the otter have than "
    "the duck?\n\nCount on from four. Five, six, seven, eight, nine. Four plus five equals nine. The otter has five "
    "more shells than the duck.\n",
    "two stories": STORY
    + "\nTen ducks swim. Four fly away. How many ducks are left?\n\nTen minus four is six. Six are left.",
}


@pytest.mark.parametrize("talk", TALKS)
def test_with_the_suggested_directions_the_check_finds_nothing(talk: str) -> None:
    lesson = lesson_of(TALKS[talk])
    text = apply(lesson.text, suggest(lesson))
    assert text != lesson.text
    assert troubles(text) == []


@pytest.mark.parametrize("talk", TALKS)
def test_never_more_than_three_pictures_are_on(talk: str) -> None:
    lesson = lesson_of(TALKS[talk])
    moments = stage(read(apply(lesson.text, suggest(lesson)))).moments
    on: set[str] = set()
    for index, moment in enumerate(moments):
        (on.discard if moment.picture is None else on.add)(moment.name)
        if index + 1 == len(moments) or moments[index + 1].word > moment.word:
            assert len(on) <= MOST == 3


def test_a_script_with_nothing_to_show_gets_no_directions() -> None:
    assert suggest(lesson_of("Hello, and welcome to the pond. Goodbye!")) == ()


def test_a_file_is_read_and_comes_back_with_directions(tmp_path: Path) -> None:
    path = tmp_path / "a.lesson.md"
    path.write_text("---\ntitle: Pond\n---\nFive, six, seven, eight.\n", "utf-8")
    assert "[show ten frame: 5 dots]" in suggest_file(path)
    with pytest.raises(UnusableInput):
        suggest_file(tmp_path / "none.lesson.md")


_TALK = st.lists(
    st.sampled_from(
        [
            *"one two three five seven nine twelve 4 14 30 and plus equals is make makes frogs sit on hop".split(),
            *"off the log how many more left are there now . . ? , needs to get whole part other one ten".split(),
            *"ones tens four count back by fives tallies path frame dots".split(),
            "\n\n",
        ]
    ),
    min_size=1,
    max_size=60,
).map(" ".join)


@settings(max_examples=60, deadline=None)
@given(st.one_of(_TALK, st.text(max_size=120)))
def test_any_text_at_all_can_be_given(text: str) -> None:
    try:
        lesson = lesson_of(text)
    except UnusableInput:
        return
    assert not new_troubles(lesson)


def new_troubles(lesson: Lesson) -> Counter[str]:
    """What the check finds with the suggested directions and not, or not as often, without them."""
    before, after = (
        Counter(re.sub(r"^\d+ |[Ll]ine \d+", "", trouble) for trouble in troubles(text))
        for text in (lesson.text, apply(lesson.text, suggest(lesson)))
    )
    return after - before


def test_a_question_gets_its_picture_time_to_think_and_its_answer_when_it_is_said() -> None:
    assert with_directions(
        "There are eight dots.\nHow many more does eight need to get to ten?\nTwo. Eight and two make ten.\n"
    ) == (
        "[show dots: 8 dots]\nThere are eight dots.\n"
        "[show number bond: 10 is 8 and ?]\nHow many more does eight need to get to ten?\n"
        "[wait 4 s]\n[dots: add 2 crosses]\n[number bond: fill in 2]\nTwo. Eight and two make ten.\n\n"
    )


def test_every_wait_is_long_enough() -> None:
    """Three seconds or more give longer, more correct answers (Rowe 1972, 1974)."""
    for talk in TALKS.values():
        lesson = lesson_of(talk)
        waits = [d for d in read(apply(lesson.text, suggest(lesson))).directions if isinstance(d, Wait)]
        assert all(wait.seconds >= 3 for wait in waits)
    assert waits


def test_a_question_to_which_she_wants_no_answer_gets_no_wait() -> None:
    assert directions("Are you ready? Can you see the frogs? Let us go!") == []


def test_a_wait_that_is_there_is_not_doubled() -> None:
    lesson = lesson_of("What is five plus two? [wait 6 s] Seven.")
    assert [s.direction for s in suggest(lesson) if s.direction.startswith("wait")] == []


def test_a_sum_that_is_asked_is_open_until_its_answer_is_said() -> None:
    found = with_directions("15 - 7. Start at 15.\nHop back 5 to 10. Hop back 2 more to 8. 15 - 7 = 8.")
    assert found.startswith("[show number sentence: 15 - 7 = ?]\n15 - 7. ")
    assert "= [number sentence: fill in 8] 8." in found
    assert "[number path: hop 15 to 10] 10." in found
    assert "[number path: hop 10 to 8] 8." in found


def test_a_ten_is_made_first() -> None:
    """8 + 6 = 8 + 2 + 4 = 10 + 4 = 14: CCSSM 1.OA.C.6."""
    found = directions("Eight plus six. Eight and two make ten. Ten and four make fourteen.")
    assert "show double ten frame: 8 dots" in found
    first, last = found.index("double ten frame: add 2 crosses"), found.index("double ten frame: add 4 crosses")
    assert first < last


def test_a_count_goes_on_from_what_was_told() -> None:
    found = directions("Four frogs come first. Nine are to come.\n\nHere they come. Five, six, seven, eight, nine!")
    assert found[:2] == ["show ten frame: 4 dots", "ten frame: add 5 crosses, counting"]


def test_a_count_in_two_parts_is_one() -> None:
    """Tens first and then ones: 1.NBT.B.2."""
    found = directions("Count the tens. 10, 20, 30. Now the ones. 31, 32, 33. There are 33.")
    assert found == ["show base ten: 33", "base ten: count"]


def test_two_amounts_are_compared_by_bars() -> None:
    found = directions(
        "Otter has nine shells. Duck has seven shells. Nine is greater than seven. How many more? Two more."
    )
    assert found[0] == "show compare bars: 9 and 7"
    assert "compare bars: fill in 2" in found


def test_neighbours_are_open_until_they_are_said() -> None:
    assert with_directions("The number of the day is 13.\n\n1 less is 12, and 1 more is 14.").endswith(
        "[show more and less: 13]\n1 less is [more and less: fill in 12] 12, and 1 more is [more and less: fill in 14] 14.\n"
    )


def test_something_new_begins_with_a_clear_screen() -> None:
    found = directions(
        "Six and four make ten. You found them, and I am proud of you.\n\nNow look at this. I see eight dots here for you, and I like them very much.\n\n"
        "Eight needs two more to get to ten."
    )
    assert found.index("clear") < found.index("show dots: 8 dots")


def words_of(path: Path) -> str:
    """What is said in a lesson script, without its directions."""
    return without_directions(path.read_text("utf-8").split("---\n", 2)[2])


@pytest.mark.parametrize(
    "path", [path for path in LESSONS if PURPOSE not in path.read_text("utf-8")], ids=lambda path: path.stem
)
def test_clean_lessons_pass_the_check_with_what_is_suggested(path: Path) -> None:
    lesson = lesson_of(words_of(path))
    assert suggest(lesson)
    assert not new_troubles(lesson)


@pytest.mark.parametrize(
    "path", [path for path in EVERY if PURPOSE in path.read_text("utf-8")][-6:], ids=lambda path: path.stem
)
def test_a_script_with_a_slip_gets_its_pictures_all_the_same(path: Path) -> None:
    """Without its note "on purpose" the mistake in it is a slip."""
    assert len(suggest(lesson_of(words_of(path)))) > 3


def test_what_the_check_always_minds_is_taken_back() -> None:
    """A number that nothing explains is only minded beside a picture: then there is none beside it."""
    lesson = lesson_of(
        "Five, six, seven, eight. Seven otters, 19 herons, 44 ducks and 31 eels watch. Six plus two is eight."
    )
    assert not new_troubles(lesson)


def test_a_list_of_pairs_shows_each_with_its_own_words() -> None:
    found = with_directions("Seven is zero and seven, one and six, two and five, or three and four.")
    assert "[show number bond: 7 is 1 and ?] one and [number bond: fill in 6] six" in found
    assert "[show number bond: 7 is 2 and ?] two and [number bond: fill in 5] five" in found


def test_cards_that_are_counted_light_up() -> None:
    found = directions("Look at my cards in their row. Zero, one, two, three, four, five, six.")
    assert found == ["show cards: 0 to 6", "cards: count"]


def test_a_story_whose_answer_is_never_said_is_not_drawn() -> None:
    found = directions(
        "Seven frogs sit on a log. Two more frogs hop on. How many frogs are there?\n\nNow it is your turn."
    )
    assert not any(direction.startswith("show") for direction in found)


def test_another_example_begins_with_an_empty_screen() -> None:
    words = (
        "Six and four make ten.\n\nHere is another one.\n\nTen is the whole. Seven is one part. What is the missing part?\n"
        "It is three. Seven and three make ten.\n"
    )
    assert "[clear]\nHere is another one." in with_directions(words)
    assert "[clear]" not in with_directions("One duck comes. Another one. Two ducks. Three ducks swim.")
