"""Reads the numerals in a picture by OCR (rapidocr-onnxruntime, its models in the wheel)."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from PIL import Image

from studio.pictures.layout import Area, arrange
from studio.pictures.metrics import CAPITAL, text_width
from studio.pictures.painters.pillow import paint
from studio.pictures.shapes import Drawing, Words
from studio.pictures.themes import Theme

_ALONE = {"T": "1", "I": "1", "L": "1", "l": "1", "O": "0", "o": "0", "Z": "2", "S": "5", "g": "9", "B": "8"}
"""A letter that stands alone where there are only numerals is the numeral that looks like it."""


@lru_cache(maxsize=1)
def _reader() -> Any:
    from rapidocr_onnxruntime import RapidOCR

    return RapidOCR(intra_op_num_threads=1)


def lines(image: Image.Image) -> list[str]:
    """The pieces of writing that are found, as they are read."""
    found, _ = _reader()(np.asarray(image.convert("RGB"))[..., ::-1], use_cls=False)
    return [unicodedata.normalize("NFKC", piece[1]) for piece in found or []]


@dataclass(frozen=True)
class Framed:
    """A drawing in a film's frame: its scale in pixels a unit, and the pixel of its left top."""

    image: Image.Image
    drawing: Drawing
    scale: float
    left: float
    top: float


def framed(drawing: Drawing, theme: Theme, height: int = 1080) -> Framed:
    """The drawing alone in a frame of 1920 × 1080, and that shrunk to `height` lines as a phone shows it."""
    (place,) = arrange([(drawing.width, drawing.height)], Area(110, 70, 1700, 790))
    frame = Image.new("RGB", (1920, 1080), theme.colour("paper"))
    image = paint(drawing, theme, scale=place.scale)
    frame.paste(image, (int(place.x), int(place.y)), image)
    small = frame if height == 1080 else frame.resize((1920 * height // 1080, height), Image.Resampling.LANCZOS)
    part = height / 1080
    return Framed(small, drawing, place.scale * part, place.x * part, place.y * part)


@dataclass(frozen=True)
class Look:
    """What was read in a picture: in the `whole` of it, `alone` when looked at closely, `missed`, and read where nothing
    of the kind is written (`extra`)."""

    whole: int
    alone: int
    missed: tuple[tuple[str, str], ...]
    extra: tuple[str, ...]


def look(page: Framed) -> Look:
    """Read the words and numerals of a drawing in its frame.

    First as a page: the OCR finds the writing by itself. It is made for lines of text and overlooks single numerals, so
    what it did not find is then cut out and read alone, as an eye looks at one number after another.
    """
    there = [
        shape
        for shape in page.drawing.shapes
        if isinstance(shape, Words) and shape.role in ("numeral", "word", "words")
    ]
    read = [_plain(piece) for piece in lines(page.image) if _plain(piece)]
    wanted, pieces = Counter(_plain(shape.text) for shape in there), Counter(read)
    found = wanted & pieces
    left_over = list((pieces - found).elements())
    missed: list[tuple[str, str]] = []
    alone = 0
    for shape in there:
        text = _plain(shape.text)
        if found[text]:
            found[text] -= 1
            continue
        readings = [_read_alone(page, shape, room) for room in (0.12, 0.24, 0.5)]
        if text in readings:
            alone += 1
        else:
            missed.append((shape.text, " / ".join(readings)))
    written = "".join(wanted)
    extra = tuple(piece for piece in left_over if piece.isdecimal() and piece not in written)
    return Look(len(there) - alone - len(missed), alone, tuple(missed), extra)


def _read_alone(page: Framed, shape: Words, room: float) -> str:
    half = text_width(shape.text, shape.size) / 2
    middle = shape.x + {"left": half, "middle": 0.0, "right": -half}[shape.align]
    above, below = (CAPITAL, 0.0) if shape.text.isdecimal() else (0.76, 0.22)
    box = (
        page.left + page.scale * (middle - half - room * shape.size),
        page.top + page.scale * (shape.y - (above + room) * shape.size),
        page.left + page.scale * (middle + half + room * shape.size),
        page.top + page.scale * (shape.y + (below + room) * shape.size),
    )
    cut = page.image.convert("RGB").crop(tuple(round(edge) for edge in box))  # type: ignore[arg-type]
    read, _ = _reader()(np.asarray(cut)[..., ::-1], use_det=False, use_cls=False)
    return _plain(unicodedata.normalize("NFKC", read[0][0])) if read else ""


def _plain(read: str) -> str:
    """Letters and numerals only, in small letters; alone, a letter is the numeral that looks like it."""
    plain = re.sub(r"[^0-9A-Za-z]", "", read)
    return _ALONE.get(plain, plain.lower())
