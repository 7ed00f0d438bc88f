"""The part-whole bar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import ClassVar

from studio.pictures.pieces import CLEAR, numeral, ring
from studio.pictures.shapes import AnyShape, Box, Drawing, Ink, Line
from studio.pictures.spread import spread
from studio.pictures.wholes import WholePicture

WIDTH = 960.0
HEIGHT = 130.0
GAP = 16.0
MARGIN = 24.0
LINE = 6.0
NUMERAL = 84.0
RING = 9.0
RX, RY = 58.0, HEIGHT / 2 - 14
"""How far a ring reaches from the middle of its numeral where there is room."""
BESIDE = RING / 2 + CLEAR + LINE
"""From the middle of a ring's line to the outside of a bar's."""
OUTSIDE = 150.0
"""The room for numerals above the whole or under the parts, where bars are too short for them."""


@dataclass(frozen=True, slots=True)
class Bar(WholePicture):
    """The whole as a long bar, and under it the bars of its parts, as long as they are large. A numeral that is too wide
    for its bar stands above the whole or under the part, and a line leads to it; a 0 has an edge for its bar."""

    kind: ClassVar[str] = "bar"
    about: ClassVar[str] = "a bar for the whole and under it the bars of its parts; what is not known yet is ?"

    @property
    def _known(self) -> tuple[int | None, ...]:
        """The number at each place, or what it must be."""
        return tuple(value if value is not None else self.answer(place) for place, value in enumerate(self.values))

    def _lengths(self) -> tuple[float, tuple[float, ...]]:
        """How long the whole and the parts are drawn.

        A part that can be worked out has its true length. Parts that do not make the whole end before or after it.
        """
        known = [value for value in self._known if value is not None and value >= 0]
        if len(known) < len(self.values):
            return WIDTH, tuple(WIDTH / len(self.parts) for _ in self.parts)
        unit = WIDTH / max(known[0], sum(known[1:]), 1)
        return known[0] * unit, tuple(part * unit for part in known[1:])

    def _needs(self, place: int) -> float:
        """How wide a bar must be for its numeral, as it is and as it will be, with a ring."""
        shown = (numeral("", value, 0, 0, NUMERAL) for value in (self.values[place], self._known[place]))
        return 2 * (max(ring(place, number, 0, RY, RING).rx for number in shown) + BESIDE)

    def drawing(self) -> Drawing:
        whole, parts = self._lengths()
        lengths = (whole, *parts)
        out = [length + LINE < self._needs(place) for place, length in enumerate(lengths)]
        above, below = OUTSIDE if out[0] else 0.0, OUTSIDE if any(out[1:]) else 0.0
        longest = max(whole, sum(parts), WIDTH)
        shapes: list[AnyShape] = []
        starts = [MARGIN, *(MARGIN + sum(parts[:at]) for at in range(len(parts)))]
        tops = [MARGIN + above + (HEIGHT + GAP if place else 0) for place in range(len(lengths))]
        fills: tuple[Ink, Ink] = ("card", "light")
        for place, (x, y, length) in enumerate(zip(starts, tops, lengths, strict=True)):
            shapes.append(
                Box(
                    role="part" if place else "whole",
                    key=f"bar {place}",
                    x=x,
                    y=y,
                    width=length + LINE,
                    height=HEIGHT,
                    fill=fills[place % 2],
                    outline="ink",
                    line=LINE,
                    corner=min(10.0, (length + LINE) / 2),
                )
            )
        middles = [x + (length + LINE) / 2 for x, length in zip(starts, lengths, strict=True)]
        numbers = [
            numeral(f"number {place}", value, middles[place], tops[place] + HEIGHT / 2, NUMERAL)
            for place, value in enumerate(self.values)
        ]
        for group in ([0] if out[0] else [], [place for place in range(1, len(lengths)) if out[place]]):
            y_edge = tops[0] if 0 in group else tops[-1] + HEIGHT
            away = -1 if 0 in group else 1
            for place, x in zip(group, self._beside(group, middles, MARGIN, MARGIN + longest + LINE), strict=True):
                y = y_edge + away * (OUTSIDE - RY - RING)
                numbers[place] = numeral(f"number {place}", self.values[place], x, y, NUMERAL)
                shapes.append(
                    Line(
                        role="thread",
                        key=f"thread {place}",
                        x1=middles[place],
                        y1=y_edge + away * 6,
                        x2=x,
                        y2=y - away * (RY + RING + 1),
                        fill="ink",
                        width=4,
                    )
                )
        rings = [
            ring(place, numbers[place], RX if out[place] else min(RX, (lengths[place] + LINE) / 2 - BESIDE), RY, RING)
            for place in self.rings
        ]
        height = 2 * MARGIN + 2 * HEIGHT + GAP + above + below
        return Drawing(2 * MARGIN + longest + LINE, height, (*shapes, *numbers, *rings), "left")

    def _beside(self, group: Sequence[int], middles: Sequence[float], left: float, right: float) -> list[float]:
        """Where the numerals of bars stand that are too short for them: as near as the others let them."""
        if not group:
            return []
        wide = {place: max(self._needs(place), 2 * (RX + BESIDE)) for place in group}
        apart = [(wide[one] + wide[other]) / 2 for one, other in pairwise(group)]
        return spread(
            [middles[place] for place in group], apart, left + wide[group[0]] / 2, right - wide[group[-1]] / 2
        )
