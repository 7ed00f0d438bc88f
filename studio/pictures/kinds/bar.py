"""The part-whole bar."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from studio.pictures.pieces import numeral, ring
from studio.pictures.shapes import AnyShape, Box, Drawing, Ink
from studio.pictures.wholes import WholePicture

WIDTH = 960.0
HEIGHT = 130.0
GAP = 16.0
MARGIN = 24.0
NUMERAL = 84.0
NARROWEST = 116.0


@dataclass(frozen=True, slots=True)
class Bar(WholePicture):
    """The whole as a long bar, and under it the bars of its parts, as long as they are large."""

    kind: ClassVar[str] = "bar"
    about: ClassVar[str] = "a bar for the whole and under it the bars of its parts; what is not known yet is ?"

    def _lengths(self) -> tuple[float, tuple[float, ...]]:
        """How long the whole and the parts are drawn.

        A part that can be worked out has its true length. Parts that do not make the whole end before or after it.
        """
        values = [value if value is not None else self.answer(place) for place, value in enumerate(self.values)]
        known = [value for value in values if value is not None and value >= 0]
        if len(known) < len(values) or sum(values[1:], start=0) == 0:  # type: ignore[arg-type]
            return WIDTH, tuple(WIDTH / len(self.parts) for _ in self.parts)
        whole, parts = known[0], known[1:]
        unit = WIDTH / max(whole, sum(parts))
        lengths = [max(NARROWEST, part * unit) for part in parts]
        if sum(parts) == whole:
            # Room for the numerals of small parts is taken from the large ones.
            spare = [max(0.0, length - NARROWEST) for length in lengths]
            over = max(0.0, sum(lengths) - WIDTH)
            total = sum(spare)
            lengths = [length - over * share / total for length, share in zip(lengths, spare, strict=True)]
            return sum(lengths), tuple(lengths)
        return max(NARROWEST, whole * unit), tuple(lengths)

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        rings: list[AnyShape] = []
        whole, parts = self._lengths()
        fills: tuple[Ink, Ink] = ("card", "light")
        x = MARGIN
        for place, value in enumerate(self.values):
            if place == 1:
                x = MARGIN
            length = parts[place - 1] if place else whole
            y = MARGIN + (HEIGHT + GAP if place else 0)
            shapes.append(
                Box(
                    role="part" if place else "whole",
                    key=f"bar {place}",
                    x=x,
                    y=y,
                    width=length + 6,
                    height=HEIGHT,
                    fill=fills[place % 2],
                    outline="ink",
                    line=6,
                    corner=10,
                )
            )
            x_middle, y_middle = x + length / 2 + 3, y + HEIGHT / 2
            shapes.append(numeral(f"number {place}", value, x_middle, y_middle, NUMERAL))
            if place in self.rings:
                rings.append(ring(place, x_middle, y_middle, min(58.0, length / 2 - 8), HEIGHT / 2 - 14))
            x += length
        longest = max(whole, sum(parts), WIDTH)
        return Drawing(2 * MARGIN + longest + 6, 2 * MARGIN + 2 * HEIGHT + GAP, (*shapes, *rings), "left")
