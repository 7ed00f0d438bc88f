"""Numerals and words can be read: by an OCR, also when the film is shrunk to the screen of a phone."""

from __future__ import annotations

import pytest
from PIL import Image

from studio.pictures.layout import Area, arrange
from studio.pictures.painters.pillow import paint
from studio.pictures.themes import load_theme
from tests.pictures.made import shown
from tests.pictures.reading import lines, numerals

pytest.importorskip("rapidocr_onnxruntime")


def _frame(*pictures: str, height: int = 1080) -> Image.Image:
    """A film frame with these pictures, shrunk to a height."""
    theme = load_theme()
    drawings = [shown(*picture.split(" | ")).drawing() for picture in pictures]
    page = Image.new("RGB", (1920, 1080), theme.colour("paper"))
    places = arrange([(drawing.width, drawing.height) for drawing in drawings], Area(60, 60, 1800, 960))
    for drawing, place in zip(drawings, places, strict=True):
        image = paint(drawing, theme, scale=place.scale)
        page.paste(image, (int(place.x), int(place.y)), image)
    return page.resize((1920 * height // 1080, height), Image.Resampling.LANCZOS)


@pytest.mark.parametrize("height", [1080, 360])
def test_numerals_are_read_in_the_film_and_on_a_phone(height: int) -> None:
    frame = _frame("number bond: 9 is 7 and 2", "number sentence: 18 - 6 = 12", height=height)
    # Every numeral is read; the OCR may read a piece of a sentence twice ("= 1" and "12").
    assert {2, 6, 7, 9, 12, 18} <= set(numerals(frame))


def test_a_chart_is_read_on_a_phone() -> None:
    assert numerals(_frame("hundred chart: 1 to 30, mark 12", height=360)) == list(range(1, 31))


def test_a_word_is_read_on_a_phone() -> None:
    assert "fourteen" in lines(_frame("word: fourteen", height=360))
