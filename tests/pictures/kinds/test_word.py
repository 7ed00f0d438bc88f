"""A word on writing lines."""

from __future__ import annotations

import numpy as np
import pytest
from num2words import num2words

from studio.pictures.base import CannotShow
from studio.pictures.kinds.word import LINE, MARGIN, MIDDLE, TOP
from studio.pictures.painters.pillow import paint
from studio.pictures.shapes import Drawing, Words
from tests.pictures.made import shown


@pytest.mark.parametrize(("letter", "height"), [*((c, TOP) for c in "bdhkl"), *((c, MIDDLE) for c in "acemnorsuvwxz")])
def test_tall_letters_reach_the_top_line_and_short_ones_the_midline(letter: str, height: float) -> None:
    # Common practice, no source. Measured in the pixels of the letter alone.
    drawing = shown(f"word: {letter}").drawing()
    alone = Drawing(drawing.width, drawing.height, tuple(s for s in drawing.shapes if isinstance(s, Words)))
    rows = np.nonzero((np.asarray(paint(alone))[..., 3] > 128).any(axis=1))[0]
    assert abs((MARGIN + TOP - rows[0]) - height) <= LINE
    assert abs(rows[-1] - (MARGIN + TOP)) <= LINE + 1


def test_a_number_word_is_a_number() -> None:
    assert shown("word: fourteen").numbers == (14,)
    assert shown("word: frog").numbers == ()


@pytest.mark.parametrize("value", range(121))
def test_every_number_of_the_pictures_can_be_written_with_and_without_and(value: int) -> None:
    # num2words (LGPL) writes "one hundred and seventeen", as in Britain; American schools leave out "and".
    name = num2words(value)
    assert shown(f"word: {name}").numbers == shown(f"word: {name.replace(' and ', ' ')}").numbers == (value,)


def test_what_is_longer_than_any_number_of_the_pictures_is_refused() -> None:
    with pytest.raises(CannotShow, match="room for 1 to 26 letters; this has 27"):
        shown(f"word: {'x' * 27}")
