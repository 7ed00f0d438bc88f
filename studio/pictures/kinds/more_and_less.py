"""One less and one more."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Picture, Step, either, within
from studio.pictures.metrics import CAPITAL
from studio.pictures.shapes import AnyShape, Box, Drawing, Path, Ring, Words
from studio.pictures.unknowns import choose
from studio.script.model import Amount, Change, Circle, Details, FillIn

WIDTH = 190.0
HEIGHT = 170.0
GAP = 120.0
MARGIN = 24.0
NUMERAL = 100.0
LABEL = 46.0
LARGEST = 120


@dataclass(frozen=True, slots=True)
class MoreAndLess(Picture):
    """A number with one less on its left and one more on its right; None is `?`.

    `filled` and `rings` are places: 0 is one less, 1 the number, 2 one more.
    """

    value: int
    less: int | None = None
    more: int | None = None
    filled: tuple[int, ...] = ()
    rings: tuple[int, ...] = ()

    kind: ClassVar[str] = "more and less"
    about: ClassVar[str] = "a number with one less on its left and one more on its right, ? until they are found"
    can: ClassVar[tuple[type[object], ...]] = (FillIn, Circle)

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, Amount):
            raise cls.misfit(details)
        within("More and less", details.value, 1, LARGEST - 1)
        return cls(details.value)

    @property
    def values(self) -> tuple[int | None, ...]:
        """One less, the number, one more; None is `?`."""
        return (self.less, self.value, self.more)

    @property
    def holds(self) -> bool | None:
        """Whether what is filled in is right (False as soon as one is not); None while one is open."""
        known = [(self.less, self.value - 1), (self.more, self.value + 1)]
        if any(shown not in (None, right) for shown, right in known):
            return False
        return None if None in self.values else True

    @property
    def ringed(self) -> tuple[int, ...]:
        """The numbers that have a ring."""
        return tuple(value for place in self.rings if (value := self.values[place]) is not None)

    @property
    def numbers(self) -> tuple[int, ...]:
        return tuple(value for value in self.values if value is not None)

    @property
    def marks(self) -> Mapping[str, int]:
        return {"unknowns": self.values.count(None), "rings": len(self.rings)}

    def steps(self, change: Change) -> tuple[Step, ...]:
        match change:
            case FillIn(given):
                if given is not None:
                    within("More and less", given, 0, LARGEST)
                unknown = [place for place, value in enumerate(self.values) if value is None]
                chosen, value = choose([self.value + place - 1 for place in unknown], given, self.kind)
                place = unknown[chosen]
                after = replace(self, less=value) if place == 0 else replace(self, more=value)
                return (Step(replace(after, filled=(*self.filled, place))),)
            case Circle(wanted):
                places = [p for p, value in enumerate(self.values) if value == wanted and p not in self.rings]
                if not places:
                    seen = either([str(number) for number in self.numbers])
                    raise CannotShow(f"There is no {wanted} to circle; more and less shows {seen}.")
                return (Step(replace(self, rings=(*self.rings, places[0]))),)
            case _:
                raise self.refuse(change)

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
            shapes.append(
                Words(
                    role="unknown" if value is None else "numeral",
                    key=f"number {place}",
                    counts="unknowns" if value is None else "",
                    x=x,
                    y=middle + CAPITAL / 2 * NUMERAL,
                    text="?" if value is None else str(value),
                    size=NUMERAL,
                    fill="quiet" if value is None else "ink",
                    face="numeral",
                )
            )
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
                rings.append(
                    Ring(
                        role="ring",
                        key=f"ring {place}",
                        counts="rings",
                        x=x,
                        y=middle,
                        rx=WIDTH / 2 - 18,
                        ry=HEIGHT / 2 - 16,
                        fill="ring",
                        width=9,
                    )
                )
        return Drawing(2 * MARGIN + 3 * WIDTH + 2 * GAP, MARGIN + HEIGHT + LABEL * 1.8 + MARGIN, (*shapes, *rings))

    def description(self) -> str:
        less, more = ("unknown" if value is None else str(value) for value in (self.less, self.more))
        text = f"More and less: {self.value}; one less is {less}, one more is {more}"
        return text + (f"; ring round {either([str(number) for number in self.ringed])}" if self.rings else "")
