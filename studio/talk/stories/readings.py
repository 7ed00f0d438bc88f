"""How the situations of Table 1 (CCSSM, 2010) are told from quantities and a question.

Each reader takes what is told and what is asked and gives a reading, or None where its situation is not this one. A
reader that recognises its situation and finds it undecided raises CannotTell: then nobody else may guess.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from studio.talk.stories.clauses import Quantity
from studio.talk.stories.question import Question


class CannotTell(Exception):
    """The story leaves its answer open."""


class NothingFits(Exception):
    """What is told cannot be: no number fits the sentence."""


@dataclass(frozen=True, slots=True)
class Asked:
    """Quantities that may take part, in the order in which they are told, and the question."""

    quantities: tuple[Quantity, ...]
    question: Question

    @property
    def known(self) -> tuple[Quantity, ...]:
        return tuple(quantity for quantity in self.quantities if quantity.known)

    @property
    def unknown(self) -> tuple[Quantity, ...]:
        return tuple(quantity for quantity in self.quantities if not quantity.known)


@dataclass(frozen=True, slots=True)
class Reading:
    """A solved story: situation and unknown as in `talk.model.Story`, the sentence, the answer (None: several fit)."""

    situation: str
    unknown: str
    sentence: str
    answer: int | None
    told: tuple[int, ...]


def add_to(a: int | None, b: int | None, result: int | None) -> Reading:
    """Something is added; the None is what is asked."""
    if result is not None and (a or b or 0) > result:
        raise NothingFits(f"{'?' if a is None else a} + {'?' if b is None else b} = {result}")
    if result is None and a is not None and b is not None:
        return Reading("add to, result unknown", "result", f"{a} + {b} = ?", a + b, (a, b))
    if b is None and a is not None and result is not None:
        return Reading("add to, change unknown", "change", f"{a} + ? = {result}", result - a, (a, result))
    if a is None and b is not None and result is not None:
        return Reading("add to, start unknown", "start", f"? + {b} = {result}", result - b, (b, result))
    raise CannotTell


def take_from(a: int | None, b: int | None, result: int | None) -> Reading:
    """Something is taken away; the None is what is asked."""
    if a is not None and (b if b is not None else result or 0) > a:
        raise NothingFits(f"{a} - {'?' if b is None else b} = {'?' if result is None else result}")
    if result is None and a is not None and b is not None:
        return Reading("take from, result unknown", "result", f"{a} - {b} = ?", a - b, (a, b))
    if b is None and a is not None and result is not None:
        return Reading("take from, change unknown", "change", f"{a} - ? = {result}", a - result, (a, result))
    if a is None and b is not None and result is not None:
        return Reading("take from, start unknown", "start", f"? - {b} = {result}", result + b, (b, result))
    raise CannotTell


def total(parts: Sequence[int]) -> Reading:
    """Parts are put together."""
    written = " + ".join(map(str, parts))
    return Reading("put together/take apart, total unknown", "total", f"{written} = ?", sum(parts), tuple(parts))


def addend(whole: int, part: int) -> Reading:
    """A whole and one of its parts are told."""
    sentence = f"{part} + ? = {whole}"
    if part > whole:
        raise NothingFits(sentence)
    return Reading("put together/take apart, addend unknown", "addend", sentence, whole - part, (whole, part))


def both_addends(whole: int) -> Reading:
    """A whole is told and both parts are asked: every pair of partners fits."""
    return Reading("put together/take apart, both addends unknown", "both addends", f"{whole} = ? + ?", None, (whole,))


def difference(a: int, b: int) -> Reading:
    """Two amounts are compared."""
    small, big = sorted((a, b))
    return Reading("compare, difference unknown", "difference", f"{small} + ? = {big}", big - small, (a, b))


def bigger(small: int, by: int) -> Reading:
    """The bigger of two amounts is asked."""
    return Reading("compare, bigger unknown", "bigger", f"{small} + {by} = ?", small + by, (small, by))


def smaller(big: int, by: int) -> Reading:
    """The smaller of two amounts is asked."""
    if by > big:
        raise NothingFits(f"{big} - {by} = ?")
    return Reading("compare, smaller unknown", "smaller", f"{big} - {by} = ?", big - by, (big, by))
