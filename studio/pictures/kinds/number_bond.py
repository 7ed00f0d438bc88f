"""The number bond."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import ClassVar

from studio.pictures.pieces import numeral, ring_at
from studio.pictures.shapes import AnyShape, Disc, Drawing, Line
from studio.pictures.wholes import WholePicture

RADIUS = 68.0
APART = 186.0
DROP = 176.0
FEW, DEEPER = 4, 40.0
"""Each part over a few hangs all of them lower: else the lines to the outer parts would run over the inner ones."""
MARGIN = 20.0
LINE = 7.0
NUMERAL = 88.0


@dataclass(frozen=True, slots=True)
class NumberBond(WholePicture):
    """A whole above and its parts below, joined by lines."""

    kind: ClassVar[str] = "number bond"
    about: ClassVar[str] = "a whole and its two or more parts, joined by lines; what is not known yet is ?"

    @property
    def _drop(self) -> float:
        return DROP + DEEPER * max(0, len(self.parts) - FEW)

    def _middle(self, place: int) -> tuple[float, float]:
        across = MARGIN + RADIUS + (len(self.parts) - 1) * APART / 2
        if place == 0:
            return (across, MARGIN + RADIUS)
        return (MARGIN + RADIUS + (place - 1) * APART, MARGIN + RADIUS + self._drop)

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        top_x, top_y = self._middle(0)
        for place in range(1, len(self.values)):
            x, y = self._middle(place)
            part = RADIUS / hypot(x - top_x, y - top_y)
            dx, dy = (x - top_x) * part, (y - top_y) * part
            shapes.append(
                Line(
                    role="bond",
                    key=f"bond {place}",
                    x1=top_x + dx,
                    y1=top_y + dy,
                    x2=x - dx,
                    y2=y - dy,
                    fill="ink",
                    width=LINE,
                )
            )
        for place, value in enumerate(self.values):
            x, y = self._middle(place)
            name = f"part {place}" if place else "whole"
            shapes.append(
                Disc(
                    role="part" if place else "whole",
                    key=name,
                    x=x,
                    y=y,
                    radius=RADIUS,
                    fill="card",
                    outline="ink",
                    width=LINE,
                )
            )
            shapes.append(numeral(f"{name} number", value, x, y, NUMERAL, three=0.66))
        shapes += [ring_at(place, *self._middle(place), RADIUS + 12, RADIUS + 12) for place in self.rings]
        width = 2 * (MARGIN + RADIUS) + (len(self.parts) - 1) * APART
        return Drawing(width, 2 * (MARGIN + RADIUS) + self._drop, tuple(shapes))
