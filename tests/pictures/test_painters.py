"""The painters: two of them agree, and both draw nothing that the drawing does not hold."""

from __future__ import annotations

import io
from concurrent.futures import ThreadPoolExecutor
from itertools import pairwise
from xml.etree import ElementTree

import numpy as np
import pytest
from PIL import Image

from studio.pictures.draw import picture_of
from studio.pictures.gallery import EXAMPLES as STORIES
from studio.pictures.kinds import CLASSES
from studio.pictures.layout import extent, padded
from studio.pictures.motion import between
from studio.pictures.painters.pillow import paint, paint_on, painted
from studio.pictures.painters.svg import svg
from studio.pictures.shapes import Box, Disc, Drawing, Ring
from studio.pictures.themes import load_theme
from tests.pictures.made import shown

EXAMPLES = {
    "five frame": ("five frame: 3 dots and 1 cross",),
    "ten frame": ("ten frame: 7 dots and 2 crosses", "count"),
    "double ten frame": ("double ten frame: 10 dots and 4 crosses",),
    "dots": ("dots: 12",),
    "number bond": ("number bond: 9 is 7 and ?", "fill in", "circle 2"),
    "number sentence": ("number sentence: 8 + 6 = 10 + ? = ?", "fill in", "circle 4"),
    "cards": ("cards: 0 to 8", "turn over 5", "circle 2"),
    "tally": ("tally: 13", "count by 5"),
    "dice": ("dice: 6 and 3",),
    "base ten": ("base ten: 37", "count"),
    "word": ("word: fourteen",),
    "number path": ("number path: 0 to 10, mark 7", "hop 7 to 9, counting"),
    "number line": ("number line: 0 to 10, mark 9", "hop 9 to 2"),
    "more and less": ("more and less: 12", "fill in"),
    "bar": ("bar: 9 is 7 and ?",),
    "compare bars": ("compare bars: 9 and 7", "fill in", "circle 2"),
    "rekenrek": ("rekenrek: 7 and 2",),
    "hundred chart": ("hundred chart: 1 to 50, mark 12", "circle 15"),
    "text": ("text: How many frogs are there now?",),
}


def test_every_kind_has_an_example() -> None:
    assert set(EXAMPLES) == set(CLASSES)


@pytest.mark.parametrize("kind", EXAMPLES)
def test_resvg_draws_what_pillow_draws(kind: str) -> None:
    import resvg_py
    from skimage.metrics import structural_similarity

    theme, picture = load_theme(), shown(*EXAMPLES[kind])
    drawing = picture.drawing()
    text = svg(drawing, theme, description=picture.description(), ground=True, width=drawing.width)
    other = Image.open(io.BytesIO(bytes(resvg_py.svg_to_bytes(svg_string=text)))).convert("RGB")
    image = paint(drawing, theme)
    ours = Image.new("RGB", image.size, theme.colour("paper"))
    ours.paste(image, (0, 0), image)
    size = (min(ours.width, other.width), min(ours.height, other.height))
    assert abs(ours.width - other.width) <= 1 and abs(ours.height - other.height) <= 1
    one, two = (np.asarray(page.crop((0, 0, *size)).convert("L")) for page in (ours, other))
    assert structural_similarity(one, two) >= 0.98


@pytest.mark.parametrize("kind", EXAMPLES)
def test_svg_is_well_formed_and_says_what_it_is(kind: str) -> None:
    picture = shown(*EXAMPLES[kind])
    root = ElementTree.fromstring(svg(picture.drawing(), description=picture.description()))
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    assert root.get("aria-label") == picture.description()
    counted = [group.get("data-counts") for group in root.iter() if group.get("data-counts")]
    assert {sort: counted.count(sort) for sort in set(counted)} == {k: v for k, v in picture.marks.items() if v}


def test_words_with_signs_of_xml_stay_words() -> None:
    picture = shown('text: frogs < ducks & "otters"')
    for words in (False, True):
        root = ElementTree.fromstring(svg(picture.drawing(), description=picture.description(), words=words))
        assert root.get("aria-label") == 'Text: frogs < ducks & "otters"'


def test_edges_have_no_fringe_on_any_ground() -> None:
    """A dot laid over its own colour must vanish; a dark or light fringe would show."""
    theme = load_theme()
    drawing = Drawing(100, 100, (Disc(role="dot", key="dot", x=50.3, y=49.6, radius=40, fill="first"),))
    image = paint(drawing, theme)
    ground = Image.new("RGB", image.size, theme.colour("first"))
    ground.paste(image, (0, 0), image)
    assert np.abs(np.asarray(ground).astype(int) - np.array(theme.colour("first"))).max() <= 1


