"""Reads the numerals in a picture by OCR (rapidocr-onnxruntime, its models in the wheel)."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache
from typing import Any

import numpy as np
from PIL import Image

from studio.script.numberwords import to_number

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


def numerals(image: Image.Image) -> list[int]:
    """The numerals that are read in the whole image, sorted."""
    return sorted(_numerals(lines(image)))


def _numerals(read: list[str]) -> list[int]:
    found: list[int] = []
    for line in read:
        for word in re.split(r"[\s+=<>\-–—一二]+", line):
            word = word.strip(".,_'?·")
            try:
                # A number word counts where it stands alone; "one less" is a label.
                if word == line:
                    found.append(to_number(word))
                    continue
            except ValueError:
                pass
            word = _ALONE.get(word, word)
            # A row of marks looks like zeros.
            found += [int(digits) for digits in re.findall(r"\d+", re.sub(r"0{4,}", " ", word))]
    return found


def agrees(image: Image.Image, numbers: tuple[int, ...]) -> bool:
    """Whether the OCR reads just these numbers; a row that it runs together is compared digit by digit."""
    read = lines(image)
    joined = "".join(map(str, numbers))
    return sorted(_numerals(read)) == sorted(numbers) or any(re.sub(r"\s", "", line) == joined for line in read)
