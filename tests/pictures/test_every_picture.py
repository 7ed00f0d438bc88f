"""What holds for every kind, every value and every step (values and shapes; the pixels are in test_truth)."""

from __future__ import annotations

from collections import Counter
from itertools import islice

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.pictures.base import CannotShow
from studio.pictures.kinds import CLASSES, KINDS, make
from studio.script.kinds import KINDS as SCRIPT_KINDS
from studio.script.model import Add, Count, Marks, Phrase, TakeAway
from tests.pictures.bounds import edges
from tests.pictures.every import details_of, pictures
from tests.pictures.made import stepped


def test_every_kind_that_a_script_can_ask_for_is_drawn() -> None:
    assert set(KINDS) == set(SCRIPT_KINDS)


@pytest.mark.parametrize("kind", CLASSES)
def test_a_drawing_holds_what_the_picture_says_and_nothing_is_cut_off(kind: str) -> None:
    for picture in islice(pictures([kind]), 0, None, 7):
        drawing = picture.drawing()
        drawn = Counter(shape.counts for shape in drawing.shapes if shape.counts)
        assert {sort: count for sort, count in picture.marks.items() if count} == dict(drawn), picture
        keys = [shape.key for shape in drawing.shapes]
        assert len(set(keys)) == len(keys), picture
        for shape in drawing.shapes:
            left, top, right, bottom = edges(shape)
            assert left >= -0.01 and top >= -0.01, (picture, shape)
            assert right <= drawing.width + 0.01 and bottom <= drawing.height + 0.01, (picture, shape)


@pytest.mark.parametrize("kind", CLASSES)
def test_a_picture_is_a_value(kind: str) -> None:
    details = next(iter(details_of(kind)))
    assert make(kind, details) == make(kind, details)
    assert hash(make(kind, details)) == hash(make(kind, details))
    assert make(kind, details).description().lower().startswith(kind.split()[0][:3]) or kind == "cards"


@pytest.mark.parametrize("kind", CLASSES)
def test_the_wrong_details_are_refused_in_a_sentence(kind: str) -> None:
    wrong = Marks(1) if kind in ("word", "text") else Phrase("frogs")
    with pytest.raises(CannotShow, match=KINDS[kind].split()[0]):
        make(kind, wrong)


def test_a_kind_that_is_not_there_is_refused_with_those_that_are() -> None:
    with pytest.raises(CannotShow, match="ten frame"):
        make("abacus of the pond", Marks(1))


@given(st.integers(0, 20), st.integers(0, 20), st.booleans())
def test_a_change_leaves_the_same_picture_counted_or_not(start: int, many: int, adds: bool) -> None:
    picture = make("double ten frame", Marks(start))
    change, counting = (Add(many), Add(many, counting=True)) if adds else (TakeAway(many), TakeAway(many, True))
    try:
        last = picture.steps(change)[-1].picture
    except CannotShow:
        with pytest.raises(CannotShow):
            picture.steps(counting)
        return
    steps = picture.steps(counting)
    assert steps[-1].picture == last
    assert len(steps) == max(1, many)


@given(st.integers(1, 50), st.integers(1, 12))
def test_a_count_ends_with_how_many_there_are(total: int, by: int) -> None:
    numbers = [step.number for step in make("dots", Marks(total)).steps(Count(by))]
    assert numbers[-1] == total
    assert numbers == sorted(set(numbers))  # type: ignore[type-var]


@pytest.mark.parametrize(
    ("spec", "change", "said"),
    [
        ("ten frame: 7 dots and 2 crosses", "count by 5", "5 counted"),
        ("tally: 12", "count by 5", "5 counted"),
        ("dice: 6 and 3", "count by 6", "6 counted"),
        ("base ten: 34", "count", "10 counted"),
        ("rekenrek: 7 and 2", "count by 5", "5 counted"),
        ("cards: 0 to 4", "count", "1 counted"),
        ("number path: 0 to 10", "count", "counted to 1"),
    ],
)
def test_a_count_is_told_to_those_who_cannot_see_it(spec: str, change: str, said: str) -> None:
    assert stepped(spec, change)[0].picture.description().endswith(said)
