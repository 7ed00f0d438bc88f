"""The number sentence."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar, Self

from studio.pictures.base import CannotShow
from studio.pictures.metrics import CAPITAL, text_width
from studio.pictures.pieces import numeral, ring
from studio.pictures.ringed import UnknownsPicture
from studio.pictures.shapes import AnyShape, Box, Drawing, Words
from studio.pictures.unknowns import missing_term, side_value
from studio.script.model import Details, Equation, Term

SIZE = 108.0
HEIGHT = 150.0
MARGIN = 40.0
SPACE = 44.0
BOX = 104.0
RING = 64.0
BESIDE = 27.0
"""How far the line of a ring goes beside its numeral; the sign next to it is `SPACE` away."""
TERMS = 10
MINUS = "\N{MINUS SIGN}"


@dataclass(frozen=True, slots=True)
class NumberSentence(UnknownsPicture):
    """Two or more sides with equals signs between them; None is `?`. Places are the terms of all sides."""

    sides: tuple[tuple[Term, ...], ...]

    kind: ClassVar[str] = "number sentence"
    about: ClassVar[str] = "numbers with +, - and = between them; what is not known yet is ?"
    largest: ClassVar[int] = 1000

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
                cls.takes(term.value)
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
    def values(self) -> tuple[int | None, ...]:
        return tuple(term.value for term in self.terms)

    @property
    def written(self) -> str:
        """The sentence in signs ("7 + ? = 9"), with the plain minus."""
        return " = ".join(" ".join(_words(side)) for side in self.sides).replace(MINUS, "-")

    def _term(self, place: int) -> tuple[int, int]:
        """Which side a term is on, and its place there."""
        at = 0
        while place >= len(self.sides[at]):
            place -= len(self.sides[at])
            at += 1
        return at, place

    def answer(self, place: int) -> int | None:
        return missing_term(self.sides, *self._term(place))

    def having(self, place: int, value: int) -> Self:
        at, index = self._term(place)
        side = self.sides[at]
        changed = (*side[:index], replace(side[index], value=value), *side[index + 1 :])
        return replace(self, sides=(*self.sides[:at], changed, *self.sides[at + 1 :]))

    def drawing(self) -> Drawing:
        shapes: list[AnyShape] = []
        rings: list[AnyShape] = []
        x, middle, place = MARGIN, HEIGHT / 2, 0

        def sign(text: str, role: str, key: str) -> None:
            nonlocal x
            width = text_width(text, SIZE)
            y = middle + CAPITAL / 2 * SIZE
            shapes.append(
                Words(role=role, key=key, x=x + width / 2, y=y, text=text, size=SIZE, fill="ink", face="numeral")
            )
            x += width + SPACE

        for at, side in enumerate(self.sides):
            if at:
                sign("=", "equals", f"equals {at}")
            for index, term in enumerate(side):
                if index or term.sign == "-":
                    sign("+" if term.sign == "+" else MINUS, "sign", f"sign {place}")
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
                size = SIZE * 0.8 if unknown else SIZE
                number = numeral(f"term {place}", term.value, x + width / 2, middle, size, three=1.0)
                shapes.append(number)
                if place in self.rings:
                    rings.append(ring(place, number, max(54.0, text_width(number.text, SIZE) / 2 + BESIDE), RING))
                x += width + SPACE
                place += 1
        return Drawing(x - SPACE + MARGIN, HEIGHT, (*shapes, *rings))

    def description(self) -> str:
        says = {"+": "plus", MINUS: "minus", "?": "unknown"}
        sides = (" ".join(says.get(word, word) for word in _words(side)) for side in self.sides)
        return self.with_rings(f"Number sentence: {' equals '.join(sides)}")


def _words(side: tuple[Term, ...]) -> list[str]:
    words = []
    for index, term in enumerate(side):
        if index or term.sign == "-":
            words.append("+" if term.sign == "+" else MINUS)
        words.append("?" if term.value is None else str(term.value))
    return words
