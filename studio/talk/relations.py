"""What a statement says about a whole and its parts, whatever its words were."""

from __future__ import annotations

from dataclasses import dataclass

from studio.talk.model import Statement


@dataclass(frozen=True, slots=True)
class Relation:
    """A whole and its parts in the order in which they were said."""

    whole: int
    parts: tuple[int, ...]

    def fits(self, sign: str, one: int, other: int) -> bool:
        """Whether "one + other" or "one - other" belongs to the same facts."""
        if sign == "-":
            return one == self.whole and other in (*self.parts, self.whole) and len(self.parts) == 2
        pairs = list(zip(self.parts, self.parts[1:], strict=False))
        return (one, other) in pairs or (other, one) in pairs

    def shares(self, one: int, other: int) -> bool:
        """Whether it has one of the two numbers."""
        return bool({one, other} & {self.whole, *self.parts})


def relations(statement: Statement) -> tuple[Relation, ...]:
    """The wholes and parts in a statement; for a chain or an equality one for each side that adds or takes away."""
    values = statement.values
    match statement.kind:
        case "sum" | "near double" | "unknown part" | "partners" | "parts of a whole" if len(values) >= 3:
            found = [Relation(values[-1], values[:-1])]
        case "parts" if len(values) >= 3:
            found = [Relation(values[0], values[1:])]
        case "difference" if len(values) == 3:
            found = [Relation(values[0], (values[1], values[2]))]
        case "more than" | "one more":
            found = [Relation(values[2], (values[1], values[0]))]
        case "less than" | "one less":
            found = [Relation(values[1], (values[2], values[0]))]
        case "double":
            found = [Relation(values[1], (values[0], values[0]))]
        case "tens and ones" if len(values) == 3:
            found = [Relation(values[0], (10 * values[1], values[2]))]
        case _:
            found = []
    for side in statement.written.split(" = "):
        found.extend(_side(side))
    return tuple(found)


def _side(side: str) -> list[Relation]:
    """ "8 + 2 + 4" or "13 - 4" as wholes and parts; nothing for anything else."""
    tokens = side.split(" ")
    if len(tokens) < 3 or not all(token.isdigit() for token in tokens[::2]):
        return []
    numbers = [int(token) for token in tokens[::2]]
    signs = tokens[1::2]
    if all(sign == "+" for sign in signs):
        return [Relation(sum(numbers), tuple(numbers))]
    if all(sign == "-" for sign in signs):
        return [Relation(numbers[0], (numbers[1], numbers[0] - numbers[1]))]
    return []
