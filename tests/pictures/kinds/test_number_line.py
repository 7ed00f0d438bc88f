"""The number line."""

from __future__ import annotations

import itertools
import math

import pytest

from studio.pictures.base import CannotShow, Picture
from studio.pictures.geometry import path_points
from studio.pictures.layout import extent, padded
from studio.pictures.shapes import AnyShape, Disc, Line, Path, Words
from tests.pictures.bounds import edges
from tests.pictures.every import pictures
from tests.pictures.made import said, shown


def _ticks(picture: Picture) -> dict[int, Line]:
    return {int(s.key.split()[1]): s for s in picture.drawing().shapes if isinstance(s, Line) and s.counts}


def _numerals(picture: Picture) -> dict[int, Words]:
    return {int(s.text): s for s in picture.drawing().shapes if isinstance(s, Words)}


def _length(tick: Line) -> float:
    return tick.y2 - tick.y1


@pytest.mark.parametrize("spec", ["0 to 10", "0 to 50", "20 to 60", "0 to 100", "3 to 47"])
def test_numbers_are_equally_far_apart(spec: str) -> None:
    ticks = [tick.x1 for tick in _ticks(shown(f"number line: {spec}")).values()]
    assert len({round(b - a, 6) for a, b in itertools.pairwise(ticks)}) == 1


def test_marks_and_hops_are_told() -> None:
    picture = shown("number line: 0 to 10, mark 7", "hop 7 to 9", "mark 9")
    assert picture.marked == (7, 9)  # type: ignore[attr-defined]
    assert picture.hops == ((7, 9),)  # type: ignore[attr-defined]
    assert said("number line: 0 to 10", "hop 5 to 8, counting") == [6, 7, 8]
    assert said("number line: 0 to 100", "count by 10") == list(range(10, 101, 10))


def test_a_line_of_twenty_has_every_numeral() -> None:
    assert shown("number line: 0 to 20").numbers == tuple(range(21))


@pytest.mark.parametrize(
    ("spec", "numbers"),
    [
        ("0 to 50", tuple(range(0, 51, 5))),
        ("20 to 60", tuple(range(20, 61, 5))),
        ("0 to 100", tuple(range(0, 101, 10))),
        ("3 to 47", (3, *range(5, 46, 5), 47)),
        ("9 to 101", (9, *range(20, 91, 10), 101)),  # 10 and 100 would be on the ends
    ],
)
def test_a_long_line_is_numbered_by_fives_or_tens_and_at_its_ends(spec: str, numbers: tuple[int, ...]) -> None:
    picture = shown(f"number line: {spec}")
    assert picture.numbers == numbers == tuple(_numerals(picture))
    ticks = _ticks(picture)
    longest = max(map(_length, ticks.values()))
    assert tuple(number for number, tick in ticks.items() if _length(tick) == longest) == numbers
    assert len(ticks) == picture.marks["places"] == list(ticks)[-1] - next(iter(ticks)) + 1


def test_what_is_marked_and_hopped_to_gets_its_numeral() -> None:
    picture = shown("number line: 0 to 100, mark 35", "hop 35 to 45", "hop 45 to 55", "hop 55 to 57, counting")
    assert {35, 45, 55, 57} <= set(picture.numbers)
    assert {43, 44, 45, 46, 47, 48} <= set(shown("number line: 0 to 50", "hop 43 to 48, counting").numbers)


def test_numbers_that_a_long_count_only_touches_have_their_numerals_all_or_none() -> None:
    numbers = shown("number line: 0 to 100", "hop 22 to 38, counting").numbers
    assert {22, 38} <= set(numbers) and not set(numbers) & (set(range(23, 38)) - {30})


def _apart(one: AnyShape, other: AnyShape, between: float) -> bool:
    a, b = edges(one), edges(other)
    return a[2] + between <= b[0] or b[2] + between <= a[0] or a[3] <= b[1] or b[3] <= a[1]


def test_no_numeral_is_on_another_and_no_thread_goes_through_one() -> None:
    looked = 0
    for picture in itertools.islice(pictures(["number line"]), 0, None, 5):
        shapes = picture.drawing().shapes
        numerals = [s for s in shapes if isinstance(s, Words)]
        for one, other in itertools.combinations(numerals, 2):
            assert _apart(one, other, 12), (picture, one.text, other.text)
        for thread in (s for s in shapes if s.role == "thread"):
            assert isinstance(thread, Path)
            (x1, y1), (x2, y2) = thread.points[1:3]
            passing = Line(role="", key="", x1=x1, y1=y1, x2=x2, y2=y2, fill="ink", width=thread.width)
            for numeral in numerals:
                looked += 1
                assert _apart(passing, numeral, 2), (picture, numeral.text)
    assert looked > 1000


@pytest.mark.parametrize("start", [0, 20])
@pytest.mark.parametrize("length", [50, 100])
def test_hops_go_from_tick_to_tick(start: int, length: int) -> None:
    """An arc begins and ends nearer to its own number than to the one beside it, just above the tick."""
    picture = shown(f"number line: {start} to {start + length}", f"hop {start} to {start + 10}",
                    f"hop {start + 10} to {start + 13}, counting", f"hop {start + 30} to {start + 20}")  # fmt: skip
    ticks = _ticks(picture)
    apart = ticks[start + 1].x1 - ticks[start].x1
    paths = [s for s in picture.drawing().shapes if isinstance(s, Path) and s.counts]
    assert len(paths) == 5
    for path, (begin, end) in zip(paths, picture.hops, strict=True):  # type: ignore[attr-defined]
        for (x, y), number in ((path.points[0], begin), (path.points[-2], end)):
            assert abs(x - ticks[number].x1) <= 0.26 * apart
            assert 0 < ticks[number].y1 - y < 15
        low, high = sorted((ticks[begin].x1, ticks[end].x1))
        assert all(low < x < high for x, _ in path_points(path))


def test_points_on_neighbours_do_not_touch() -> None:
    discs = [s for s in shown("number line: 0 to 100, mark 41", "mark 42").drawing().shapes if isinstance(s, Disc)]
    one, other = discs
    assert math.dist((one.x, one.y), (other.x, other.y)) > one.radius + other.radius + 2
    lone = [s for s in shown("number line: 0 to 100, mark 41").drawing().shapes if isinstance(s, Disc)]
    assert lone[0].radius > 1.5 * one.radius


def test_the_line_stays_where_it_is_when_a_numeral_comes_below() -> None:
    drawings = [shown("number line: 0 to 50", *changes).drawing() for changes in ((), ("mark 12",), ("hop 0 to 5",))]
    size = extent(drawings)
    lines = [next(s for s in padded(d, size).shapes if s.key == "line") for d in drawings]
    assert len(set(lines)) == 1


def test_how_it_is_numbered_is_told_to_those_who_cannot_see_it() -> None:
    assert shown("number line: 0 to 20").description() == "Number line from 0 to 20"
    assert (
        shown("number line: 0 to 50, mark 7").description() == "Number line from 0 to 50, numbered by fives; marked: 7"
    )
    assert shown("number line: 0 to 100").description() == "Number line from 0 to 100, numbered by tens"


def test_a_line_goes_as_far_as_a_hundred_chart() -> None:
    assert shown("number line: 0 to 120").description() == "Number line from 0 to 120, numbered by tens"
    with pytest.raises(CannotShow, match="121"):
        shown("number line: 0 to 121")
