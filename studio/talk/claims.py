"""Amounts that are set equal or compared: the sides of what is said, the signs between them, and what is claimed so."""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass

from studio.talk.expressions import Join, Sequence_, Term
from studio.talk.speech import Speech

EQUALS = ("=", "!=", ">", "<", "fragment")
_SIGNS = {"=": "=", "!=": "≠", ">": ">", "<": "<", "fragment": "="}
COMPARES = (">", "<")


@dataclass(frozen=True, slots=True)
class Side:
    """Terms with the joins between them."""

    terms: tuple[Term, ...]
    joins: tuple[Join, ...]

    @property
    def known(self) -> bool:
        return all(term.value is not None for term in self.terms)

    @property
    def value(self) -> int:
        total = self.terms[0].value or 0
        for join, term in zip(self.joins, self.terms[1:], strict=True):
            total += -(term.value or 0) if join == "minus" else (term.value or 0)
        return total

    @property
    def written(self) -> str:
        text = self.terms[0].written
        for join, term in zip(self.joins, self.terms[1:], strict=True):
            text += (" - " if join == "minus" else " + ") + term.written
        return text

    @property
    def numbers(self) -> tuple[int, ...]:
        return tuple(part for term in self.terms for part in term.parts)

    @property
    def single(self) -> bool:
        """Whether it is one plain number."""
        return len(self.terms) == 1 and self.terms[0].shape in ("number", "unknown")

    def cut(self, at: int) -> tuple[Side, Side]:
        """The terms before `at` and those from `at` on."""
        return Side(self.terms[:at], self.joins[: at - 1]), Side(self.terms[at:], self.joins[at:])

    def groups(self) -> tuple[Side, ...]:
        """The side taken apart at its commas."""
        found, start = [], 0
        for index, join in enumerate(self.joins):
            if join == ",":
                found.append(Side(self.terms[start : index + 1], self.joins[start:index]))
                start = index + 1
        found.append(Side(self.terms[start:], self.joins[start:]))
        return tuple(found)


@dataclass(frozen=True, slots=True)
class Claim:
    """Sides and the signs between them, read from one sequence."""

    sides: tuple[Side, ...]
    signs: tuple[Join, ...]

    def broken(self) -> int | None:
        """The index of the first sign that is wrong; None where all hold."""
        for index, sign in enumerate(self.signs):
            left, right = self.sides[index].value, self.sides[index + 1].value
            fits = {"=": left == right, "fragment": left == right, "!=": left != right, ">": left > right,
                    "<": left < right}[sign]  # fmt: skip
            if not fits:
                return index
        return None

    @property
    def written(self) -> str:
        text = self.sides[0].written
        for sign, side in zip(self.signs, self.sides[1:], strict=True):
            text += f" {_SIGNS[sign]} {side.written}"
        return text


def split(sequence: Sequence_) -> tuple[list[Side], list[Join]]:
    """The sides of a sequence and the signs between them."""
    sides, signs = [], []
    start = 0
    for index, join in enumerate(sequence.joins):
        if join in EQUALS:
            sides.append(Side(sequence.terms[start : index + 1], sequence.joins[start:index]))
            signs.append(join)
            start = index + 1
    sides.append(Side(sequence.terms[start:], sequence.joins[start:]))
    return sides, signs


def of_tens(term: Term) -> bool:
    return term.shape == "groups" and term.parts[1:] == (10,)


def is_row(side: Side) -> bool:
    """ "eight, nine" is a count and no sum, and so is "five, ten, and then eleven"."""
    if len(side.terms) < 2 or any(term.fact for term in side.terms):
        return False
    if all(join == "," for join in side.joins):
        return True
    values = [term.value or 0 for term in side.terms]
    steps = [after - before for before, after in itertools.pairwise(values)]
    return (
        len(steps) > 1
        and all(join == "," for join in side.joins[:-1])
        and steps[0] in (5, 10)
        and values[0] == steps[0]
        and all(step in (1, steps[0]) for step in steps)
    )


_THINGS = re.compile(
    r"#(?: [a-z]+){0,2} (?:frames?|rows?|bundles?|groups?|lines?|sticks?|rods?|boxe?s?|towers?|stacks?|hands?|blocks?|bars?|strips?)$"
)


_SHARED = re.compile(r"# for [a-z]+ and # for ")  # "Four and two, there's one for me and one for you"


def _is_thing(side: Side, text: str) -> bool:
    """ "One line is one ten", "One full frame and four more is ten and four": what is counted is worth more than one."""
    return any(term.shape == "number" and _THINGS.fullmatch(text, term.start, term.end) for term in side.terms)


MEANS = r"(?:means?|stands for|counts for|is worth)"
_OF_DIGIT = re.compile(rf" {MEANS} ")


def _of_digit(text: str, start: int, end: int) -> bool:
    """Whether the number at `start`, whose term ends at `end`, is a digit that means something ("The one means one ten")."""
    return text.endswith(" the ", 0, start) and _OF_DIGIT.match(text, end) is not None


def trivial(sides: list[Side], signs: list[Join], text: str) -> bool:
    """ "Frog five is three years old": two plain numbers that only "is" joins are no arithmetic."""
    if len(signs) == 1 and signs[0] in COMPARES and _is_thing(sides[0], text) != _is_thing(sides[1], text):
        return True  # "One line is more than four squares"
    if any(sign not in ("=", "fragment") for sign in signs):
        return False
    if any(_is_thing(side, text) or _SHARED.match(text, side.terms[0].start) for side in sides):
        return True
    if len(sides) == 2 and sides[0].single and _of_digit(text, sides[0].terms[0].start, sides[0].terms[0].end):
        return True  # "The one means one ten": what a digit is worth is told for itself
    if not all(side.single for side in sides):
        return False
    between = text[sides[0].terms[-1].end : sides[1].terms[0].start]
    return not any(word in between for word in (" equal", " same ", " equals "))


@dataclass(frozen=True, slots=True)
class Saying:
    """A sequence of amounts in the words it was said in, with its sides and the signs between them."""

    sides: list[Side]
    signs: list[Join]
    sequence: Sequence_
    speech: Speech

    @property
    def text(self) -> str:
        return self.speech.text

    @property
    def left(self) -> Side:
        """What stands before the first sign; `start` and `end` are where it stands in the text."""
        return self.sides[0]

    @property
    def start(self) -> int:
        return self.left.terms[0].start

    @property
    def end(self) -> int:
        return self.left.terms[-1].end

    @property
    def right(self) -> Side:
        """What stands behind the first sign."""
        return self.sides[1]

    def before(self, pattern: re.Pattern[str], longest: int) -> re.Match[str] | None:
        """What the pattern, which ends with `$`, finds before the left side; `longest` are the characters it may have."""
        return pattern.search(self.text, max(0, self.start - longest), self.start)

    def behind(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """What the pattern finds right behind the left side."""
        return pattern.match(self.text, self.end)
