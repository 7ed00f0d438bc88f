"""Manners in which lessons tell stories: without verbs, by the time of day, as something to imagine, a part
before its whole."""

from __future__ import annotations

import pytest

from studio.talk.stories import find_stories
from tests.stories.test_finding import stories_of

TOLD = [
    ("Newts on a plank. At first, three. More climb up. In the end, eight. How many climbed up?", "3 + ? = 8", 5),
    ("Last night there were sixteen rushes. This morning there are only nine. How many vanished?", "16 - ? = 9", 7),
    ("At first the grebe had nine pebbles. In the evening she had four. How many did she lose?", "9 - ? = 4", 5),
    ("In the morning a puddle held 12 newts. Some newts were washed in from the brook. In the "
     "evening it held 17 newts. "
     "How many newts were washed in?", "12 + ? = 17", 5),
    ("Eleven beetles were dancing. More beetles came to see. Then nineteen were dancing. How many came?",
     "11 + ? = 19", 8),
    ("Ten toads were dancing. Some toads sat down. Now six toads are dancing. How many sat down?", "10 - ? = 6", 4),
    ("When the moon rose, twelve moths were shining. Some of the moths flew off, until only five "
     "were shining. How many moths "
     "flew off?", "12 - ? = 5", 7),
    ("Can you imagine nine ducks by the dam? Can you picture four new ducks paddling up to them? "
     "How many are there now?",
     "9 + 4 = ?", 13),
    ("Imagine seven snails on a wall. Three slide off. How many stay?", "7 - 3 = ?", 4),
    ("Four of the eleven worms have wriggled out. How many worms are still in the pot?", "11 - 4 = ?", 7),
    ("Later, three of the nine newts swam back to the stream. How many newts stayed?", "9 - 3 = ?", 6),
    ("The otters blew bubbles. The mother blew twelve. The father blew some as well. They blew "
     "twenty together. How many did "
     "the father blow?", "12 + ? = 20", 8),
    ("They dived for mussels. The first otter brought five. The second brought seven. The third brought the rest, and "
     "altogether they have nineteen. How many did the third one bring?", "5 + 7 + ? = 19", 7),
    ("Fifteen eggs lie in the sedge. Six are green. Five are brown. The rest are white. How many are white?",
     "6 + 5 + ? = 15", 4),
    ("Five drops are on the leaf. We want eight drops. How many must fall?", "5 + ? = 8", 3),
    ("Snail has three pebbles. She'd like to have seven. How many more does she need?", "3 + ? = 7", 4),
    ("Once, on a foggy day, eight ducks stood on a jetty. Along came five more ducks. How many ducks were there then?",
     "8 + 5 = ?", 13),
    ("Once upon a pond, four turtles sat on a log. Then two more turtles climbed up. How many "
     "turtles were on the log then?",
     "4 + 2 = ?", 6),
    ("Under the bridge there are seven frogs. Then four frogs swim over and join them. How many frogs are there now?",
     "7 + 4 = ?", 11),
    ("There were nine ducks on the lake. Then four ducks swam away. How many ducks are left?", "9 - 4 = ?", 5),
    ("Six otters float. Eight otters dive. How many otters?", "6 + 8 = ?", 14),
    ("Nine crackers are in the bowl. The herons crunch four crackers. How many crackers are in the "
     "bowl now?", "9 - 4 = ?", 5),
    ("Twelve moths rested on a reed. Five zipped away. How many stayed put?", "12 - 5 = ?", 7),
    ("Three newts sit on the right bank. Two more come. How many are on the right?", "3 + 2 = ?", 5),
    ("Some newts sleep. Two more come. Now there are five newts. How many were there before?", "? + 2 = 5", 3),
]  # fmt: skip
OPEN = [
    "Nine things lie in the mud. Five are boots, two of them have no laces, and the rest are tins. How many tins?",
    "Five lights hung there, and some of them blinked out. Only two were shining. How many were resting?",
    "Four of them are red. Three of them are blue. How many moths?",
    "One fish goes round the rock. Three stay behind. How many on the right?",
    "On the bottom, one frog has a frog where the heron has four. Three of its frogs have no partner. That's how "
    "much fuller it is: three.",
]


@pytest.mark.parametrize(("talk", "sentence", "answer"), TOLD, ids=lambda value: str(value)[:40])
def test_the_manner_is_understood(talk: str, sentence: str, answer: int) -> None:
    assert [(story.sentence, story.answer) for story in stories_of(talk)] == [(sentence, answer)]


@pytest.mark.parametrize("talk", OPEN)
def test_what_cannot_be_told_is_left_open(talk: str) -> None:
    assert all(story.answer is None for story in stories_of(talk))


def test_parts_that_are_more_than_their_whole_fit_no_number() -> None:
    (story,) = stories_of(
        "They dived for mussels. The first otter brought nine. The second brought fourteen. The "
        "third brought the rest, "
        "and altogether they have nineteen. How many did the third one bring?"
    )
    assert (story.situation, story.sentence, story.answer) == ("", "9 + 14 + ? = 19", None)


def test_a_time_that_is_waited_for_is_no_amount_before() -> None:
    (story,) = stories_of("The cake lies in the sun for twelve minutes. I look at five. How long before twelve?")
    assert (story.sentence, story.answer) == ("", None)


def test_no_story_begins_where_the_teacher_greets() -> None:
    assert stories_of("Hello, ducklings. Today is all about nine. I put five on the frame. How many will I need?") == ()


def test_nothing_is_found_in_no_words() -> None:
    assert find_stories((), ()) == ()
