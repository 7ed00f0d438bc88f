"""The number bond."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import hypot
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Picture, Step, either, within
from studio.pictures.metrics import CAPITAL
from studio.pictures.shapes import AnyShape, Disc, Drawing, Line, Ring, Words
from studio.pictures.unknowns import choose, missing_part
from studio.script.model import Change, Circle, Details, FillIn, Parts

RADIUS = 75.0
STEP = 210.0
DROP = 210.0
MARGIN = 26.0
LINE = 7.0
NUMERAL = 92.0
LARGEST = 120


@dataclass(frozen=True, slots=True)
class NumberBond(Picture):
    """A whole above and its parts below, joined by lines; None is `?`.

    `filled` and `rings` are places: 0 is the whole, 1 the first part. Right or wrong, it shows what was written.
    """

    whole: int | None
    parts: tuple[int | None, ...]
    filled: tuple[int, ...] = ()
    rings: tuple[int, ...] = ()

    kind: ClassVar[str] = "number bond"
    about: ClassVar[str] = "a whole and its two or more parts, joined by lines; what is not known yet is ?"
    can: ClassVar[tuple[type[object], ...]] = (FillIn, Circle)

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, Parts):
            raise cls.misfit(details)
        if not 2 <= len(details.parts) <= 4:
            raise CannotShow(f"A number bond has 2 to 4 parts, so it cannot have {len(details.parts)}.")
        for value in (details.whole, *details.parts):
            if value is not None:
                within("A number bond", value, 0, LARGEST)
        return cls(details.whole, details.parts)

    @property
    def values(self) -> tuple[int | None, ...]:
        """The whole and then its parts; None is `?`."""
        return (self.whole, *self.parts)

    @property
    def holds(self) -> bool | None:
        """Whether the parts make the whole; None while one is unknown."""
        expected = missing_part(self.whole, self.parts, None)
        return None if expected is None or self.whole is None else expected == self.whole

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
                    within("A number bond", given, 0, LARGEST)
                unknown = [place for place, value in enumerate(self.values) if value is None]
                answers = [missing_part(self.whole, self.parts, place - 1 if place else None) for place in unknown]
                chosen, value = choose(answers, given, self.kind)
                return (Step(self._with(unknown[chosen], value)),)
            case Circle(wanted):
                return (Step(replace(self, rings=(*self.rings, self._place_of(wanted)))),)
            case _:
                raise self.refuse(change)

    def _with(self, place: int, value: int) -> Self:
        values = [value if at == place else old for at, old in enumerate(self.values)]
        return replace(self, whole=values[0], parts=tuple(values[1:]), filled=(*self.filled, place))

    def _place_of(self, wanted: int) -> int:
        places = [place for place, value in enumerate(self.values) if value == wanted and place not in self.rings]
        if not places:
            seen = either([str(number) for number in self.numbers])
            raise CannotShow(f"There is no {wanted} to circle in the number bond; it shows {seen}.")
        return next((place for place in places if place in self.filled), places[0])

    def _middle(self, place: int) -> tuple[float, float]:
        across = MARGIN + RADIUS + (len(self.parts) - 1) * STEP / 2
        if place == 0:
            return (across, MARGIN + RADIUS)
        return (MARGIN + RADIUS + (place - 1) * STEP, MARGIN + RADIUS + DROP)

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        top_x, top_y = self._middle(0)
        for place in range(1, len(self.values)):
            x, y = self._middle(place)
            part = RADIUS / hypot(x - top_x, y - top_y)
            dx, dy = (x - top_x) * part, (y - top_y) * part
            shapes.append(Line(role="bond", key=f"bond {place}", x1=top_x + dx, y1=top_y + dy, x2=x - dx, y2=y - dy,
                               fill="ink", width=LINE))
        for place, value in enumerate(self.values):
            x, y = self._middle(place)
            name = f"part {place}" if place else "whole"
            shapes.append(Disc(role="part" if place else "whole", key=name, x=x, y=y, radius=RADIUS, fill="card",
                               outline="ink", width=LINE))
            shapes.append(Words(
                role="unknown" if value is None else "numeral", key=f"{name} number", counts="unknowns" if value is None
                else "", x=x, y=y + CAPITAL / 2 * NUMERAL, text="?" if value is None else str(value), size=NUMERAL,
                fill="quiet" if value is None else "ink", face="numeral",
            ))
        for place in self.rings:
            x, y = self._middle(place)
            shapes.append(Ring(role="ring", key=f"ring {place}", counts="rings", x=x, y=y, rx=RADIUS + 16,
                               ry=RADIUS + 16, fill="ring", width=9))
        width = 2 * (MARGIN + RADIUS) + (len(self.parts) - 1) * STEP
        return Drawing(width, 2 * (MARGIN + RADIUS) + DROP, tuple(shapes))

    def description(self) -> str:
        said = ["unknown" if value is None else str(value) for value in self.values]
        text = f"Number bond: {said[0]} is {either(said[1:])}"
        return text + (f"; ring round {either([str(number) for number in self.ringed])}" if self.rings else "")
