"""Counts what is drawn, from the pixels alone: colours by nearness, connected components by scipy.

It knows a theme's colours and how a person counts each kind (tallies by their strokes, the beads on the left); it knows
nothing of the values that the pictures were made from.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable
from functools import lru_cache

import cv2
import numpy as np
from numpy.typing import NDArray
from PIL import Image
from scipy import ndimage

from studio.pictures.base import Picture
from studio.pictures.painters.pillow import paint
from studio.pictures.themes import INKS, Theme, load_theme

Mask = NDArray[np.bool_]
Counts = dict[str, int]
_EIGHT = np.ones((3, 3), bool)


def on_paper(picture: Picture, theme: Theme | None = None, scale: float = 1.0) -> Image.Image:
    """The picture as it looks in a film: on the theme's paper."""
    theme = theme or load_theme()
    image = paint(picture.drawing(), theme, scale=scale)
    page = Image.new("RGB", (image.width + 40, image.height + 40), theme.colour("paper"))
    page.paste(image, (20, 20), image)
    return page


@lru_cache(maxsize=8)
def _nearest(theme: Theme) -> NDArray[np.uint8]:
    """For each colour of five bits a channel, the number of the ink that is nearest."""
    steps = np.arange(32) * 8 + 4
    colours = np.stack(np.meshgrid(steps, steps, steps, indexing="ij"), axis=-1).reshape(-1, 3)
    inks = np.array([theme.colour(ink) for ink in INKS])
    return ((colours[:, None, :] - inks[None]) ** 2).sum(axis=-1).argmin(axis=1).astype(np.uint8)


class Seen:
    """An image, with each pixel given to the ink that its colour is nearest to."""

    def __init__(self, image: Image.Image, theme: Theme) -> None:
        five = (np.asarray(image.convert("RGB")) >> 3).astype(np.uint16)
        self.nearest = _nearest(theme)[five[..., 0] << 10 | five[..., 1] << 5 | five[..., 2]]

    def of(self, *inks: str) -> Mask:
        """Where these inks are, without the thin seams where two other colours blend into something like them."""
        found = np.zeros(self.nearest.shape, bool)
        for ink in inks:
            found |= self.nearest == INKS.index(ink)  # type: ignore[arg-type]
        opened = cv2.morphologyEx(found.view(np.uint8), cv2.MORPH_OPEN, _EIGHT.view(np.uint8))
        return np.asarray(opened, bool)

    def pieces(self, *inks: str) -> list[tuple[slice, slice]]:
        """The boxes of the connected pieces of these inks."""
        return boxes(self.of(*inks))


def boxes(mask: Mask) -> list[tuple[slice, slice]]:
    """The boxes of the connected pieces of a mask."""
    labels, _ = ndimage.label(mask, _EIGHT)
    return list(ndimage.find_objects(labels))


def outer(pieces: list[tuple[slice, slice]]) -> int:
    """How many pieces lie in no other: the holes of a numeral on a filled square belong to the square."""

    def inside(one: tuple[slice, slice], other: tuple[slice, slice]) -> bool:
        return one != other and all(b.start <= a.start and a.stop <= b.stop for a, b in zip(one, other, strict=True))

    return sum(not any(inside(piece, other) for other in pieces) for piece in pieces)


def size(box: tuple[slice, slice]) -> tuple[int, int]:
    """Height and width of a box."""
    return box[0].stop - box[0].start, box[1].stop - box[1].start


def _marks(seen: Seen) -> Counts:
    return {"dots": len(seen.pieces("first")), "crosses": len(seen.pieces("second"))}


def _tally(seen: Seen) -> Counts:
    strokes = len(seen.pieces("first"))
    together = ndimage.binary_dilation(seen.of("first", "second"), _EIGHT, iterations=2)
    labels, count = ndimage.label(together, _EIGHT)
    crossed = seen.of("second")
    groups = sum(bool((crossed & (labels == number)).any()) for number in range(1, count + 1))
    return {"tallies": strokes + groups}


def _base_ten(seen: Seen) -> Counts:
    return {"tens": len(seen.pieces("first")), "ones": len(seen.pieces("second"))}


def _dice(seen: Seen) -> Counts:
    return {"pips": len(seen.pieces("first")), "dice": len(seen.pieces("ink"))}