def test_a_disc_has_the_area_of_a_disc() -> None:
    drawing = Drawing(100, 100, (Disc(role="dot", key="dot", x=50, y=50, radius=40, fill="first"),))
    area = np.asarray(paint(drawing))[..., 3].sum() / 255
    assert area == pytest.approx(np.pi * 40**2, rel=0.01)


def test_a_picture_that_was_painted_before_costs_nothing() -> None:
    drawing = shown("ten frame: 9 dots").drawing()
    assert paint(drawing, scale=1.5) is paint(shown("ten frame: 9 dots").drawing(), scale=1.5)


@pytest.mark.parametrize(("spec", "changes"), STORIES)
def test_painting_only_what_changed_gives_the_whole_picture(spec: str, changes: tuple[str, ...]) -> None:
    """Each step, and a moment on the way to it, is pixel for pixel the picture that is painted from nothing."""
    drawings = [picture.drawing() for picture in picture_of(spec, changes)]
    space = extent(drawings)
    for before, after in pairwise([drawings[0], *drawings]):
        for moment in (padded(between(before, after, 0.4), space), padded(after, space)):
            one, other = paint(moment, scale=0.83), painted(moment, load_theme(), 0.83)
            assert np.abs(np.asarray(one).astype(int) - np.asarray(other)).max() <= 1, (spec, changes)


@pytest.mark.parametrize(("spec", "changes"), STORIES)
def test_painting_on_paper_gives_what_laying_the_picture_on_paper_gives(spec: str, changes: tuple[str, ...]) -> None:
    """Whole, and a part of it; Pillow lays the picture that was painted on nothing."""
    theme = load_theme()
    for picture in picture_of(spec, changes):
        drawing = picture.drawing()
        image = painted(drawing, theme, 0.83)
        laid = Image.new("RGBA", (image.width + 20, image.height + 10), (*theme.colour("paper"), 255))
        meant = laid.copy()
        meant.alpha_composite(image, (7, 3))
        paint_on(laid, drawing.shapes, theme, scale=0.83, left=7, top=3)
        inside = (7, 3, 7 + image.width, 3 + image.height)
        wrong = np.abs(np.asarray(laid.crop(inside)).astype(int) - np.asarray(meant.crop(inside)))
        assert wrong.max() <= 3, (spec, changes)
        part = Image.new("RGBA", (60, 40), (*theme.colour("paper"), 255))
        paint_on(part, drawing.shapes, theme, scale=0.83, left=7 - 50, top=3 - 30)
        assert np.array_equal(
            np.asarray(part)[: image.height - 27], np.asarray(laid.crop((50, 30, 110, 70)))[: image.height - 27]
        )


def test_several_threads_may_paint_at_once() -> None:
    drawings = [shown(f"double ten frame: {number} dots").drawing() for number in range(21)]
    with ThreadPoolExecutor(4) as pool:
        painted_here = list(pool.map(lambda drawing: paint(drawing, scale=0.31), drawings * 3))
    for drawing, image in zip(drawings, painted_here, strict=False):
        assert image.tobytes() == painted(drawing, load_theme(), 0.31).tobytes()


def test_what_lies_partly_outside_is_cut_and_not_wrapped_round() -> None:
    shapes = (
        Disc(role="dot", key="a", x=0, y=0, radius=20, fill="first"),
        Box(role="box", key="b", x=80, y=80, width=200, height=200, fill="second", outline="ink", line=3),
        Ring(role="ring", key="c", x=-300, y=50, rx=20, ry=20, fill="ring", width=3),
    )
    pixels = np.asarray(paint(Drawing(100, 100, shapes)))
    assert pixels[5, 5, 3] == 255 and pixels[95, 95, 3] == 255
    assert pixels[5, 95, 3] == 0 and pixels[95, 5, 3] == 0 and pixels[50, 50, 3] == 0


def test_a_shape_that_is_half_there_is_half_seen() -> None:
    shapes = (Disc(role="dot", key="dot", x=50, y=50, radius=40, fill="first", opacity=0.5),)
    assert abs(int(np.asarray(paint(Drawing(100, 100, shapes)))[50, 50, 3]) - 128) <= 1


def test_padding_keeps_the_picture_whole() -> None:
    drawing = shown("number sentence: 7 + 2 = 9").drawing()
    small = np.asarray(paint(drawing))
    large = np.asarray(paint(padded(drawing, (drawing.width + 200, drawing.height + 50))))
    assert (large[: small.shape[0], 100 : 100 + small.shape[1]] == small).all()
