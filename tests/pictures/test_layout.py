"""Layout: nothing overlaps, nothing is cut off, all is alike in scale."""

from __future__ import annotations

from itertools import chain
from math import inf

from hypothesis import given
from hypothesis import strategies as st

from studio.pictures.layout import Area, _even_rows, _rows, arrange, extent, padded
from studio.pictures.shapes import Box
from tests.pictures.made import shown

WIDE, SQUARE, TALL = Area(60, 40, 1800, 1000), Area(0, 0, 1080, 1080), Area(0, 0, 1080, 1920)
_sizes = st.lists(st.tuples(st.floats(100, 2000), st.floats(80, 1000)), min_size=1, max_size=4)


@given(_sizes, st.sampled_from([WIDE, SQUARE, TALL]))
def test_pictures_stay_inside_and_apart(sizes: list[tuple[float, float]], area: Area) -> None:
    places = arrange(sizes, area)
    assert max(place.scale for place in places) <= 2 * min(place.scale for place in places) + 1e-9
    for place, (width, height) in zip(places, sizes, strict=True):
        assert abs(place.width - width * place.scale) < 0.01 and abs(place.height - height * place.scale) < 0.01
        assert place.x >= area.x - 1 and place.y >= area.y - 1
        assert place.x + place.width <= area.x + area.width + 1
        assert place.y + place.height <= area.y + area.height + 1
    for at, one in enumerate(places):
        for other in places[at + 1 :]:
            apart_x = one.x + one.width <= other.x + 1 or other.x + other.width <= one.x + 1
            apart_y = one.y + one.height <= other.y + 1 or other.y + other.height <= one.y + 1
            assert apart_x or apart_y


@given(_sizes)
def test_the_scale_is_never_larger_than_asked(sizes: list[tuple[float, float]]) -> None:
    assert all(place.scale <= 0.5 for place in arrange(sizes, WIDE, scale=0.5))


def test_they_are_read_in_the_order_in_which_they_came() -> None:
    places = arrange([(500, 200)] * 4, WIDE)
    assert [(p.y, p.x) for p in places] == sorted((p.y, p.x) for p in places)


def test_a_wide_screen_sets_frames_beside_each_other_and_a_tall_one_below() -> None:
    sizes = [(520.0, 220.0)] * 2
    wide, tall = arrange(sizes, WIDE), arrange(sizes, TALL)
    assert wide[0].y == wide[1].y or wide[0].x == wide[1].x
    assert tall[0].x == tall[1].x and tall[0].y < tall[1].y


def test_a_lone_picture_is_large_and_no_poster() -> None:
    drawing = shown("five frame: 3 dots").drawing()
    (place,) = arrange([(drawing.width, drawing.height)], WIDE)
    assert 0.4 * WIDE.width < place.width < 0.7 * WIDE.width


def test_a_picture_keeps_its_place_over_all_its_steps() -> None:
    drawings = [shown(f"dots: {number}").drawing() for number in (3, 7, 12)]
    assert extent(drawings) == (drawings[-1].width, drawings[-1].height)


def test_no_pictures_need_no_places() -> None:
    assert arrange([], WIDE) == ()


def test_beside_a_wide_picture_a_small_one_is_not_as_small() -> None:
    """A number line takes the whole width of a wide screen; what stands under it grows to twice its scale and no more."""
    line, bond = shown("number line: 0 to 20").drawing(), shown("number bond: 9 is 7 and 2").drawing()
    one, other = arrange([(line.width, line.height), (bond.width, bond.height)], WIDE)
    assert one.width > 0.99 * WIDE.width
    assert abs(other.scale / one.scale - 2) < 1e-6


@given(st.tuples(st.floats(100, 2000), st.floats(80, 1000)), st.integers(2, 5), st.sampled_from([WIDE, SQUARE, TALL]))
def test_pictures_that_are_alike_stay_so(size: tuple[float, float], many: int, area: Area) -> None:
    """What is to be compared must not be larger for the room it has."""
    scales = [place.scale for place in arrange([size] * many, area)]
    assert max(scales) <= 1.25 * min(scales)


def test_a_large_picture_may_have_two_small_ones_beside_it() -> None:
    chart, bond = shown("hundred chart: 1 to 100").drawing(), shown("number bond: 9 is 7 and 2").drawing()
    sizes = [(chart.width, chart.height), (bond.width, bond.height), (bond.width, bond.height)]
    large, upper, lower = arrange(sizes, WIDE)
    assert upper.x >= large.x + large.width and lower.x >= large.x + large.width
    assert upper.y + upper.height <= lower.y


def test_a_row_stays_where_it_is_when_hops_come_over_it() -> None:
    before, after = shown("number path: 0 to 10").drawing(), shown("number path: 0 to 10", "hop 7 to 9").drawing()
    assert after.height > before.height
    size = extent((before, after))
    places = [
        {shape.key: (shape.x, shape.y) for shape in padded(drawing, size).shapes if isinstance(shape, Box)}
        for drawing in (before, after)
    ]
    assert places[0] == places[1]


def test_many_pictures_are_set_in_no_more_ways_than_there_are_rows() -> None:
    """Of twenty there would be a million ways: they are set at once, apart and inside."""
    sizes = [(float(300 + 70 * (at % 5)), float(200 + 40 * (at % 3))) for at in range(20)]
    ways = list(_even_rows(sizes))
    assert len(ways) <= 20 and all([*chain.from_iterable(way)] == [*range(20)] for way in ways)
    test_pictures_stay_inside_and_apart.hypothesis.inner_test(sizes, WIDE)  # type: ignore[attr-defined]


@given(_sizes.filter(lambda sizes: len(sizes) > 2))
def test_even_rows_have_the_narrowest_widest_row(sizes: list[tuple[float, float]]) -> None:
    def widest(rows: list[list[int]]) -> float:
        return max(sum(sizes[at][0] for at in row) for row in rows)

    best: dict[int, float] = {}
    for rows in _rows(list(range(len(sizes)))):
        best[len(rows)] = min(widest(rows), best.get(len(rows), inf))
    for rows in _even_rows(sizes):
        assert abs(widest(rows) - best[len(rows)]) < 1e-6