def _rekenrek(seen: Seen) -> Counts:
    beads = seen.pieces("first", "second")
    posts = sorted(seen.pieces("ink"), key=lambda box: box[1].start)
    left, right = posts[0][1].stop, posts[-1][1].start
    middle = (min(b[0].start for b in beads) + max(b[0].stop for b in beads)) / 2
    counts = {"waiting": 0}
    for name, row in (
        ("upper", [b for b in beads if b[0].stop < middle]),
        ("lower", [b for b in beads if b[0].start > middle]),
    ):
        centres = sorted((b[1].start + b[1].stop) / 2 for b in row)
        wide = max(size(b)[1] for b in row)
        stops = [left, *centres, right]
        gaps = [b - a for a, b in itertools.pairwise(stops)]
        widest = max(range(len(gaps)), key=gaps.__getitem__)
        assert gaps[widest] > 1.8 * wide
        counts[name] = widest
        counts["waiting"] += len(centres) - widest
    return counts


def _compare(seen: Seen) -> Counts:
    upper, lower = seen.pieces("first"), seen.pieces("second")
    if any(wide > tall for tall, wide in map(size, upper + lower)):  # a square is higher than wide
        return {"bars": len(upper + lower)} | _asked(seen)
    return {"upper": len(upper), "lower": len(lower)} | _asked(seen)


def _cards(seen: Seen) -> Counts:
    inked = seen.pieces("ink")
    tallest = max(size(box)[0] for box in inked)
    cards = sum(size(box)[0] > 0.9 * tallest for box in inked)
    return {"cards": cards, "turned": len(seen.pieces("first")), "rings": _rings(seen)}


def _squares(seen: Seen) -> int:
    """How many large fields are closed in by ink: the squares of a path or chart."""
    labels, _ = ndimage.label(seen.nearest != INKS.index("ink"))
    found = [box for box in ndimage.find_objects(labels) if box[0].start > 0 and box[1].start > 0]
    largest = max(size(box)[0] for box in found)
    return sum(size(box)[0] > 0.8 * largest for box in found)


def _path(seen: Seen) -> Counts:
    return {"places": _squares(seen), "marked": outer(seen.pieces("first")), "hops": len(seen.pieces("second"))}


def _line(seen: Seen) -> Counts:
    # The seam round a point is as dark as ink in some themes.
    ink = (seen.nearest == INKS.index("ink")) & ~ndimage.binary_dilation(seen.of("first"), _EIGHT, iterations=2)
    along = ink.sum(axis=1)
    line = int(np.flatnonzero(along > 0.8 * along.max())[0])
    strokes = np.diff(ink[:line].astype(int), axis=1, prepend=0).clip(min=0).sum(axis=1)
    # Short ticks begin nearer to the line than long ones, and a point may hide them close to it: the most that are seen.
    return {"places": int(strokes.max()), "marked": len(seen.pieces("first")), "hops": len(seen.pieces("second"))}


def _chart(seen: Seen) -> Counts:
    return {"places": _squares(seen), "marked": outer(seen.pieces("first")), "rings": _rings(seen)}


def _rings(seen: Seen) -> int:
    return len(seen.pieces("ring"))


def _asked(seen: Seen) -> Counts:
    """Question marks by the round point under each, and rings."""
    labels, _ = ndimage.label(seen.of("quiet"), _EIGHT)
    points = 0
    for number, box in enumerate(ndimage.find_objects(labels), 1):
        tall, wide = size(box)
        filled = (labels[box] == number).mean()
        points += 5 <= tall <= 26 and 0.75 < tall / wide < 1.34 and filled > 0.65
    return {"unknowns": points, "rings": _rings(seen)}


def _nothing(seen: Seen) -> Counts:
    return {}


HOW: dict[str, Callable[[Seen], Counts]] = {
    "five frame": _marks,
    "ten frame": _marks,
    "double ten frame": _marks,
    "dots": _marks,
    "tally": _tally,
    "base ten": _base_ten,
    "dice": _dice,
    "rekenrek": _rekenrek,
    "compare bars": _compare,
    "cards": _cards,
    "number path": _path,
    "number line": _line,
    "hundred chart": _chart,
    "number bond": _asked,
    "number sentence": _asked,
    "bar": _asked,
    "more and less": _asked,
    "word": _nothing,
    "text": _nothing,
}


def count(image: Image.Image, kind: str, theme: Theme | None = None) -> Counts:
    """What a picture of that kind shows, counted in its pixels."""
    return HOW[kind](Seen(image, theme or load_theme()))
