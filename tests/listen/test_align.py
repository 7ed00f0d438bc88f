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
