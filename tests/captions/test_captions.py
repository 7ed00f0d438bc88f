"""What captions promise. The limits are those of the Described and Captioned Media Program's Captioning Key for
lower-level educational media (32 characters, 2 seconds, 130 words a minute) and of the BBC subtitle guidelines (two
lines, breaks at punctuation)."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.captions import CaptionStyle, make_captions
from studio.captions.model import TIME_TO_THINK, Captions
from tests.captions.making import POND, spoken_lesson

LONG = 32
NOUNS = st.sampled_from(["frogs", "ducks", "otters", "lily pads", "the pond", "a ten frame", "number bonds"])
WORDS = st.lists(
    st.one_of(st.integers(0, 20).map(str), st.sampled_from("one two and how many is are hop on of to the".split()),
              NOUNS),
    min_size=1, max_size=14,
).map(" ".join)  # fmt: skip
SENTENCES = st.builds(lambda words, end: words.capitalize() + end, WORDS, st.sampled_from([".", "?", "!", ",", ""]))
PARTS = st.lists(st.one_of(SENTENCES, st.floats(0.5, 20.0)), min_size=1, max_size=8)
LESSONS = st.lists(st.tuples(st.just("At the pond"), PARTS), min_size=1, max_size=3)


def said_in(captions: Captions) -> list[str]:
    return " ".join(c.text.replace(TIME_TO_THINK, "") for c in captions.captions).split()


@settings(max_examples=60, deadline=None)
@given(LESSONS, st.floats(60, 260))
def test_every_word_is_captioned_once_and_in_order(segments, pace):
    lesson, sheet = spoken_lesson(*segments, pace=pace)
    assert said_in(make_captions(lesson, sheet)) == [word.text for word in sheet.words]


@settings(max_examples=60, deadline=None)
@given(LESSONS, st.floats(60, 260))
def test_a_caption_keeps_the_limits_or_a_note_names_it(segments, pace):
    lesson, sheet = spoken_lesson(*segments, pace=pace)
    captions = make_captions(lesson, sheet)
    noted = {note.time for note in captions.notes}
    for caption in captions.captions:
        assert 1 <= len(caption.lines) <= 2
        assert all(0 < len(line) <= LONG for line in caption.lines)
        seconds = caption.end - caption.start
        rate = len(caption.text.replace(TIME_TO_THINK, "").split()) * 60 / seconds
        assert caption.start in noted or (seconds >= 1.999 and rate <= 130.1)
    for before, after in pairwise(captions.captions):
        assert before.start < before.end <= after.start


@settings(max_examples=60, deadline=None)
@given(LESSONS, st.floats(60, 260))
def test_a_caption_comes_with_its_first_word_and_stays_to_its_last(segments, pace):
    lesson, sheet = spoken_lesson(*segments, pace=pace)
    spoken = iter(sheet.words)
    for caption in make_captions(lesson, sheet).captions:
        if not caption.words:
            continue
        own = [next(spoken) for _ in range(caption.words)]
        assert abs(caption.start - own[0].start) <= 0.15
        assert caption.end >= own[-1].end - 0.15
        needed = max(2.0, caption.words * 60 / 130)
        stays_for_a_wait = TIME_TO_THINK in caption.lines
        assert stays_for_a_wait or caption.end <= max(own[-1].end, caption.start + needed) + 0.15


@pytest.mark.parametrize("pace", [90, 110])
def test_at_the_pace_of_a_lesson_no_caption_breaks_a_limit(pace):
    lesson, sheet = spoken_lesson(*POND, pace=pace)
    assert make_captions(lesson, sheet).notes == ()


def test_a_fast_line_is_captioned_whole_and_named_with_its_rate():
    lesson, sheet = spoken_lesson(
        ("Ducks", ["Eleven ducks swim on the wide and windy pond and four of them hop off."]), pace=260
    )
    captions = make_captions(lesson, sheet)
    assert said_in(captions) == [word.text for word in sheet.words]
    note = captions.notes[0]
    assert note.level == "note" and note.line == 6
    assert f"{captions.captions[0].rate:.0f} words a minute" in note.message


def test_a_wait_is_captioned_and_no_words_stand_over_it():
    lesson, sheet = spoken_lesson(("Ducks", ["How many ducks?", 5.0, "Four ducks swim on the pond."]))
    question, wait, answer = make_captions(lesson, sheet).captions
    assert wait.lines == (TIME_TO_THINK,)
    assert wait.end == pytest.approx(sheet.waits[0].end, abs=0.001)
    assert question.text == "How many ducks?" and answer.start == sheet.words[3].start


def test_a_wait_too_short_for_its_own_caption_goes_under_the_question():
    lesson, sheet = spoken_lesson(("Ducks", ["How many?", 1.5, "Four ducks swim on the pond."]))
    captions = make_captions(lesson, sheet).captions
    assert captions[0].lines == ("How many?", TIME_TO_THINK)
    assert captions[0].end == pytest.approx(sheet.waits[0].end, abs=0.001)


def test_an_answer_after_a_long_silence_has_its_own_caption():
    lesson, sheet = spoken_lesson(("Ducks", ["How many ducks are there?", 0.0, "Four."]))
    late = tuple(w if w.word < 5 else type(w)(w.word, w.text, w.start + 4, w.end + 4) for w in sheet.words)
    sheet = type(sheet)(sheet.duration + 4, late, (), sheet.segments, (), (), sheet.pieces, recorded=True)
    assert [c.text for c in make_captions(lesson, sheet).captions] == ["How many ducks are there?", "Four."]


def test_a_new_segment_begins_a_new_caption():
    lesson, sheet = spoken_lesson(("One", ["Look at"]), ("Two", ["the pond."]))
    assert [c.text for c in make_captions(lesson, sheet).captions] == ["Look at", "the pond."]


def test_a_number_sentence_is_not_broken():
    lesson, sheet = spoken_lesson(
        ("Ducks", ["Eleven minus four is seven. 11 - 4 = 7 is the number sentence that goes with it."])
    )
    assert any("11 - 4 = 7" in line for c in make_captions(lesson, sheet).captions for line in c.lines)


def test_signs_without_spaces_stay_without_spaces():
    lesson, sheet = spoken_lesson(("Ducks", ["Now 7 + 2 = 9 fits."]))
    from dataclasses import replace

    words = tuple(replace(w, glued=2 <= w.index <= 5) for w in lesson.words)
    lesson = replace(lesson, segments=(replace(lesson.segments[0], words=words),))
    assert make_captions(lesson, sheet).captions[0].text == "Now 7+2=9 fits."


@pytest.mark.parametrize(
    ("style", "said", "written"),
    [
        ("words to ten", "There are 7 frogs.", "There are seven frogs."),
        ("words to ten", "I see fourteen ducks.", "I see 14 ducks."),
        ("words to ten", "7 frogs sit there.", "Seven frogs sit there."),
        ("words to ten", "Fourteen ducks swim.", "Fourteen ducks swim."),
        ("words to ten", "Count: nine, ten, eleven.", "Count: 9, 10, 11."),
        ("words to ten", "So 7 + 2 = 9 holds.", "So 7 + 2 = 9 holds."),
        ("words to ten", "I see twenty one ducks.", "I see 21 ducks."),
        ("digits", "There are seven frogs and two otters.", "There are 7 frogs and 2 otters."),
        ("digits", "The next one is the third one.", "The next one is the third one."),
        ("digits", "A dozen ducks look at the ten frame.", "A dozen ducks look at the ten frame."),
        ("as said", "There are 7 frogs and two ducks.", "There are 7 frogs and two ducks."),
    ],
)  # fmt: skip
def test_numbers_are_written_in_the_style_of_the_series(style, said, written):
    lesson, sheet = spoken_lesson(("Numbers", [said]))
    captions = make_captions(lesson, sheet, CaptionStyle(numerals=style))
    assert " ".join(c.text for c in captions.captions) == written


def test_a_word_longer_than_a_line_is_cut_between_letters():
    long = "é" * 40 + "👩‍👩‍👧" * 9 + "x" * 50
    lesson, sheet = spoken_lesson(("Odd", [f"Look: {long} there."]))
    lines = [line for c in make_captions(lesson, sheet).captions for line in c.lines]
    assert max(map(len, lines)) <= LONG
    assert "".join(lines).replace(" ", "") == f"Look:{long}there."
    assert not any(line.startswith("\u200d") or line.endswith("\u200d") for line in lines)


def test_a_lesson_without_a_word_has_no_captions():
    lesson, sheet = spoken_lesson(("Quiet", []))
    assert make_captions(lesson, sheet).captions == ()
