"""Listening to real (synthetic) speech. flite's own phone times are the reference for onsets."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from studio.errors import UnusableInput
from studio.hear import spoken_findings
from studio.listen.api import Ears, Listening, listen
from studio.listen.recording import RATE, clock
from tests.listen.media import tone
from tests.listen.speech import join, lesson, needs_speech, say, silence, write_wav

pytestmark = needs_speech

SCRIPT = """
# Warm up
Here are seven frogs on a lily pad.
Seven and two make nine.
# A story
One ten and four ones make fourteen.
Thirteen ducks are on the log.
"""
SENTENCES = (
    "Here are seven frogs on a lily pad.",
    "Seven and two make nine.",
    "One ten and four ones make fourteen.",
    "Thirteen ducks are on the log.",
)


@pytest.fixture(scope="module")
def slipped(tmp_path_factory: pytest.TempPathFactory, ears: Ears) -> Listening:
    """One sentence with a wrong number, one said twice, one aside with a number."""
    folder = tmp_path_factory.mktemp("slips")
    said = [
        SENTENCES[0], "Seven and two make eight.", SENTENCES[2], SENTENCES[2], "Look, five herons.", SENTENCES[3],
    ]  # fmt: skip
    path = write_wav(folder / "take.wav", join([join([say(text), silence(0.9)]) for text in said]))
    return listen(path, lesson(SCRIPT), ears, cache=False)


def test_a_wrong_number_is_told_with_its_line_and_time(slipped: Listening) -> None:
    assert slipped.take is not None
    wrong = [retake for retake in slipped.take.retakes if "eight" in retake.reason]
    assert len(wrong) == 1 and wrong[0].line == 3 and "nine" in wrong[0].reason
    first = len(say(SENTENCES[0])) / RATE + 0.9
    assert first <= wrong[0].start <= first + 0.6


def test_a_sentence_said_twice_is_told_and_its_last_saying_counts(slipped: Listening) -> None:
    assert slipped.take is not None
    assert any("more than once" in retake.reason for retake in slipped.take.retakes)
    lengths = [len(say(text)) / RATE + 0.9 for text in (SENTENCES[0], "Seven and two make eight.", SENTENCES[2])]
    counted = next(word for word in slipped.take.said if word.line == 5 and word.word is not None)
    assert counted.start > sum(lengths)


def test_nothing_else_is_told(slipped: Listening) -> None:
    assert slipped.take is not None
    assert len(slipped.take.retakes) == 3
    as_written = [word for word in slipped.take.said if word.verdict == "as-written"]
    assert len(as_written) >= len(lesson(SCRIPT).words) - 1


def test_the_json_has_the_keys_of_the_interface(slipped: Listening) -> None:
    value = slipped.as_json()
    assert set(value) == {"words", "chapters", "retakes"}
    assert all(set(word) == {"text", "start", "end", "line", "verdict"} for word in value["words"])
    assert [chapter["title"] for chapter in value["chapters"]] == ["Warm up", "A story"]
    assert all(set(retake) == {"start", "end", "line", "script", "heard", "reason"} for retake in value["retakes"])


def test_chapters_start_where_their_segment_is_said(slipped: Listening) -> None:
    second = len(say(SENTENCES[0])) / RATE + len(say("Seven and two make eight.")) / RATE + 1.8
    # The sentence is said twice; the second saying counts.
    second += len(say(SENTENCES[2])) / RATE + 0.9
    assert slipped.chapters[1].start == pytest.approx(second + 0.2, abs=0.3)


def test_number_words_begin_where_the_voice_begins_them(tmp_path: Path, ears: Ears) -> None:
    """After a pause a word begins where the sound does: the sound was put there by this test."""
    parts, true, at = [], [], 0.0
    for text in ("five", "six", "seven", "eight"):
        spoken = say(text)
        loud = np.abs(spoken.astype(int)) > 600
        true.append(at + 0.5 + float(np.argmax(loud)) / RATE)
        parts += [silence(0.5), spoken]
        at += 0.5 + len(spoken) / RATE
    result = listen(write_wav(tmp_path / "count.wav", join([*parts, silence(0.5)])), None, ears, cache=False)
    heard = [(word.text.lower().strip(".,!?"), word.start) for word in result.heard.words]
    assert [text for text, _ in heard] == ["five", "six", "seven", "eight"]
    assert max(abs(start - onset) for (_, start), onset in zip(heard, true, strict=True)) < 0.12


def test_the_same_number_words_stay_words_and_no_numerals_are_written(slipped: Listening) -> None:
    assert not any(character.isdigit() for word in slipped.heard.words for character in word.text)


def test_two_takes_are_heard_as_one_lesson(tmp_path: Path, ears: Ears) -> None:
    first = write_wav(tmp_path / "one.wav", join([say(SENTENCES[0]), silence(0.5), say(SENTENCES[1])]))
    second = write_wav(tmp_path / "two.wav", join([say(SENTENCES[2], "rms"), silence(0.5), say(SENTENCES[3], "rms")]))
    result = listen([first, second], lesson(SCRIPT), ears, cache=False)
    assert result.take is not None and result.take.matched == 1.0 and not result.take.retakes
    assert result.chapters[1].start >= result.recording.takes[1].start


def test_quiet_sound_beside_a_dead_channel_is_heard(tmp_path: Path, ears: Ears) -> None:
    spoken = join([say(text) for text in SENTENCES])
    quiet = (spoken.astype(float) * 0.01).astype(np.int16)
    both = np.stack([np.zeros_like(quiet), quiet], axis=1)
    result = listen(write_wav(tmp_path / "quiet.wav", both, channels=2), lesson(SCRIPT), ears, cache=False)
    assert result.take is not None and result.take.matched > 0.95
    assert any("left channel" in note for note in result.notes)


def test_music_and_noise_give_no_words(tmp_path: Path, ears: Ears) -> None:
    """Chords of a made-up tune, then the hiss of a room: no sentence may be invented."""
    tune = join([tone(0.4, 0.1, pitch) + tone(0.4, 0.1, pitch * 1.5) for pitch in (262, 330, 392, 330) * 4])
    hiss = np.random.default_rng(3).normal(0, 900, 5 * RATE).astype(np.int16)
    with pytest.raises(UnusableInput, match="no words"):
        listen(write_wav(tmp_path / "tune.wav", join([tune, hiss])), None, ears, cache=False)


def test_the_recording_of_another_lesson_is_refused_with_how_much_matched(tmp_path: Path, ears: Ears) -> None:
    path = write_wav(tmp_path / "other.wav", join([say(text) for text in SENTENCES]))
    other = lesson(
        "# Tally\nWe draw one line for each otter.\nEvery fifth line crosses the group.\nCount the groups by fives.\n"
        "How many otters came to the bridge this morning?\nWrite the number twelve beside the drawing."
    )
    with pytest.raises(UnusableInput, match=r"another lesson.*\d+ of the \d+ words"):
        listen(path, other, ears, cache=False)


def test_a_single_word_is_not_the_recording_of_a_lesson_and_one_part_of_it_is(tmp_path: Path, ears: Ears) -> None:
    word = write_wav(tmp_path / "word.wav", join([silence(0.3), say("Seven.")]))
    with pytest.raises(UnusableInput, match=r"only 1 of the \d+ words .* is heard"):
        listen(word, lesson(SCRIPT), ears, cache=False)
    part = listen(write_wav(tmp_path / "part.wav", say(SENTENCES[1])), lesson(SCRIPT), ears, cache=False)
    assert part.take is not None and part.take.said[0].verdict == "skipped"


def test_takes_in_another_order_are_told_with_the_right_one(tmp_path: Path, ears: Ears) -> None:
    first = write_wav(tmp_path / "one.wav", join([say(text) for text in SENTENCES[:2]]))
    second = write_wav(tmp_path / "two.wav", join([say(text) for text in SENTENCES[2:]]))
    result = listen([second, first], lesson(SCRIPT), ears, cache=False)
    assert any("one.wav, two.wav" in note for note in result.notes)
    assert result.take is not None
    assert [retake.reason for retake in result.take.retakes if "not heard" in retake.reason] == []
    assert spoken_findings(lesson(SCRIPT), result.take) == ()


def test_talk_before_and_after_the_script_is_told_with_its_time(tmp_path: Path, ears: Ears) -> None:
    before, after = say("Is the lamp all right like this?"), say("That was everything for today.")
    middle = join([join([say(text), silence(0.5)]) for text in SENTENCES])
    parts = [before, silence(1.5), middle, silence(1.0), after, silence(0.5)]
    notes = listen(write_wav(tmp_path / "take.wav", join(parts)), lesson(SCRIPT), ears, cache=False).notes
    end = sum(map(len, parts[:4])) / RATE
    assert len(notes) == 2 and all("not in the script" in note for note in notes)
    assert "0:00–0:0" in notes[0] and clock(end + 0.2) in notes[1]


def test_a_recording_that_holds_the_beginning_only_is_asked_whether_it_is_whole(tmp_path: Path, ears: Ears) -> None:
    path = write_wav(tmp_path / "half.wav", join([say(text) for text in SENTENCES[:2]]))
    (note,) = listen(path, lesson(SCRIPT), ears, cache=False).notes
    assert "stops after line 3" in note


def test_what_was_heard_once_is_kept_by_content(tmp_path: Path, ears: Ears, monkeypatch: pytest.MonkeyPatch) -> None:
    path = write_wav(tmp_path / "take.wav", say(SENTENCES[1]))
    first = listen(path, None, ears)
    import studio.listen.hear

    def not_again(*_: object) -> None:
        raise AssertionError("it was heard again")

    monkeypatch.setattr(studio.listen.hear, "hear", not_again)
    moved = path.rename(tmp_path / "renamed.wav")
    assert listen(moved, None, ears).heard == first.heard


def test_without_room_for_the_store_it_listens_all_the_same(
    tmp_path: Path, ears: Ears, monkeypatch: pytest.MonkeyPatch
) -> None:
    import studio.store

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(studio.store.Store, "put_bytes", full)
    assert listen(write_wav(tmp_path / "take.wav", say(SENTENCES[1])), None, ears).heard.words


def test_the_same_recording_is_heard_the_same_twice(tmp_path: Path, ears: Ears) -> None:
    path = write_wav(tmp_path / "take.wav", say(SENTENCES[2], "rms"))
    assert listen(path, None, ears, cache=False).heard == listen(path, None, ears, cache=False).heard
