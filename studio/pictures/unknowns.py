"""Numbers that may stand as `?` until they are filled in, and the arithmetic that finds them."""

from __future__ import annotations

from collections.abc import Sequence

from studio.pictures.base import CannotShow
from studio.script.model import Term


def missing_part(whole: int | None, parts: Sequence[int | None], index: int | None) -> int | None:
    """What the unknown must be in whole = sum of parts: `index` of a part, or None for the whole. None where it cannot
    be worked out (another one is unknown too)."""
    others = [part for place, part in enumerate(parts) if place != index]
    if any(part is None for part in others) or (index is not None and whole is None):
        return None
    rest = sum(part for part in others if part is not None)
    return rest if index is None or whole is None else whole - rest


def side_value(side: Sequence[Term]) -> int | None:
    """What a side of a number sentence comes to; None while it holds a `?`."""
    total = 0
    for term in side:
        if term.value is None:
            return None
        total += term.value if term.sign == "+" else -term.value
    return total


def missing_term(sides: Sequence[Sequence[Term]], at: int, index: int) -> int | None:
    """What the unknown term `index` of side `at` must be so that its side equals one that is known; else None."""
    known = next((value for side in sides if (value := side_value(side)) is not None), None)
    others = side_value([term for place, term in enumerate(sides[at]) if place != index])
    if known is None or others is None:
        return None
    return known - others if sides[at][index].sign == "+" else others - known


def choose(answers: Sequence[int | None], given: int | None, what: str) -> tuple[int, int]:
    """Which of the unknowns is filled in, and with what. `answers` are what each must be (None: cannot be told).

    Without a given number, the first that can be worked out gets its answer; with one, the unknown whose answer it is
    gets it, else the first: right or wrong, it is shown as it is said. Raises CannotShow.
    """
    if not answers:
        raise CannotShow(f"There is no ? left in the {what}, so nothing can be filled in.")
    if given is not None:
        return (answers.index(given) if given in answers else 0, given)
    for place, answer in enumerate(answers):
        if answer is not None and answer >= 0:
            return (place, answer)
    if any(answer is not None for answer in answers):
        raise CannotShow(f"The number missing from the {what} would be less than 0; check its other numbers.")
    raise CannotShow(f"The number missing from the {what} cannot be worked out; say which it is ('fill in 2').")
