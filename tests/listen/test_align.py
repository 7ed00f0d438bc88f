from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.listen.align import lay
from studio.listen.model import Heard, HeardWord, Take
from studio.listen.take import make_take
from tests.listen.speech import lesson

SCRIPT = """
# Warm up
Here are seven frogs on a lily pad.
Let us count on. Eight, nine.
Seven and two make nine.
# A story
One ten and four ones make fourteen.
There are thirteen ducks in the reeds.
"""


def heard(text: str, pace: float = 0.4) -> Heard:
    words = text.split()
    made = tuple(HeardWord(word, at * pace, (at + 0.8) * pace) for at, word in enumerate(words))
    return Heard(made, len(words) * pace + 1, "none")


def take_of(text: str, script: str = SCRIPT) -> Take:
    words = lesson(script).words
    said = heard(text)
    return make_take(words, said, lay(words, said.words))


def verdicts(take: Take) -> list[tuple[str, str]]:
    return [(word.heard, word.verdict) for word in take.said if word.verdict != "as-written"]


GOOD = (
    "Here are seven frogs on a lily pad. Let us count on eight, nine. Seven and two make nine. One ten and four ones "
    "make fourteen. There are thirteen ducks in the reeds."
)


def test_a_take_as_written_has_no_place_to_record_again() -> None:
    take = take_of(GOOD)
    assert take.matched == 1.0 and not take.retakes and not verdicts(take)


def test_another_number_is_told_with_both_numbers_and_its_line() -> None:
    take = take_of(GOOD.replace("make nine", "make eight"))
    assert verdicts(take) == [("eight.", "different")]
    (retake,) = take.retakes
    assert retake.line == 4 and "nine" in retake.reason and "eight" in retake.reason


def test_a_skipped_sentence_is_told_with_its_numbers() -> None:
    take = take_of(GOOD.replace("There are thirteen ducks in the reeds.", ""))
    (retake,) = take.retakes
    assert retake.line == 7 and "thirteen" in retake.reason and "not heard" in retake.reason
    assert sum(verdict == "skipped" for _, verdict in verdicts(take)) == 7


def test_a_wrong_number_before_a_skipped_sentence_stays_with_its_own_sentence() -> None:
    take = take_of(GOOD.replace("make fourteen. There are thirteen ducks in the reeds.", "make thirteen."))
    assert ("thirteen.", "different") in verdicts(take)


def test_of_a_sentence_said_twice_the_last_counts_and_it_is_told() -> None:
    sentence = "Seven and two make nine."
    take = take_of(GOOD.replace(sentence, f"{sentence} {sentence}"))
    extras = [word for word in take.said if word.verdict == "extra"]
    assert [word.text for word in extras] == sentence.split()
    counted = [word for word in take.said if word.line == 4]
    assert max(word.start for word in extras) < min(word.start for word in counted)
    (retake,) = take.retakes
    assert "more than once" in retake.reason


@pytest.mark.parametrize("saying", ["Seven and two make nine.", "Seven and two bake nine."])
def test_a_sentence_said_four_times_is_told_once_with_how_often(saying: str) -> None:
    take = take_of(GOOD.replace("Seven and two make nine.", " ".join([saying] * 4)))
    (retake,) = take.retakes
    assert retake.line == 4 and "said four times" in retake.reason and retake.script == "Seven and two make nine."


def test_the_captions_of_a_saying_that_does_not_count_have_the_words_of_the_script() -> None:
    take = take_of(GOOD.replace("There are thirteen", "There are thirteen bucks in the reads. There are thirteen"))
    extras = [word.text for word in take.said if word.verdict == "extra"]
    assert " ".join(extras) == "There are thirteen ducks in the reeds."


def test_another_number_in_a_saying_that_does_not_count_stays_as_it_was_said() -> None:
    take = take_of(GOOD.replace("Seven and two make nine.", "Seven and two make ten. Seven and two make nine."))
    assert "ten." in [word.text for word in take.said if word.verdict == "extra"]


def test_the_last_saying_counts_even_when_it_is_the_one_with_the_slip() -> None:
    take = take_of(GOOD.replace("Seven and two make nine.", "Seven and two make nine. Seven and two make ten."))
    assert ("ten.", "different") in verdicts(take)


def test_a_sentence_begun_and_begun_again_counts_from_the_second_beginning() -> None:
    take = take_of(GOOD.replace("There are thirteen", "There are three There are thirteen"))
    assert [word.text for word in take.said if word.verdict == "extra"] == ["There", "are", "three"]
    assert take.matched == 1.0


def test_an_aside_is_extra_and_is_told_only_when_it_has_a_number() -> None:
    plain = take_of(GOOD.replace("Seven and two", "Oh look at that splash. Seven and two"))
    assert not plain.retakes and plain.matched == 1.0
    counted = take_of(GOOD.replace("Seven and two make", "Oh I can see five herons. Seven and two make"))
    (retake,) = counted.retakes
    assert "five" in retake.reason and retake.line is None


def test_um_is_extra_and_is_not_told() -> None:
    take = take_of(GOOD.replace("four ones", "um four ones"))
    assert not take.retakes and [word.text for word in take.said if word.verdict == "extra"] == ["um"]


@pytest.mark.parametrize("breath", ["…", "-", "♪ ♪"])
def test_what_is_written_down_for_a_breath_is_no_word(breath: str) -> None:
    take = take_of(GOOD.replace("lily pad.", f"lily pad. {breath}"))
    assert take.matched == 1 and not take.retakes


def test_a_count_that_skips_a_number_is_told() -> None:
    script = "# Count\nCount with me. Five, six, seven, eight, nine, ten."
    take = take_of("Count with me. Five, six, seven, nine, ten.", script)
    assert verdicts(take) == [("", "skipped")]
    (retake,) = take.retakes
    assert "eight" in retake.reason


