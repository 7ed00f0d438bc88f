"""Reading numerals and words in a frame by optical character recognition (RapidOCR, its models inside the package)."""

from __future__ import annotations

import hashlib
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from scipy import ndimage

from studio.audit.view import Array, Blob, View, blobs_of

_HEIGHT = 44  # pixels of a glyph as the recogniser gets it
# The detector of words makes the shorter side of a picture at least the second of these; a long picture would become one
# of two million pixels, for which it needs 300 MB.
_SIDES = (960, 736)


@dataclass(frozen=True, slots=True)
class Reading:
    """What was read at a place of the view."""

    text: str
    x: int
    y: int
    width: int
    height: int


class Reader:
    """Reads groups of glyphs; what it has read once it knows."""

    def __init__(self) -> None:
        self._known: dict[bytes, str] = {}

    def numerals(self, view: View) -> list[Reading]:
        """Every group of digits in the view: of ink, and cut out of marked blocks."""
        found = self._groups(view.darkness("ink"), view.of("ink"))
        marked = ndimage.binary_fill_holes(ndimage.binary_opening(view.of("first"), np.ones((3, 3), bool)))
        if marked.any():
            light = np.where(ndimage.binary_erosion(marked, iterations=2), 1 - view.darkness("first"), 0.0)
            found += self._groups(light.astype(np.float32), light > 0.6)
        found = [reading for reading in found if reading.text.isdigit()]
        tallest = max((reading.height for reading in found), default=0)
        # What is left of a tick beside a point looks like a 1, and is small beside the numerals.
        return [reading for reading in found if reading.height > 0.4 * tallest]

    def unknowns(self, view: View) -> int:
        """How many question marks stand for a number."""
        mask = ndimage.binary_opening(view.of("quiet"), np.ones((2, 2), bool))
        return sum(reading.text == "?" for reading in self._groups(view.darkness("quiet"), mask, gap_down=0.45))

    def words(self, view: View, ink: str = "ink") -> str:
        """All words in the view, line by line."""
        darkness = view.darkness(ink)
        darkness = np.clip(ndimage.zoom(darkness, _SIDES[0] / max(darkness.shape), order=1), 0, 1)
        missing = [max(0, _SIDES[1] - side) for side in darkness.shape]
        image = _image(np.pad(darkness, [(0, side) for side in missing]))
        result, _ = _engine()(image, use_cls=False)
        lines = sorted(result or [], key=lambda line: (round(line[0][0][1] / 30), line[0][0][0]))
        return " ".join(_plain(line[1]) for line in lines)

    def _groups(self, darkness: Array, mask: Array, gap_down: float = 0.0) -> list[Reading]:
        blobs = blobs_of(mask)
        blobs = [blob for blob in blobs if _glyph(blob, mask.shape) and not any(_holds(blob, o) for o in blobs)]
        if not blobs:
            return []
        groups = _together(blobs, gap_down)
        images = [_line(darkness, group) for group in groups]
        texts = self._read(images)
        return [
            Reading(
                text,
                min(b.x for b in group),
                min(b.y for b in group),
                max(b.right for b in group) - min(b.x for b in group),
                max(b.bottom for b in group) - min(b.y for b in group),
            )
            for group, text in zip(groups, texts, strict=True)
        ]

    def _read(self, images: Sequence[Array]) -> list[str]:
        names = [hashlib.sha256(repr(image.shape).encode() + image.tobytes()).digest() for image in images]
        new = {name: image for name, image in zip(names, images, strict=True) if name not in self._known}
        if new:
            results, _ = _engine().text_rec(list(new.values()))
            for name, (text, _score) in zip(new, results, strict=True):
                self._known[name] = _plain(text)
        return [self._known[name] for name in names]


@lru_cache(maxsize=1)
def _engine() -> Any:
    from rapidocr_onnxruntime import RapidOCR

    return RapidOCR(intra_op_num_threads=1)


def _plain(text: str) -> str:
    """Without blanks and in the plain forms of digits and signs; a circle alone is a nought."""
    plain = unicodedata.normalize("NFKC", text).strip()
    if plain in ("o", "O", "〇", "○"):
        return "0"
    if plain in ("l", "I", "|", "i"):
        return "1"
    return plain


def _glyph(blob: Blob, shape: tuple[int, ...]) -> bool:
    """Whether a blob may be a digit, a letter or a question mark or a part of it."""
    if blob.height < 5 or blob.area < 12 or blob.width > 2.2 * blob.height:
        return False
    if blob.x == 0 or blob.y == 0 or blob.right == shape[1] or blob.bottom == shape[0]:
        return False
    if blob.height > 12 * blob.width:
        return False
    nought = 0.4 < blob.width / blob.height < 0.78 and blob.fill > 0.2  # small, its line is thin
    return nought or not (blob.solid > 0.6 and blob.fill < 0.33)  # an outline


def _holds(outline: Blob, blob: Blob) -> bool:
    """Whether a blob goes all round another, as a frame round a numeral."""
    return (
        outline.width > 1.4 * blob.width
        and outline.height > 1.4 * blob.height
        and blob.height > 0.15 * outline.height
        and outline.x < blob.x
        and outline.y < blob.y
        and blob.right < outline.right
        and blob.bottom < outline.bottom
    )


def _together(blobs: Sequence[Blob], gap_down: float) -> list[list[Blob]]:
    """Glyphs of one numeral: side by side on one line, as near as digits stand. With `gap_down`, also a part that lies
    below another (the point of a question mark)."""
    groups: list[list[Blob]] = []
    for blob in sorted(blobs, key=lambda item: (item.x, -item.height)):
        for group in groups:
            if any(_near(other, blob, gap_down) for other in group):
                group.append(blob)
                break
        else:
            groups.append([blob])
    return groups


def _near(one: Blob, other: Blob, gap_down: float) -> bool:
    height = max(one.height, other.height)
    if gap_down:
        across = min(one.right, other.right) - max(one.x, other.x)
        down = max(one.y, other.y) - min(one.bottom, other.bottom)
        if across > 0 and down < gap_down * height:
            return True
    gap = max(one.x, other.x) - min(one.right, other.right)
    apart = abs(one.middle[0] - other.middle[0])
    level = min(one.bottom, other.bottom) - max(one.y, other.y) > 0.6 * min(one.height, other.height)
    return level and (gap < 0.3 * height or apart < 0.98 * height)


def _line(darkness: Array, group: Sequence[Blob]) -> Array:
    """The group alone, dark on light, at the recogniser's size, with room on all sides."""
    x, y = min(blob.x for blob in group), min(blob.y for blob in group)
    right, bottom = max(blob.right for blob in group), max(blob.bottom for blob in group)
    own = np.zeros((bottom - y + 2, right - x + 2), bool)
    for blob in group:
        own[blob.y - y + 1 : blob.bottom - y + 1, blob.x - x + 1 : blob.right - x + 1] |= blob.mask
    own = ndimage.binary_dilation(own, np.ones((3, 3), bool))
    top, left = max(0, y - 1), max(0, x - 1)
    cut = darkness[top : bottom + 1, left : right + 1]
    own = own[top - y + 1 :, left - x + 1 :][: cut.shape[0], : cut.shape[1]]
    cut = np.where(own, cut, 0.0)
    return _image(ndimage.zoom(cut, _HEIGHT / (bottom - y), order=1), room=_HEIGHT // 3)


def _image(darkness: Array, room: int = 0) -> Array:
    grey = (255 * (1 - np.clip(np.pad(darkness, room), 0, 1))).astype(np.uint8)
    return np.repeat(grey[:, :, None], 3, axis=2)
