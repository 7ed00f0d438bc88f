"""Legible: an OCR reads the numerals in a film's frame, and still when it is shrunk to 360 lines.

Here a few pictures of each kind with something to read; `benchmarks/pictures.py ocr` reads hundreds.
"""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image

from studio.pictures.layout import Area, arrange
from studio.pictures.painters.pillow import paint
from studio.pictures.themes import load_theme
from tests.pictures.made import shown
from tests.pictures.reading import agrees, look

TO_READ = [
    ("number bond: 9 is 7 and ?", "fill in", "circle 2"),
    ("number bond: 120 is 100 and 20", "circle 100"),
    ("number sentence: 18 - 6 = 12", "circle 6"),
    ("cards: 0 to 9", "turn over 5", "circle 6"),
    ("more and less: 119", "fill in", "fill in", "circle 120"),
    ("bar: 9 is 8 and ?", "fill in", "circle 1"),
    ("compare bars: 9 and 8", "fill in", "circle 1"),
    ("number path: 0 to 10, mark 7", "hop 7 to 9, counting"),
    ("number line: 0 to 20, mark 9", "hop 9 to 2"),
    ("hundred chart: 1 to 30, mark 12", "circle 15", "count by 10"),
    ("word: fourteen",),
    ("text: How many frogs are there now?",),
]


@pytest.mark.parametrize(
    ("spec", "height"), [*((spec, 360) for spec in TO_READ), *((spec, 1080) for spec in TO_READ[::3])]
)
def test_what_is_written_is_read_in_the_film_and_on_a_phone(spec: tuple[str, ...], height: int) -> None:
    theme, drawing = load_theme(), shown(*spec).drawing()
    (place,) = arrange([(drawing.width, drawing.height)], Area(110, 70, 1700, 790))
    frame = Image.new("RGB", (1920, 1080), theme.colour("paper"))
    image = paint(drawing, theme, scale=place.scale)
    frame.paste(image, (int(place.x), int(place.y)), image)
    small = frame.resize((1920 * height // 1080, height), Image.Resampling.LANCZOS)
    part = height / 1080
    seen = look(small, drawing, place.scale * part, place.x * part, place.y * part)
    assert seen.missed == ()
    assert seen.whole + seen.alone == sum(shape.role in ("numeral", "word", "words") for shape in drawing.shapes)


def test_the_reading_can_fail() -> None:
    """A numeral that is wiped out, or another than is claimed, is not read as it should be."""
    picture, other = shown("number bond: 9 is 7 and 2"), shown("number bond: 9 is 7 and 3")
    image = paint(picture.drawing())
    page = Image.new("RGB", image.size, load_theme().colour("paper"))
    page.paste(image, (0, 0), image)
    assert look(page, other.drawing(), 1.0).missed == (("3", "2 / 2 / 2"),)
    assert not agrees(page, other.numbers)
    pixels = np.array(page)
    pixels[: page.height // 2] = load_theme().colour("paper")
    assert [text for text, _ in look(Image.fromarray(pixels), picture.drawing(), 1.0).missed] == ["9"]
