"""One less and one more."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar, Self

from studio.pictures.base import within
from studio.pictures.pieces import numeral, ring
from studio.pictures.ringed import UnknownsPicture
from studio.pictures.shapes import AnyShape, Box, Drawing, Path, Words
from studio.script.model import Amount, Details

WIDTH = 206.0
HEIGHT = 170.0
GAP = 112.0
MARGIN = 24.0
NUMERAL = 100.0
LABEL = 46.0


@dataclass(frozen=True, slots=True)
class MoreAndLess(UnknownsPicture):
    """A number with one less on its left and one more on its right; None is `?`.

    Place 0 is one less, 1 the number, 2 one more.
    """

    value: int
    less: int | None = None
    more: int | None = None

    kind: ClassVar[str] = "more and less"
    bare: ClassVar[bool] = True
    about: ClassVar[str] = "a number with one less on its left and one more on its right, ? until they are found"

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, Amount):
            raise cls.misfit(details)
        within(cls.named(), details.value, 1, cls.largest - 1)
        return cls(details.value)

    @property
    def values(self) -> tuple[int | None, ...]:
        return (self.less, self.value, self.more)

    @property
    def holds(self) -> bool | None:
        """Whether what is filled in is right (False as soon as one is not); None while one is open."""
        known = [(self.less, self.value - 1), (self.more, self.value + 1)]
        if any(shown not in (None, right) for shown, right in known):
            return False
        return None if None in self.values else True

    def answer(self, place: int) -> int | None:
        return self.value + place - 1

    def having(self, place: int, value: int) -> Self:
        return replace(self, less=value) if place == 0 else replace(self, more=value)

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        rings: list[AnyShape] = []
        middle = MARGIN + HEIGHT / 2
        for place, (value, label) in enumerate(zip(self.values, ("one less", "", "one more"), strict=True)):
            x = MARGIN + place * (WIDTH + GAP) + WIDTH / 2
            shapes.append(
                Box(
                    role="place",
                    key=f"place {place}",
                    x=x - WIDTH / 2,
                    y=MARGIN,
                    width=WIDTH,
                    height=HEIGHT,
                    fill="card",
                    outline="ink" if place == 1 else "quiet",
                    line=8 if place == 1 else 5,
                    corner=24,
                )
            )
            number = numeral(f"number {place}", value, x, middle, NUMERAL, three=0.76)
            shapes.append(number)
            if label:
                side = -1 if place == 0 else 1
                shapes.append(
                    Words(
                        role="label",
                        key=f"label {place}",
                        x=x,
                        y=MARGIN + HEIGHT + LABEL * 1.3,
                        text=label,
                        size=LABEL,
                        fill="ink",
                    )
                )
                start = MARGIN + WIDTH + GAP + WIDTH / 2 + side * (WIDTH / 2 + 18)
                end = start + side * (GAP - 36)
                shapes.append(
                    Path(
                        role="arrow",
                        key=f"arrow {place}",
                        points=((start, middle), (end, middle)),
                        fill="quiet",
                        width=7,
                    )
                )
                shapes.append(
                    Path(
                        role="arrow head",
                        key=f"head {place}",
                        fill="quiet",
                        width=7,
                        points=(
                            (end - side * 22, middle - 20),
                            (end, middle),
                            (end - side * 22, middle + 20),
                        ),
                    )
                )
            if place in self.rings:
                rings.append(ring(place, number, WIDTH / 2 - 14, HEIGHT / 2 - 16))
        return Drawing(2 * MARGIN + 3 * WIDTH + 2 * GAP, MARGIN + HEIGHT + LABEL * 1.8 + MARGIN, (*shapes, *rings))

    def description(self) -> str:
        less, more = ("unknown" if value is None else str(value) for value in (self.less, self.more))
        return self.with_rings(f"More and less: {self.value}; one less is {less}, one more is {more}")
