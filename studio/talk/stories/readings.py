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
    if result is None and a is not None and b is not None:
        return Reading("add to, result unknown", "result", f"{a} + {b} = ?", a + b, (a, b))
    if b is None and a is not None and result is not None:
        return Reading("add to, change unknown", "change", f"{a} + ? = {result}", _natural(result - a), (a, result))
    if a is None and b is not None and result is not None:
        return Reading("add to, start unknown", "start", f"? + {b} = {result}", _natural(result - b), (b, result))
    raise CannotTell


def take_from(a: int | None, b: int | None, result: int | None) -> Reading:
    """Something is taken away; the None is what is asked."""
    if result is None and a is not None and b is not None:
        return Reading("take from, result unknown", "result", f"{a} - {b} = ?", _natural(a - b), (a, b))
    if b is None and a is not None and result is not None:
        return Reading("take from, change unknown", "change", f"{a} - ? = {result}", _natural(a - result), (a, result))
    if a is None and b is not None and result is not None:
        return Reading("take from, start unknown", "start", f"? - {b} = {result}", result + b, (b, result))
    raise CannotTell


def total(parts: Sequence[int]) -> Reading:
    """Parts are put together."""
    written = " + ".join(map(str, parts))
    return Reading("put together/take apart, total unknown", "total", f"{written} = ?", sum(parts), tuple(parts))


def addend(whole: int, part: int) -> Reading:
    """A whole and one of its parts are told."""
    answer = _natural(whole - part)
    return Reading("put together/take apart, addend unknown", "addend", f"{part} + ? = {whole}", answer, (whole, part))


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
    return Reading("compare, smaller unknown", "smaller", f"{big} - {by} = ?", _natural(big - by), (big, by))


def _natural(value: int) -> int:
    if value < 0:
        raise CannotTell
    return value
