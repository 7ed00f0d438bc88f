"""A story is found among the talk of a segment, and none is found where none is."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from studio.script.reader import read
from studio.talk.model import Story
from studio.talk.numbers import find_numbers, words_of
from studio.talk.stories import find_stories, solve


def stories_of(talk: str) -> tuple[Story, ...]:
    lesson = read(f"---\ntitle: Pond\n---\n# Segment\n{talk}\n")
    words = lesson.segments[0].words
    return find_stories(words, find_numbers(words))


LESSON_TALK = """
Here is a story. Close your eyes and see it.

Seven frogs sit on a log. Some more frogs hop on. Now there are *nine* frogs on the log. How many frogs hopped on?

Let us draw it. I draw seven dots for the seven frogs. Now I count on to nine. Eight, nine. That is two crosses.
The whole is nine. One part is seven. The other part is two. Seven plus two equals nine.

So two frogs hopped on.
"""


def test_the_story_is_found_among_drawing_and_counting() -> None:
    (story,) = stories_of(LESSON_TALK)
    assert (story.situation, story.sentence, story.answer) == ("add to, change unknown", "7 + ? = 9", 2)
    assert story.line == 8
    assert story.told == (7, 9)


def test_each_story_of_a_segment_is_found_once() -> None:
    found = stories_of(
        LESSON_TALK
        + """
Now another story. Ten ducks swim on the pond. Four fly away. How many ducks are left on the pond?

Ten take away four is six. Six ducks are left. How many ducks are left? Six!
"""
    )
    assert [story.answer for story in found] == [2, 6]


def test_the_question_may_stand_in_the_next_paragraph_after_talk() -> None:
    (story,) = stories_of(
        """
An otter has eight shells. She finds five more shells.

Let us think about it. Whisper it to a friend.

How many shells does the otter have now?

Thirteen!
"""
    )
    assert (story.sentence, story.answer) == ("8 + 5 = ?", 13)


def test_questions_on_the_way_make_no_story() -> None:
    (story,) = stories_of(
        """
Six turtles rest on the bank. Three more turtles come. How many turtles were there at first? Six.
How many turtles are on the bank now? Nine.
"""
    )
    assert (story.sentence, story.answer) == ("6 + 3 = ?", 9)


def test_a_story_that_leaves_its_answer_open_is_told_as_open() -> None:
    (story,) = stories_of("Some frogs sit on a log. Three frogs hop away. How many frogs were there at first?")
    assert (story.situation, story.answer) == ("", None)


def test_a_warm_up_is_no_story() -> None:
    for talk in (
        "Five needs three more to get to eight. How many more does five need to get to eight? Three.",
        "I have seven dots. How many more dots do I need to make ten? Eight, nine, ten. Three more.",
        "Here are six dots and two crosses. How many are there altogether? Eight.",
        "What are the partners of nine? Nine is four and five. How many is four and five? Nine.",
        "How many tens are in fourteen? One ten and four ones. How many ones? Four ones.",
        "Today our number is twelve. How many is one more than twelve? Thirteen.",
        "Show me eight fingers. How many fingers are up? Eight. How many are down? Two.",
        "What is seven plus two? Nine. What is the total of five and four? Nine.",
        "Look at the frogs on the log. How many frogs do you see? One, two, three, four. Four frogs.",
    ):
        assert stories_of(talk) == (), talk


def test_heard_words_without_a_script_tell_their_story_too() -> None:
    words = words_of("Nine frogs sit on a log. Two hop away. How many frogs are left?")
    (story,) = find_stories(words, find_numbers(words))
    assert (story.answer, story.line) == (7, 0)


_WORDS = st.sampled_from(
    "how many more fewer frogs ducks are left now some the rest other two 7 nine than has have hop away on in all a of "
    "them each needs to get , . ? and but if after he she they first difference between what is did eat give".split()
)


@settings(max_examples=300, deadline=None)
@given(st.one_of(st.text(max_size=200), st.lists(_WORDS, max_size=60).map(" ".join)))
def test_any_text_at_all_is_read(text: str) -> None:
    words = words_of(text)
    for story in find_stories(words, find_numbers(words)):
        assert 0 <= story.start < story.end <= len(words)
        assert story.answer is None or story.answer >= 0
    solve(text, text)