def test_a_sentence_in_signs_matches_how_it_is_said() -> None:
    script = "# Sum\nRead it with me.\n7 + 2 = 9"
    take = take_of("Read it with me. Seven plus two equals nine.", script)
    assert take.matched == 1.0


def test_more_and_fewer_are_told_apart() -> None:
    take = take_of("He has two fewer frogs.", "# S\nHe has two more frogs.")
    assert take.retakes and "numbers" in take.retakes[0].reason


def rested(*stretches: str, pause: float = 2.0) -> Heard:
    """What is heard, with a pause between the stretches."""
    words: list[HeardWord] = []
    at = 0.0
    for stretch in stretches:
        for word in stretch.split():
            words.append(HeardWord(word, at, at + 0.3))
            at += 0.35
        at += pause
    return Heard(tuple(words), at, "none")


def test_talk_after_a_pause_is_not_taken_for_the_last_word_of_the_script() -> None:
    words = lesson("# S\nSeven and two make nine.\nSee you at the pond tomorrow.").words
    said = rested("Seven and two make nine.", "See you at the pantamaro.", "Okay, that was it. Where is the button?")
    take = make_take(words, said, lay(words, said.words))
    assert next(word.heard for word in take.said if word.text.startswith("Okay")) == "Okay,"
    assert {word.heard: word.word for word in take.said}["Okay,"] is None
    assert {word.heard: word.word for word in take.said}["pantamaro."] == len(words) - 1


def test_a_slow_count_with_a_slip_is_laid_number_by_number() -> None:
    words = lesson("# S\nCount with me.\nFive, six, seven, eight.").words
    said = rested("Count with me.", "Five,", "six,", "eight,", "nine.")
    take = make_take(words, said, lay(words, said.words))
    assert [(word.text, word.verdict) for word in take.said[3:]] == [
        ("Five,", "as-written"), ("six,", "as-written"), ("eight,", "different"), ("nine.", "different"),
    ]  # fmt: skip


def test_parts_in_another_order_are_told_as_such_and_not_as_skipped_sentences() -> None:
    first, last = "One ten and four ones make fourteen. There are thirteen ducks in the reeds.", GOOD.split(" One")[0]
    take = take_of(f"{first} {last}")
    (retake,) = take.retakes
    assert "out of" not in retake.reason and "order of the script" in retake.reason
    (moved,) = take.moved
    words = lesson(SCRIPT).words
    assert words[moved.word].place.line in (2, 6)


def test_a_number_beside_what_was_hardly_made_out_is_unsure_and_not_missing() -> None:
    words = lesson("# S\nLook! Five ducks swim on the water.").words
    texts = "Look, sidewalks swim on the water.".split()
    said = Heard(
        tuple(HeardWord(t, at, at + 0.5, 0.05 if t == "sidewalks" else 0.9) for at, t in enumerate(texts)), 9, ""
    )
    take = make_take(words, said, lay(words, said.words))
    five = next(word for word in take.said if word.word == 1)
    assert (five.verdict, five.text, five.start) == ("unsure", "Five", 1) and not take.retakes


@pytest.mark.parametrize("confidence", [0.1, 0.9])
def test_a_word_with_the_sound_of_the_number_is_unsure_and_not_another(confidence: float) -> None:
    words = lesson("# S\nHow many do we need to get to eight?").words
    texts = "How many do we need to get to it?".split()
    said = Heard(tuple(HeardWord(text, at, at + 0.5, confidence) for at, text in enumerate(texts)), 9, "")
    take = make_take(words, said, lay(words, said.words))
    assert take.said[-1].verdict == "unsure" and take.said[-1].text == "eight?" and not take.retakes


def test_a_sentence_where_speech_was_not_made_out_is_to_be_listened_to_at_its_place() -> None:
    words = lesson("# S\nSeven, six, five, four.\nThe otter has seven shells.").words
    texts = "The otter has seven shells.".split()
    heard_words = tuple(HeardWord(text, 5 + at * 0.4, 5.3 + at * 0.4) for at, text in enumerate(texts))
    said = Heard(heard_words, 9.0, "none", ((0.2, 2.2),))
    take = make_take(words, said, lay(words, said.words))
    (retake,) = take.retakes
    assert "Listen yourself" in retake.reason and (retake.start, retake.end) == (0.2, 2.2)
    assert [word.start for word in take.said[:4]] == pytest.approx([0.2, 0.7, 1.2, 1.7])
    assert take.said[4].start == 5


WORDS = st.lists(st.sampled_from("seven frogs and two make nine ten ducks um there".split()), max_size=25)
SAID = st.lists(st.sampled_from("seven frogs and two make nine ten ducks um there … ♪".split()), max_size=25)


@given(WORDS, SAID)
@settings(max_examples=80, deadline=None)
def test_every_script_word_stands_once_every_heard_word_is_kept_and_times_only_grow(
    script: list[str], said: list[str]
) -> None:
    words = lesson("# S\n" + " ".join(script)).words if script else ()
    ears = heard(" ".join(said))
    take = make_take(words, ears, lay(words, ears.words))
    assert sorted(word.word for word in take.said if word.word is not None) == list(range(len(words)))
    assert [word.word for word in take.said if word.word is not None] == list(range(len(words)))
    spoken = " ".join(word.heard for word in take.said if word.heard).split()
    assert spoken == said
    starts = [word.start for word in take.said]
    assert starts == sorted(starts) and all(word.end >= word.start for word in take.said)
    assert 0.0 <= take.matched <= 1.0
