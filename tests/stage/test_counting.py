"""Counts bound to the number words that are spoken."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from studio.agree.reading import case_of
from studio.script.reader import read
from studio.stage.model import Stage
from studio.stage.staging import stage


def staged(body: str) -> tuple[list[str], Stage]:
    lesson = read("---\ntitle: Pond\n---\n" + body)
    return [word.plain for word in lesson.words], stage(lesson)


def counted(body: str) -> list[tuple[str, int | None]]:
    words, result = staged(body)
    assert [f.message for f in result.findings if f.level == "error"] == []
    return [(words[m.word], m.number) for m in result.moments if m.counted]


def test_a_cross_goes_down_on_each_number_word() -> None:
    # The example of the script language.
    assert counted("[show ten frame: 5 dots as frame]\n[frame: add 3 crosses, counting]\nFive, six, seven, eight.") == [
        ("six", 6), ("seven", 7), ("eight", 8),
    ]  # fmt: skip


def test_other_words_and_numbers_may_stand_between() -> None:
    body = "[show dots: 5 dots]\n[dots: take away 2, counting]\nNow two of them hop away. Five. Four, three."
    assert counted(body) == [("four", 4), ("three", 3)]


def test_tallies_are_counted_by_fives_and_then_by_ones() -> None:
    body = "[show tally: 12]\n[tally: count by 5]\nFive, ten, eleven, twelve."
    assert [number for _, number in counted(body)] == [5, 10, 11, 12]


@pytest.mark.parametrize(
    ("body", "numbers"),
    [
        ("[show tally: 12 as marks]\n[marks: count]\nFive, ten, eleven, twelve.", [5, 10, 11, 12]),
        ("[show tally: 3 as marks]\n[marks: count]\nOne, two, three.", [1, 2, 3]),
        ("[show base ten: 23 as blocks]\n[blocks: count]\nTen, twenty, twenty-one, twenty-two, twenty-three.",
         [10, 20, 21, 22, 23]),
    ],
)  # fmt: skip
def test_what_is_bundled_may_be_counted_by_bundles_or_by_ones(body: str, numbers: list[int]) -> None:
    """FACTS: tallies are counted by fives, then by ones (common practice, no source)."""
    assert [number for _, number in counted(body)] == numbers
    assert staged(body)[1].findings == ()


def test_a_hop_is_counted_from_its_start() -> None:
    body = "[show number path: 0 to 10]\n[number path: hop 7 to 9, counting]\nSeven. Eight, nine."
    assert [number for _, number in counted(body)] == [8, 9]


@pytest.mark.parametrize(
    ("body", "numbers"),
    [
        (
            "[show ten frame: 5 dots as frame]\nFive.\n[frame: add 3 crosses, counting]\nThree more: one, two, three.",
            [6, 7, 8],
        ),
        ("[show dots: 8]\nEight!\n[dots: take away 3, counting]\nOne - two - three - gone! Five stay.", [7, 6, 5]),
        ("[show dots: 5]\n[dots: add 2 crosses, counting]\nFive frogs, and two ducks come: one, two. Seven.", [6, 7]),
        (
            "[show number path: 0 to 10]\nBegin at seven.\n[number path: hop 7 to 9, counting]\nOne hop, two hops.",
            [8, 9],
        ),
    ],
)
def test_what_comes_or_goes_may_be_counted_for_itself(body: str, numbers: list[int]) -> None:
    assert [number for _, number in counted(body)] == numbers


def test_what_comes_is_counted_for_itself_only_where_it_was_said_how_many_there_are() -> None:
    _, result = staged("[show tally: 1]\nA mark for every newt.\n[tally: add 3, counting]\nOne, two, three.")
    assert [f.rule for f in result.findings] == ["count fits picture"]


@pytest.mark.parametrize("said", ["One, two.", "One, two, three, four.", "One, two, four."])
def test_what_comes_is_counted_as_often_as_it_comes(said: str) -> None:
    _, result = staged(f"[show ten frame: 5 dots as frame]\nFive.\n[frame: add 3 crosses, counting]\n{said}")
    assert ["You count 1, 2" in f.message for f in result.findings] == [True]


@pytest.mark.parametrize(
    "said",
    [
        "Five, six, eight.",
        "Five, six, seven, nine.",
        "Five, six, seven.",
        "Five, six, seven, eight, nine.",
        "Hello, pond.",
    ],
)
def test_a_count_that_does_not_fit_is_a_finding_and_the_picture_still_ends_right(said: str) -> None:
    _, result = staged(f"[show ten frame: 5 dots as frame]\n[frame: add 3 crosses, counting]\n{said}")
    errors = [f for f in result.findings if f.level == "error"]
    assert len(errors) == 1 and errors[0].rule == "count fits picture"
    last = result.moments[-1].picture
    assert last is not None and last.marks["crosses"] == 3


def test_a_count_that_fits_is_not_spoiled_by_what_is_said_next() -> None:
    body = (
        "[show dots: 5 dots]\n[dots: add 3 crosses, counting]\nFive. Six, seven, eight. Nine is one more. Eight frogs."
    )
    assert [number for _, number in counted(body)] == [6, 7, 8]


def test_what_a_picture_cannot_show_is_a_finding_and_the_rest_goes_on() -> None:
    _, result = staged("[show ten frame: 13 dots]\n[show dots: 3]\nThree frogs.")
    assert [f.rule for f in result.findings] == ["picture can show that"]
    assert [m.name for m in result.moments] == ["dots"]


def test_a_picture_directly_before_a_wait_is_noted() -> None:
    _, result = staged("How many?\n[show dots: 3]\n[wait 3 s]\nThree frogs.")
    assert [(f.rule, f.level) for f in result.findings] == [("picture before wait", "note")]


@given(st.integers(0, 9), st.integers(1, 10), st.lists(st.sampled_from(["look", "frogs hop", "yes and"]), max_size=12))
def test_any_count_on_is_bound_word_by_word(start: int, more: int, filler: list[str]) -> None:
    more = min(more, 10 - start)
    numbers = [num2words(value) for value in range(start, start + more + 1)]
    spoken = " ".join(f"{word}, {filler[i] if i < len(filler) else ''}" for i, word in enumerate(numbers))
    mark = f"{start} dots" if start else "empty"
    body = f"[show ten frame: {mark} as frame]\n[frame: add {more} crosses, counting]\n{spoken}."
    assert [number for _, number in counted(body)] == list(range(start + 1, start + more + 1))


def test_a_picture_that_goes_before_a_word_is_spoken_is_told() -> None:
    _, peek = staged("Ready?\n[show dots: 3]\n[wait 3 s]\n[hide dots]\nHow many frogs? Three.")
    assert ("picture is seen", "error") in [(f.rule, f.level) for f in peek.findings]
    _, look = staged("Ready?\n[show dots: 3]\nLook.\n[wait 3 s]\n[hide dots]\nHow many frogs? Three.")
    assert "picture is seen" not in [f.rule for f in look.findings]
    _, last = staged("Three frogs.\n[show dots: 3]\n[clear]\nNow the ducks.")
    assert ("picture is seen", "note") in [(f.rule, f.level) for f in last.findings]


@pytest.mark.parametrize(
    ("talk", "numbers"),
    [
        ("Five, ten, eleven, twelve, thirteen.", [5, 10, 11, 12, 13]),
        ("Five, ten, and three more make thirteen.", [5, 10, 13]),
        ("Five, ten, and then there are some strokes left over.", [5, 10]),
    ],
)
def test_what_is_over_may_be_counted_one_by_one_at_once_or_not_at_all(talk: str, numbers: list[int]) -> None:
    found, result = (
        counted(f"[show tally: 13]\n[tally: count by 5]\n{talk}"),
        staged(f"[show tally: 13]\n[tally: count by 5]\n{talk}")[1],
    )
    assert [number for _, number in found] == numbers
    assert not result.findings
    wrong = staged(f"[show tally: 13]\n[tally: count by 5]\n{talk.replace('ten', 'nine')}")[1]
    assert [f.rule for f in wrong.findings] == ["count fits picture"]


def test_what_is_over_of_dots_may_be_counted_at_once_but_not_be_left_out() -> None:
    body = "[show dots: 12 as rolls]\n[rolls: count by 5]\nFive, ten{}."
    assert [number for _, number in counted(body.format(", and two more make twelve"))] == [5, 10, 12]
    assert not staged(body.format(", and two more make twelve"))[1].findings
    for wrong in (", and two more make thirteen", ""):
        assert [f.rule for f in staged(body.format(wrong))[1].findings] == ["count fits picture"]


def test_a_wrong_number_at_the_end_of_a_count_is_told_though_the_right_one_is_said_later() -> None:
    body = "[show dots: 9 as pond]\n[pond: take away 3, counting]\nEight, seven, {}. Buzz! Six frogs stay."
    assert not staged(body.format("six"))[1].findings
    (finding,) = staged(body.format("two"))[1].findings
    assert finding.rule == "count fits picture"
    # who has counted two may say what is between, and go on
    assert not staged("[show dots: 9 as pond]\n[pond: take away 3, counting]\nEight, seven. Two have gone. And six.")[
        1
    ].findings


def test_the_film_and_the_check_count_by_the_same_numbers_where_tasks_are_numbered() -> None:
    body = "[show dots: 5 dots as d]\n[d: add 3 dots, counting]\nOne. Six and one.\nTwo. Seven and two.\nThree. Eight and three."
    lesson = read("---\ntitle: Pond\n---\n" + body)
    assert stage(lesson) == case_of(lesson).stage
    assert not stage(lesson).findings


def test_what_is_written_behind_a_count_happens_when_it_is_counted() -> None:
    frame = "[show ten frame: 5 dots as ducks]\nFive ducks. [ducks: add 3, counting]"
    words, more = staged(frame + " [ducks: add 2]\nSix, seven, eight. Two more make ten.")
    assert [(words[m.word], m.picture and m.picture.total) for m in more.moments][-2:] == [("eight", 8), ("two", 10)]
    words, hidden = staged(frame + " [hide ducks]\nSix, seven, eight. Bye, ducks.")
    assert [(words[m.word], m.picture is None) for m in hidden.moments][-2:] == [("eight", False), ("bye", True)]
    words, cleared = staged(frame + " [clear] [show dots: 4]\nSix, seven, eight. Four.")
    assert [(words[m.word], m.name) for m in cleared.moments][-2:] == [("four", "ducks"), ("four", "dots")]
    assert counted(frame + " [ducks: add 2, counting]\nSix, seven, eight. Nine, ten.") == [
        ("six", 6), ("seven", 7), ("eight", 8), ("nine", 9), ("ten", 10),
    ]  # fmt: skip


def test_of_two_pictures_with_one_name_the_first_is_told_to_be_hidden_by_the_second() -> None:
    _, result = staged("[show ten frame: 5 dots] [show ten frame: 3 dots]\nFive and three make eight.")
    assert [(f.level, "as first]" in f.help) for f in result.findings] == [("error", True)]
    _, result = staged("[show ten frame: 5 dots] [show ten frame: 3 dots as more]\nFive and three make eight.")
    assert result.findings == ()


@pytest.mark.parametrize(
    ("cards", "talk", "numbers"),
    [
        ("3 to 0", "Three, two, one, zero.", [3, 2, 1, 0]),
        ("2, 4, 6, 8", "Two, four, six, eight.", [2, 4, 6, 8]),
        ("10, 20, 30", "Ten, twenty, thirty.", [10, 20, 30]),
        ("10, 20, 30", "One, two, three.", [1, 2, 3]),
        ("3, 5, 8", "One, two, three.", [1, 2, 3]),
    ],
)
def test_a_row_of_cards_is_counted_by_its_numbers_or_card_by_card(cards: str, talk: str, numbers: list[int]) -> None:
    assert [number for _, number in counted(f"[show cards: {cards}]\n[cards: count]\n{talk}")] == numbers


def test_a_slip_in_counting_cards_back_is_a_finding() -> None:
    _, result = staged("[show cards: 5 to 1]\n[cards: count]\nFive, four, two, three, one.")
    assert [finding.rule for finding in result.findings if finding.level == "error"] == ["count fits picture"]


def test_a_picture_that_is_counted_before_another_takes_its_place_is_seen() -> None:
    body = "[show dots: 3 as b] [b: count] [show dots: 6 as b] One, two, three. Now six."
    words, result = staged(body)
    assert result.findings == ()
    assert [(words[m.word], m.picture and m.picture.total) for m in result.moments][-2:] == [("three", 3), ("now", 6)]
