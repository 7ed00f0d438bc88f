"""A cut from a frame, with its pixels told apart by the theme's colours and gathered into blobs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Any

import numpy as np
from scipy import ndimage

Array = np.ndarray[Any, Any]
_NEAR = 62.0  # the distance in RGB within which a pixel has a colour
_COARSE = 3  # bits of each channel that do not matter for that


@dataclass(frozen=True)
class Blob:
    """Connected pixels of one colour; `mask` covers the bounding box."""

    x: int
    y: int
    width: int
    height: int
    area: int
    mask: Array

    @property
    def fill(self) -> float:
        """The share of the bounding box that it covers."""
        return self.area / (self.width * self.height)

    @property
    def solid(self) -> float:
        """The share of the bounding box that it covers with its holes filled."""
        outside, _ = ndimage.label(np.pad(~self.mask, 1, constant_values=True))
        return float((outside[1:-1, 1:-1] != outside[0, 0]).sum()) / (self.width * self.height)

    @property
    def middle(self) -> tuple[float, float]:
        return self.x + self.width / 2, self.y + self.height / 2

    @property
    def right(self) -> int:
        return self.x + self.width

    @property
    def bottom(self) -> int:
        return self.y + self.height


@lru_cache(maxsize=4)
def _table(colours: tuple[tuple[int, int, int], ...]) -> Array:
    """The nearest colour for every cell of a coarse cube of colours."""
    steps = 256 >> _COARSE
    middles = (np.arange(steps) + 0.5) * (1 << _COARSE)
    cube = np.stack(np.meshgrid(middles, middles, middles, indexing="ij"), axis=-1)
    distances = np.stack([np.sqrt(((cube - np.array(colour)) ** 2).sum(axis=-1)) for colour in colours])
    found: Array = np.where(distances.min(axis=0) < _NEAR, distances.argmin(axis=0), len(colours)).astype(np.uint8)
    return found


@dataclass(frozen=True)
class View:
    """`pixels` is RGB (height × width × 3); `colours` maps each ink of the theme to red, green and blue."""

    pixels: Array
    colours: Mapping[str, tuple[int, int, int]]

    @cached_property
    def _inks(self) -> Array:
        """For each pixel the place of its ink among the colours; one past the last where it is of none."""
        coarse = self.pixels >> _COARSE
        table = _table(tuple(self.colours.values()))
        found: Array = table[coarse[:, :, 0], coarse[:, :, 1], coarse[:, :, 2]]
        return found

    def of(self, *inks: str) -> Array:
        """Where the pixels have one of these colours."""
        names = list(self.colours)
        places = [names.index(ink) for ink in inks]
        found: Array = self._inks == places[0]
        for place in places[1:]:
            found = found | (self._inks == place)
        return found

    def blobs(self, *inks: str, thick: bool = True, least: float = 0.0) -> list[Blob]:
        """The blobs of these colours, from left to right. `thick` leaves out seams one or two pixels wide, which edges
        between two other colours give; `least` is the least area as a share of the largest blob's."""
        mask = self.of(*inks)
        if thick:
            mask = ndimage.binary_opening(mask, np.ones((3, 3), bool))
        found = blobs_of(mask)
        if not found:
            return []
        smallest = max(12.0, least * max(blob.area for blob in found))
        return [blob for blob in found if blob.area >= smallest]

    def darkness(self, ink: str = "ink", ground: str = "card") -> Array:
        """How much each pixel is of the colour `ink` against `ground`, 0 to 1; pixels of a third colour are 0."""
        dark, light = (np.array(self.colours[name], np.float32) for name in (ink, ground))
        along = (light - dark) / float((light - dark) @ (light - dark))
        share = 1 + float(dark @ along) - self.pixels.astype(np.float32) @ along
        others = [name for name in ("first", "second", "ring", "quiet", "ink") if name not in (ink, ground)]
        return np.where(self.of(*others), 0.0, np.clip(share, 0.0, 1.0)).astype(np.float32)


def blobs_of(mask: Array) -> list[Blob]:
    """The connected pixels (eight neighbours) of a mask, from left to right."""
    labels, _ = ndimage.label(mask, np.ones((3, 3), int))
    found = []
    for number, place in enumerate(ndimage.find_objects(labels), start=1):
        if place is None:
            continue
        inside = labels[place] == number
        rows, columns = place
        found.append(
            Blob(
                columns.start,
                rows.start,
                columns.stop - columns.start,
                rows.stop - rows.start,
                int(inside.sum()),
                inside,
            )
        )
    return sorted(found, key=lambda blob: (blob.x, blob.y))
