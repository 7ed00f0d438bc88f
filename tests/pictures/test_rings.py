"""A ring goes round its numeral and never through one."""

from __future__ import annotations

from math import hypot

import numpy as np
import pytest
from scipy import ndimage

from studio.pictures.base import Picture
from studio.pictures.geometry import ring_points
from studio.pictures.metrics import CAPITAL, text_width
from studio.pictures.pieces import CLEAR
from studio.pictures.shapes import Ring, Words
from studio.pictures.themes import INKS, load_theme
from tests.pictures.counting import Seen, on_paper
from tests.pictures.made import shown

ROUND = {
    "cards": lambda n: [(f"cards: {n}, {n}, 7", f"circle {n}", f"circle {n}")],
    "bar": lambda n: [
        (f"bar: {n} is {n} and 0", f"circle {n}", f"circle {n}", "circle 0")[: 3 + (n > 0)],
        (f"bar: 120 is {n} and {120 - n}", f"circle {n}", "circle 120", *([f"circle {120 - n}"] if 0 < n < 120 else [])),
        (f"bar: {n} is 2 and ?", "fill in", f"circle {n}", *(["circle 2"] if n != 2 else []))[: 4 * (n > 1)],
        (f"bar: 120 is {n} and {n} and {n} and 1 and 2 and ?", f"circle {n}", f"circle {n}")[: 3 * (n < 40)],
    ],
    "number bond": lambda n: [(f"number bond: {n} is {n} and 0", f"circle {n}", f"circle {n}")],
    "number sentence": lambda n: [(f"number sentence: {n} + 1 = {n + 1}", f"circle {n}", f"circle {n + 1}")],
    "compare bars": lambda n: [
        (f"compare bars: {max(1, n)} and 8", f"circle {max(1, n)}", "fill in"),
        (f"compare bars: {max(1, n)} and 120", "fill in", "circle 120"),
        (f"compare bars: 100 and {max(1, n)}", "fill in", f"circle {abs(100 - max(1, n))}"),
    ],
    "hundred chart": lambda n: [
        (f"hundred chart: {min(n, 117)} to {max(1, min(n + 3, 120))}", f"circle {n}"),
        (f"hundred chart: {min(n, 117)} to {max(1, min(n + 3, 120))}", f"mark {n}", f"circle {n}"),
    ],
    "more and less": lambda n: [(f"more and less: {min(119, max(1, n))}", f"circle {min(119, max(1, n))}", "fill in")],
}  # fmt: skip


def _gap(one: Ring, number: Words) -> float:
    """The least space between the line of a ring and the box of a numeral."""
    half, high = text_width(number.text, number.size) / 2, CAPITAL * number.size / 2
    x, y = number.x, number.y - high
    away = (hypot(max(0, abs(px - x) - half), max(0, abs(py - y) - high)) for px, py in ring_points(one, 480))
    return min(away) - one.width / 2


def _ringed(picture: Picture) -> tuple[list[Ring], list[Words]]:
    shapes = picture.drawing().shapes
    return [s for s in shapes if isinstance(s, Ring)], [s for s in shapes if isinstance(s, Words)]


@pytest.mark.parametrize("kind", ROUND)
def test_a_ring_clears_the_numeral_it_is_round_and_every_other(kind: str) -> None:
    for number in range(121):
        for spec in filter(None, ROUND[kind](number)):
            rings, numbers = _ringed(shown(*spec))
            assert rings, spec
            for ring in rings:
                assert min(_gap(ring, one) for one in numbers) >= CLEAR - 0.01, spec
                inside = [one for one in numbers if abs(one.x - ring.x) < ring.rx and abs(one.y - ring.y) < ring.ry]
                assert len(inside) == 1, spec


@pytest.mark.parametrize("kind", ROUND)
def test_between_a_ring_and_its_numeral_there_is_paper_to_be_seen(kind: str) -> None:
    """In the pixels, one for each unit; edges are soft."""
    for number in (7, 10, 14, 69, 88, 100, 107, 117):
        spec = next(filter(None, ROUND[kind](number)))
        seen = Seen(on_paper(shown(*spec), scale=1.0), load_theme())
        away = ndimage.distance_transform_edt(seen.nearest != INKS.index("ring"))
        numbers = [shape for shape in shown(*spec).drawing().shapes if isinstance(shape, Words)]
        for one in numbers:
            half, high = text_width(one.text, one.size) / 2, CAPITAL * one.size
            box = np.s_[int(20 + one.y - high) : int(20 + one.y), int(20 + one.x - half) : int(20 + one.x + half)]
            assert away[box].min() >= CLEAR - 2, (spec, one.text)


@pytest.mark.parametrize("spec", ["cards: 0 to 20", "cards: 95 to 105", "cards: 8, 9, 10"])
def test_rings_of_cards_beside_each_other_do_not_touch(spec: str) -> None:
    picture = shown(spec)
    picture = shown(spec, *(f"circle {number}" for number in picture.numbers))
    rings, _ = _ringed(picture)
    assert len(rings) == len(picture.numbers)
    for at, one in enumerate(rings):
        for other in rings[at + 1 :]:
            assert (
                abs(one.x - other.x) >= one.rx + other.rx + one.width + CLEAR
                or abs(one.y - other.y) >= one.ry + other.ry + one.width + CLEAR
            )


@pytest.mark.parametrize("kind", ["number path", "hundred chart"])
def test_a_numeral_on_a_mark_does_not_reach_over_its_edges(kind: str) -> None:
    for number in range(121):
        start = min(number, 110)
        picture = shown(f"{kind}: {start} to {start + 10}, mark {number}")
        shapes = {shape.key: shape for shape in picture.drawing().shapes}
        mark, numeral = shapes[f"mark {number}"], shapes[f"number {number}"]
        assert isinstance(numeral, Words)
        assert text_width(numeral.text, numeral.size) <= mark.width - 2, number  # type: ignore[union-attr]
