"""Motion that teaches: it begins and ends exactly, and nothing flashes."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image

from studio.pictures.motion import between, middle
from studio.pictures.painters.pillow import paint
from studio.pictures.shapes import Drawing, Line, Ring
from studio.pictures.themes import load_theme
from tests.pictures.made import shown

CHANGES = [
    ("ten frame: 7 dots", "add 2 crosses"),
    ("ten frame: 7 dots", "take away 2"),
    ("dots: 9", "add 4"),
    ("number sentence: 7 + ? = 9", "fill in"),
    ("number sentence: 7 + 2 = 9", "circle 2"),
    ("number path: 0 to 10", "hop 7 to 9"),
    ("base ten: 9", "add 1"),
    ("base ten: 10", "take away 1"),
    ("cards: 0 to 8", "turn over 5"),
    ("rekenrek: 7 and 2", "add 1"),
    ("hundred chart: 1 to 30", "mark 9"),
]


def _pair(spec: str, change: str) -> tuple[Drawing, Drawing]:
    return shown(spec).drawing(), shown(spec, change).drawing()


def _light(drawing: Drawing) -> float:
    image = paint(drawing, scale=0.5)
    page = Image.new("RGB", image.size, load_theme().colour("paper"))
    page.paste(image, (0, 0), image)
    return float(np.asarray(page.convert("L")).mean())


@pytest.mark.parametrize(("spec", "change"), CHANGES)
def test_it_begins_and_ends_with_the_pictures_themselves(spec: str, change: str) -> None:
    before, after = _pair(spec, change)
    if (before.width, before.height) == (after.width, after.height):
        assert between(before, after, 0) == before
        assert between(before, after, 1) == after
    assert set(between(before, after, 1).shapes) >= set(after.shapes) or before.width != after.width


@pytest.mark.parametrize(("spec", "change"), CHANGES)
def test_nothing_flashes(spec: str, change: str) -> None:
    """WCAG 2.3.1 allows three flashes a second; here the light of the picture never goes up and down by a hundredth."""
    before, after = _pair(spec, change)
    lights = [_light(between(before, after, step / 12)) for step in range(13)]
    turns = np.diff(lights)
    up, down = turns[turns > 0].sum(), -turns[turns < 0].sum()
    assert min(up, down) < 2.55


@pytest.mark.parametrize(("spec", "change"), CHANGES)
def test_calm_changes_at_once(spec: str, change: str) -> None:
    before, after = _pair(spec, change)
    assert between(before, after, 0.01, calm=True) == between(before, after, 1)


def test_a_mark_lands_from_above_where_it_will_be() -> None:
    before, after = _pair("ten frame: 7 dots", "add 1 cross")
    heights = []
    for t in (0.05, 0.3, 0.7, 1.0):
        cross = next(shape for shape in between(before, after, t).shapes if shape.role == "cross")
        heights.append(middle(cross)[1])
    assert heights == sorted(heights)
    assert heights[0] < heights[-1]


def test_a_ring_is_drawn_round() -> None:
    before, after = _pair("number sentence: 7 + 2 = 9", "circle 2")
    parts = []
    for t in (0.1, 0.4, 0.8, 1.0):
        parts += [shape.part for shape in between(before, after, t).shapes if isinstance(shape, Ring)]
    assert parts == sorted(parts)
    assert 0 < parts[0] < 0.5
    assert parts[-1] == 1


def test_what_goes_stays_in_sight_until_it_is_gone() -> None:
    before, after = _pair("ten frame: 7 dots", "take away 2")
    roles = [shape.role for shape in between(before, after, 0.3).shapes]
    assert roles.count("dot") == 7
    assert roles.index("dot") > roles.index("place")


def test_a_picture_comes_and_goes() -> None:
    drawing = shown("dots: 3").drawing()
    assert between(None, drawing, 1) == drawing == between(drawing, None, 0)
    assert all(shape.opacity == 0 for shape in between(None, drawing, 0).shapes)
    assert all(shape.opacity == 0 for shape in between(drawing, None, 1).shapes)
    with pytest.raises(ValueError, match="nothing"):
        between(None, None, 0.5)


def test_ten_ones_gather_along_the_line_that_they_become() -> None:
    before, after = _pair("base ten: 9", "add 1")
    line = next(shape for shape in after.shapes if shape.role == "ten")
    ones = [shape for shape in between(before, after, 0.6).shapes if shape.role == "one"]
    assert len(ones) == 9
    assert isinstance(line, Line)
    assert all(abs(middle(one)[0] - line.x1) < 20 for one in ones)
    heights = [middle(one)[1] for one in ones]
    assert heights == sorted(heights)
    assert heights[-1] - heights[0] > 0.7 * (line.y2 - line.y1)
