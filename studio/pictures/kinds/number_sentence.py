"""The number sentence."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Picture, Step, either, within
from studio.pictures.metrics import CAPITAL, text_width
from studio.pictures.shapes import AnyShape, Box, Drawing, Ring, Words
from studio.pictures.unknowns import choose, missing_term, side_value
from studio.script.model import Change, Circle, Details, Equation, FillIn, Term

SIZE = 120.0
HEIGHT = 180.0
MARGIN = 40.0
SPACE = 42.0
BOX = 112.0
LARGEST = 1000
TERMS = 10
MINUS = "\N{MINUS SIGN}"


@dataclass(frozen=True, slots=True)
class NumberSentence(Picture):
    """Two or more sides with equals signs between them; None is `?`.

    `filled` and `rings` count the terms of all sides from 0. Right or wrong, it shows what was written.
    """

    sides: tuple[tuple[Term, ...], ...]
    filled: tuple[int, ...] = ()
    rings: tuple[int, ...] = ()

    kind: ClassVar[str] = "number sentence"
    about: ClassVar[str] = "numbers with +, - and = between them; what is not known yet is ?"
    can: ClassVar[tuple[type[object], ...]] = (FillIn, Circle)

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, Equation):
            raise cls.misfit(details)
        if len(details.sides) < 2 or not all(details.sides):
            raise CannotShow("A number sentence needs something on both sides of its =.")
        if sum(map(len, details.sides)) > TERMS:
            raise CannotShow(f"A number sentence has room for {TERMS} numbers; write this one as two.")
        for term in (term for side in details.sides for term in side):
            if term.value is not None:
                within("A number sentence", term.value, 0, LARGEST)
        return cls(details.sides)

    @property
    def terms(self) -> tuple[Term, ...]:
        """The terms of all sides in reading order."""
        return tuple(term for side in self.sides for term in side)

    @property
    def side_values(self) -> tuple[int | None, ...]:
        """What each side comes to; None while it holds a `?`."""
        return tuple(side_value(side) for side in self.sides)

    @property
    def holds(self) -> bool | None:
        """Whether all sides that are known are equal (False as soon as two differ); None while it is open."""
        known = {value for value in self.side_values if value is not None}
        if len(known) > 1:
            return False
        return None if None in self.side_values else True

    @property
    def ringed(self) -> tuple[int, ...]:
        """The numbers that have a ring."""
        return tuple(value for place in self.rings if (value := self.terms[place].value) is not None)

    @property
    def numbers(self) -> tuple[int, ...]:
        return tuple(term.value for term in self.terms if term.value is not None)

    @property
    def marks(self) -> Mapping[str, int]:
        return {"unknowns": sum(term.value is None for term in self.terms), "rings": len(self.rings)}

    @property
    def written(self) -> str:
        """The sentence in signs ("7 + ? = 9"), with the plain minus."""
        return " = ".join(" ".join(_words(side)) for side in self.sides).replace(MINUS, "-")

    def steps(self, change: Change) -> tuple[Step, ...]:
        match change:
            case FillIn(given):
                if given is not None:
                    within("A number sentence", given, 0, LARGEST)
                unknown, answers = [], []
                for at, side in enumerate(self.sides):
                    for index, term in enumerate(side):
                        if term.value is None:
                            unknown.append((at, index))
                            answers.append(missing_term(self.sides, at, index))
                chosen, value = choose(answers, given, self.kind)
                return (Step(self._with(*unknown[chosen], value)),)
            case Circle(wanted):
                return (Step(replace(self, rings=(*self.rings, self._place_of(wanted)))),)
            case _:
                raise self.refuse(change)

    def _with(self, at: int, index: int, value: int) -> Self:
        side = self.sides[at]
        changed = (*side[:index], replace(side[index], value=value), *side[index + 1 :])
        place = sum(map(len, self.sides[:at])) + index
        return replace(self, sides=(*self.sides[:at], changed, *self.sides[at + 1 :]), filled=(*self.filled, place))

    def _place_of(self, wanted: int) -> int:
        terms = enumerate(self.terms)
        places = [place for place, term in terms if term.value == wanted and place not in self.rings]
        if not places:
            seen = either([str(number) for number in self.numbers]) or "no number yet"
            raise CannotShow(f"There is no {wanted} to circle in the number sentence; it shows {seen}.")
        return next((place for place in places if place in self.filled), places[0])

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        rings: list[AnyShape] = []
        x, middle, place = MARGIN, HEIGHT / 2, 0

        def write(text: str, role: str, key: str, width: float, unknown: bool = False) -> None:
            nonlocal x
            size = SIZE * 0.8 if unknown else SIZE
            shapes.append(
                Words(
                    role=role,
                    key=key,
                    counts="unknowns" if unknown else "",
                    x=x + width / 2,
                    y=middle + CAPITAL / 2 * size,
                    text=text,
                    size=size,
                    fill="quiet" if unknown else "ink",
                    face="numeral",
                )
            )
            x += width + SPACE

        for at, side in enumerate(self.sides):
            if at:
                write("=", "equals", f"equals {at}", text_width("=", SIZE))
            for index, term in enumerate(side):
                if index or term.sign == "-":
                    write("+" if term.sign == "+" else MINUS, "sign", f"sign {place}", text_width("+", SIZE))
                unknown = term.value is None
                width = BOX if unknown else text_width(str(term.value), SIZE)
                if place in self.filled:
                    width = max(BOX, width)
                if unknown:
                    shapes.append(
                        Box(
                            role="blank",
                            key=f"blank {place}",
                            x=x,
                            y=middle - BOX / 2,
                            width=BOX,
                            height=BOX,
                            fill="card",
                            outline="quiet",
                            line=5,
                            corner=18,
                        )
                    )
                if place in self.rings:
                    rings.append(
                        Ring(
                            role="ring",
                            key=f"ring {place}",
                            counts="rings",
                            x=x + width / 2,
                            y=middle,
                            rx=max(66.0, text_width(str(term.value), SIZE) / 2 + 30),
                            ry=72,
                            fill="ring",
                            width=9,
                        )
                    )
                write(
                    "?" if unknown else str(term.value),
                    "unknown" if unknown else "numeral",
                    f"term {place}",
                    width,
                    unknown,
                )
                place += 1
        return Drawing(x - SPACE + MARGIN, HEIGHT, (*shapes, *rings))

    def description(self) -> str:
        says = {"+": "plus", MINUS: "minus", "?": "unknown"}
        sides = (" ".join(says.get(word, word) for word in _words(side)) for side in self.sides)
        text = f"Number sentence: {' equals '.join(sides)}"
        return text + (f"; ring round {either([str(number) for number in self.ringed])}" if self.rings else "")


def _words(side: tuple[Term, ...]) -> list[str]:
    words = []
    for index, term in enumerate(side):
        if index or term.sign == "-":
            words.append("+" if term.sign == "+" else MINUS)
        words.append("?" if term.value is None else str(term.value))
    return words
