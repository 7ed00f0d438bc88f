"""What a number ought to be by what is read in its order (`studio/agree/expect/ordered`)."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.agree.expect.ordered.chances import Chances, chances
from studio.agree.expect.ordered.offers import FIRST, GREATEST, NONE, SEATS, SECOND, of_one, of_three, of_two, seats
from studio.agree.expect.ordered.pieces import LONGEST, pieces
from studio.agree.expect.ordered.reader import load, reader
from studio.agree.expect.ordered.stream import NUMBER, Mention, Stream, Streams
from studio.agree.expect.ordered.wordpieces import MASK, UNKNOWN
from studio.agree.reading import case_of
from studio.script.reader import read
from tests.agree.minded import HEAD

LESSONS = sorted((Path(__file__).parents[2] / "benchmarks" / "unlearned").glob("*.lesson.md"))[::300]
POND = """---
title: Seven at the pond
---

# A frame

[show ten frame: 5 dots as frame] Five frogs. [frame: add 2 crosses, counting] Six, seven.

# A bond for 7

[clear] [show number bond: 7 is 5 and ? as bond] Seven is five and what? [wait 5 s] [bond: fill in] Two.
[show number sentence: 7 - 2 = ? as sum] Count: one, two, three, four, five, six, seven!
"""


def told(text: str, word: int) -> Chances:
    found = chances(case_of(read(HEAD + text)), 0, word)
    assert found is not None
    return found


def test_a_segment_is_read_with_its_directions_and_with_the_end_of_the_one_before() -> None:
    _, second = Streams(read(POND))
    assert " ".join(second.tokens) == (
        "<lesson> # at the pond <before> <show ten frame> <dots> # <shown> # frogs . "
        "<add ten frame> <add crosses> # <shown> # , # . <segment> a bond for # "
        "<clear> <show number bond> <whole> # <part> # <part> ?? <shown> # is # and what ? <wait> "
        "<fillin number bond> <fill number bond> <shown> # . "
        "<show number sentence> # <-> # <=> ?? <shown> count . # , # , # ."
    )
    values = [mention.value for mention in second.mentions]
    assert values == [7, 5, 5, 2, 6, 7, 7, 7, 5, 7, 5, 2, 7, 2, 1, 2, 7]
    assert [values[at] for at in second.titles] == [7, 7]
    assert second.first == 7


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.name[:5])
def test_nothing_that_is_read_tells_a_number_and_each_is_told_once(path: Path) -> None:
    lesson = read(path.read_text(encoding="utf-8"))
    for stream in Streams(lesson):
        assert [at for at, token in enumerate(stream.tokens) if token == NUMBER] == [m.token for m in stream.mentions]
        times = Counter(
            int(at)
            for piece in pieces(stream)
            for at, is_told in zip(piece.mentions, piece.told, strict=True)
            if is_told
        )
        assert times == Counter(range(stream.first, len(stream.mentions)))


@given(st.lists(st.booleans(), max_size=900), st.integers(0, 5))
def test_each_number_of_a_long_segment_is_told_by_one_piece(numbers: list[bool], first: int) -> None:
    tokens = tuple(NUMBER if one else "frog" for one in numbers)
    mentions = tuple(Mention(at % 9, at, at) for at, one in enumerate(numbers) if one)
    stream = Stream(tokens, mentions, min(first, len(mentions)), ())
    found = [*pieces(stream)]
    assert all(len(piece.tokens) <= LONGEST for piece in found)
    assert sum(len(piece.tokens) for piece in found) <= 1.5 * len(tokens) + LONGEST  # in proportion to its length
    times = Counter(int(at) for piece in found for at in piece.mentions[piece.told])
    assert times == Counter(range(stream.first, len(mentions)))


def test_a_segment_is_read_the_same_whether_others_were_read_before_or_not() -> None:
    lesson = read(LESSONS[0].read_text(encoding="utf-8"))
    assert [Streams(lesson).of(segment.index) for segment in lesson.segments if segment.words] == [*Streams(lesson)]


def test_those_in_the_seats_are_the_nearest_and_never_the_number_itself() -> None:
    for stream in Streams(read(POND)):
        for at, row in enumerate(seats(stream)):
            sitting = row[row != NONE].tolist()
            if at >= stream.first:
                assert at not in sitting
                assert at - 1 in sitting or at - 1 in stream.titles or at == 0


def test_offers_are_what_follows_from_numbers() -> None:
    seven = of_one(np.array([7], np.int32))[0].tolist()
    assert {7, 8, 6, 9, 5, 17, 14, 3, 13, 70, 12, 2, 93, 35} <= set(seven)
    assert set(of_one(np.array([NONE], np.int32))[0].tolist()) == {NONE}
    sitting = np.full(SEATS, NONE, np.int32)
    first, second = FIRST[0], SECOND[0]
    sitting[first], sitting[second] = 3, 4
    assert set(of_two(sitting)[0].tolist()) == {7, 1, 12, 34, 43, NONE}
    assert set(of_two(sitting)[1:].ravel().tolist()) == {NONE}
    sitting[second + 1] = 2
    assert set(of_three(sitting)[0].tolist()) == {9, 3, 5}


@pytest.mark.parametrize(
    ("said", "word", "right"),
    [
        ("Nine frogs sit on a log, and three hop off. How many still sit there? [wait 5 s] Six.", 15, 6),
        ("Here are eight pegs, and the board wants twelve. How many are missing? [wait 5 s] Four pegs.", 13, 4),
        ("Six and what make ten? [wait 5 s] Four.", 5, 4),
        ("What comes just before ten? [wait 5 s] Nine comes just before ten.", 5, 9),
        ("[show compare bars: 9 and 6] How much longer is the long bar? [wait 5 s] Three.", 7, 3),
        ("[show ten frame: 7 dots] How many boxes are empty? Three.", 5, 3),
        ("Four tens and six loose ones are forty-six.", 7, 46),
    ],
)
def test_what_is_asked_in_plain_words_is_expected(said: str, word: int, right: int) -> None:
    found = told(said, word)
    assert found.argmax() == right
    assert found[right] > 0.5
    assert abs(found.sum() - 1) < 0.02


def test_a_number_within_a_count_is_not_asked_about() -> None:
    case = case_of(read(HEAD + "Count with me: one, two, three, four, five, six."))
    assert chances(case, 0, 5) is None
    assert chances(case, 0, 8) is not None


def test_numbers_of_a_direction_are_told_too() -> None:
    case = case_of(read(POND))
    assert case.lesson is not None
    (bond,) = [one for one in case.lesson.directions if getattr(one, "kind", "") == "number bond"]
    found = [chances(case, 1, (bond.place, index)) for index in (0, 1)]
    assert [one is not None and int(one.argmax()) for one in found] == [7, 5]


def test_what_is_written_is_read_the_same(tmp_path: Path) -> None:
    reader().write(tmp_path / "again.npz")
    with (tmp_path / "again.npz").open("rb") as file:
        again = load(file)
    stream = next(iter(Streams(read(POND))))
    for one, other in zip(reader().offered(stream), again.offered(stream), strict=True):
        assert np.allclose(one.habits, other.habits, atol=1e-3)
    assert one.chances(np.array([m.value for m in stream.mentions])).shape[1] == GREATEST + 1


def test_words_are_parted_as_by_another_program() -> None:
    """The reference is WordPiece in the library tokenizers, with the same pieces."""
    models = pytest.importorskip("tokenizers.models")
    pieces = reader().pieces
    other = models.WordPiece(vocab=dict(pieces.names), unk_token=UNKNOWN, max_input_chars_per_word=30)
    words = {word for path in LESSONS for word in re.findall(r"[a-z]+", path.read_text(encoding="utf-8").lower())}
    words |= {"lilypads", "frogspawnlike", "otterly", "o" * 40, "zzyzx"}
    assert len(words) > 500
    for word in sorted(words):
        assert [*pieces.of(word)] == [token.id for token in other.tokenize(word)], word


def test_directions_are_one_piece_and_numbers_are_masked() -> None:
    pieces = reader().pieces
    _, second = Streams(read(POND))
    found, first = pieces.all_of(second.tokens)
    at = [token == NUMBER for token in second.tokens]
    assert {int(found[start]) for start, is_number in zip(first, at, strict=True) if is_number} == {pieces.names[MASK]}
    for name in ("<segment>", "<wait>", "<show number bond>"):
        assert pieces.of(name) == (pieces.names[name],)
    assert pieces.of("<show nothing>") == (pieces.names[UNKNOWN],)


@given(st.lists(st.text(min_size=1, max_size=60), max_size=260))
def test_of_whatever_words_each_has_a_piece_and_there_are_not_too_many(tokens: list[str]) -> None:
    found, first = reader().pieces.all_of(tokens)
    assert len(first) == len(tokens)
    assert len(found) <= 512
    assert [*first] == sorted({*first})
