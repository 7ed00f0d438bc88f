"""The proof: marks counted in the pixels by scipy equal the picture's own account.

Here a sample of each kind in three themes and two sizes; `benchmarks/pictures.py` counts them all.
"""

from __future__ import annotations

import random

import numpy as np
import pytest
from PIL import Image

from studio.pictures.kinds import CLASSES
from studio.pictures.themes import load_theme
from tests.pictures.counting import count, on_paper
from tests.pictures.every import pictures
from tests.pictures.made import shown

_THEMES = ("warm paper", "dark board", "high contrast")


@pytest.mark.parametrize("kind", [kind for kind in CLASSES if kind not in ("word", "text")])
def test_the_marks_in_the_pixels_are_the_marks_of_the_picture(kind: str) -> None:
    found = list(pictures([kind]))
    for number, picture in enumerate(random.Random(7).sample(found, 9)):
        theme = load_theme(_THEMES[number % 3])
        image = on_paper(picture, theme, (0.8, 1.0, 1.4)[number // 3])
        assert count(image, kind, theme) == dict(picture.marks), (picture, theme.name)


def test_the_count_can_fail() -> None:
    """A mark that is wiped out of the pixels is missed: the count does not read the value."""
    picture = shown("ten frame: 7 dots and 2 crosses")
    pixels = np.array(on_paper(picture))
    pixels[20:120, 20:120] = load_theme().colour("card")
    assert count(Image.fromarray(pixels), "ten frame")["dots"] == 6


@pytest.mark.parametrize("spec", ["ten frame: 7 dots and 2 crosses", "dots: 20", "dice: 6 and 6", "base ten: 34"])
def test_marks_are_still_counted_on_a_phone(spec: str) -> None:
    """A 1080p frame shrunk to 360p, as a small phone shows it."""
    picture = shown(spec)
    large = on_paper(picture, None, 1.9)
    small = large.resize((large.width // 3, large.height // 3), Image.Resampling.LANCZOS)
    assert count(small, picture.kind) == dict(picture.marks)
