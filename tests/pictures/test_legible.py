"""Legible: an OCR reads the numerals in a film's frame, and still when it is shrunk to 360 lines.

Here a few pictures of each kind with something to read; `benchmarks/pictures.py ocr` reads hundreds.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from studio.pictures.themes import load_theme
from tests.pictures.made import shown
from tests.pictures.reading import framed, look

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
    ("number line: 0 to 100, mark 41", "hop 35 to 45", "hop 55 to 57, counting"),
    ("number line: 0 to 50", "hop 0 to 5", "hop 5 to 10", "mark 43"),
    ("compare bars: 100 and 37", "fill in"),
    ("hundred chart: 1 to 30, mark 12", "circle 15", "count by 10"),
    ("word: fourteen",),
    ("text: How many frogs are there now?",),
]


@pytest.mark.parametrize(
    ("spec", "height"), [*((spec, 360) for spec in TO_READ), *((spec, 1080) for spec in TO_READ[::3])]
)
def test_what_is_written_is_read_in_the_film_and_on_a_phone(spec: tuple[str, ...], height: int) -> None:
    drawing = shown(*spec).drawing()
    seen = look(framed(drawing, load_theme(), height))
    assert seen.missed == ()
    assert seen.whole + seen.alone == sum(shape.role in ("numeral", "word", "words") for shape in drawing.shapes)


def test_the_reading_can_fail() -> None:
    """A numeral that is wiped out, or another than is claimed, is not read as it should be."""
    picture, other = shown("number bond: 9 is 7 and 2"), shown("number bond: 9 is 7 and 3")
    page = framed(picture.drawing(), load_theme())
    assert look(replace(page, drawing=other.drawing())).missed == (("3", "2 / 2 / 2"),)
    pixels = np.array(page.image)
    pixels[: int(page.top + page.scale * picture.drawing().height / 2)] = load_theme().colour("paper")
    assert [text for text, _ in look(replace(page, image=Image.fromarray(pixels))).missed] == ["9"]
