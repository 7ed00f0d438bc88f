"""Every kind with every value in its range and every step of its changes: the pictures that must be true."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import product

from studio.pictures.base import CannotShow, Picture
from studio.pictures.kinds import CLASSES, make
from studio.script.model import (
    Add,
    Amount,
    Change,
    Circle,
    Count,
    Details,
    Equation,
    FillIn,
    Hop,
    MarkNumber,
    Marks,
    NumberList,
    Parts,
    Phrase,
    Span,
    TakeAway,
    Term,
    TurnOver,
)
from studio.script.numberwords import to_words


def _sentence(*sides: tuple[int | None, ...]) -> Equation:
    """Sides of numbers; a negative one is taken away."""
    return Equation(
        tuple(
            tuple(
                Term("-" if value is not None and value < 0 else "+", None if value is None else abs(value))
                for value in side
            )
            for side in sides
        )
    )


def _bonds() -> Iterator[Details]:
    for whole in range(21):
        for part in range(whole + 1):
            yield Parts(whole, (part, whole - part))
            yield Parts(whole, (part, None))
            yield Parts(None, (part, whole - part))
    yield from (Parts(10, (a, b, 10 - a - b)) for a in range(11) for b in range(11 - a))
    yield from (Parts(whole, (whole // 2, None)) for whole in range(21, 121))
    yield Parts(20, (5, 5, 5, 5))
    yield Parts(10, (2, 2, 2, 2, 2))
    yield Parts(120, (20, 20, 20, 20, 20, 20))
    yield Parts(15, (1, 2, 3, 4, 5, None))
    yield Parts(9, (7, 3))


def _sentences() -> Iterator[Details]:
    for a, b in product(range(11), repeat=2):
        yield _sentence((a, b), (a + b,))
        yield _sentence((a, None), (a + b,))
        yield _sentence((a + b, -b), (a,))
        yield _sentence((a + b,), (None, b))
    for a in range(2, 10):
        yield _sentence((8, a), (10, a - 2), (8 + a,))
        yield _sentence((13, -a), (10, -(a - 3)) if a > 3 else (13, -a), (13 - a,))
    yield from (_sentence((number, 1), (None,)) for number in range(20, 1000, 49))
    yield _sentence((4, 1), (5, 2))


def details_of(kind: str) -> Iterator[Details]:
    """All details of a kind in its range (bonds and sentences: within 20, then samples of the larger ones)."""
    match kind:
        case "five frame" | "ten frame" | "double ten frame":
            capacity = CLASSES[kind].capacity  # type: ignore[attr-defined]
            yield from (Marks(dots, crosses) for dots in range(capacity + 1) for crosses in range(capacity + 1 - dots))
        case "dots":
            yield from (
                Marks(total - crosses, crosses)
                for total in range(51)
                for crosses in sorted({0, min(2, total), total // 2, total})
            )
        case "number bond" | "bar":
            yield from _bonds()
        case "number sentence":
            yield from _sentences()
        case "cards":
            yield from (
                NumberList(tuple(range(start, start + many))) for start, many in product((0, 1, 8, 95), range(1, 22))
            )
            yield NumberList((3, 5, 8))
            yield NumberList((7, 7, 120))
        case "tally":
            yield from map(Amount, range(101))
        case "base ten":
            yield from map(Amount, range(121))
        case "more and less":
            yield from map(Amount, range(1, 120))
        case "dice":
            for many in (1, 2, 3):
                yield from (NumberList(values) for values in product(range(1, 7), repeat=many))
            yield NumberList((1, 2, 3, 4, 5, 6))
        case "compare bars":
            yield from (NumberList(pair) for pair in product(range(1, 21), repeat=2))
            yield from (NumberList(pair) for pair in product((1, 2, 7, 19, 20, 21, 25, 48, 83, 99, 100), repeat=2))
        case "rekenrek":
            yield from (NumberList(pair) for pair in product(range(11), repeat=2))
        case "number path" | "number line":
            yield from (Span(start, end) for start in (0, 1, 5) for end in range(start + 1, start + 21))
            yield from (Span(start, start + 10) for start in range(12, 111, 7))
            if kind == "number line":
                yield from (
                    Span(start, start + long) for start in (0, 1, 3, 20) for long in (*range(21, 100, 6), 50, 100)
                )
        case "hundred chart":
            yield from (Span(1, end) for end in (2, 9, 10, 11, 20, 25, 30, 50, 73, 100, 120))
            yield from (Span(0, end) for end in (9, 29, 99))
            yield from (Span(start, start + 35) for start in (2, 11, 40, 85))
            yield Span(12, 17)
        case "word":
            yield from (Phrase(to_words(number)) for number in range(100))
        case "text":
            yield from map(Phrase, ("How many frogs now?", "Seven and 2 more", "Line up your 9 cards. " * 4))
        case _:
            raise AssertionError(f"say here what the details of '{kind}' are")


def changes_of(picture: Picture) -> Iterator[Change]:
    """Changes worth trying on a picture; some of them it may refuse."""
    can = type(picture).can
    if Add in can:
        for many in (1, 2, 5):
            yield Add(many, counting=True)
        yield Add(3, "dots", True)
        yield TakeAway(1)
        yield TakeAway(3, True)
    if Count in can:
        yield from (Count(by) for by in (1, 2, 5, 10))
    if FillIn in can:
        yield FillIn()
        yield FillIn(4)
    if Circle in can:
        yield from (Circle(number) for number in dict.fromkeys(picture.numbers[:3]))
    if TurnOver in can:
        yield from (TurnOver(number) for number in picture.numbers[1:3])
    if MarkNumber in can:
        yield from (MarkNumber(number) for number in picture.numbers[:2])
    if Hop in can:
        numbers = range(picture.start, picture.end + 1)  # type: ignore[attr-defined]
        yield Hop(numbers[0], numbers[-1])
        yield Hop(numbers[-1], numbers[0], True)
        yield Hop(numbers[0], numbers[1], True)
        if len(numbers) > 21:
            yield Hop(numbers[-6], numbers[6])


def pictures(kinds: Iterable[str] = tuple(CLASSES)) -> Iterator[Picture]:
    """All pictures of these kinds: as they come on, after each step of a change, and after a second change."""
    for kind in kinds:
        seen: set[Picture] = set()
        for details in details_of(kind):
            first = make(kind, details)
            found = [first]
            for change in changes_of(first):
                try:
                    found += [step.picture for step in first.steps(change)]
                except CannotShow:
                    continue
                for second in changes_of(found[-1]):
                    try:
                        found.append(found[-1].steps(second)[-1].picture)
                    except CannotShow:
                        continue
                    break
            for picture in found:
                if picture not in seen:
                    seen.add(picture)
                    yield picture
