"""What can be read off a picture: the numbers it is there to show, those a child can see in it, and what it says about
a whole and its parts. One function for each question, by kind; a kind that is not named here shows its `numbers`."""

from __future__ import annotations

from studio.pictures.base import Picture
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.cards import Cards
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.kinds.dice import Dice
from studio.pictures.kinds.more_and_less import MoreAndLess
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.kinds.tally import Tally
from studio.pictures.kinds.text import Text
from studio.pictures.kinds.word import Word
from studio.pictures.marks import MarkPicture
from studio.pictures.spans import SpanPicture
from studio.pictures.wholes import WholePicture
from studio.talk.relations import Relation


def picked_out(picture: SpanPicture) -> tuple[int, ...]:
    """The numbers of a path, a line or a chart that are marked or have a ring."""
    return (*picture.marked, *getattr(picture, "ringed", ()))


def essential(picture: Picture) -> tuple[int, ...]:
    """The numbers that a picture is there to show, which must be said (a path is there for what is marked on it)."""
    match picture:
        case MarkPicture():
            if picture.dots and picture.crosses:
                return (picture.dots, picture.crosses, picture.total)
            return (picture.total,) if picture.total else ()
        case SpanPicture():
            hops = tuple(end for hop in picture.hops for end in hop)
            return (*picked_out(picture), *hops)
        case BaseTen() | Tally():
            return (picture.value,)
        case Text():
            return ()
        case _:
            return picture.numbers


def amount(picture: Picture) -> int | None:
    """How many things there are in a picture of things that are counted together; None for another."""
    match picture:
        case MarkPicture() | Rekenrek() | Dice():
            return picture.total
        case BaseTen() | Tally():
            return picture.value
        case _:
            return None


def counts(picture: Picture) -> frozenset[int]:
    """What the things in a picture can be said to be ("seven dots", "nine frogs"): each sort and the total."""
    match picture:
        case MarkPicture():
            return frozenset(
                value for value in (picture.dots, picture.crosses, picture.total) if value or not picture.total
            )
        case Rekenrek():
            return frozenset((picture.upper, picture.lower, picture.upper + picture.lower))
        case Dice():
            return frozenset((*picture.values, sum(picture.values), len(picture.values)))
        case BaseTen():
            return frozenset((picture.value, picture.tens, picture.ones, 10 * picture.tens))
        case Tally():
            return frozenset((picture.value, picture.value // 5, picture.value % 5, picture.value - picture.value % 5))
        case CompareBars():
            return frozenset((picture.upper, picture.lower, abs(picture.upper - picture.lower)))
        case _:
            return frozenset(essential(picture))


def visible(picture: Picture) -> frozenset[int]:
    """Every number that can be found in a picture by looking: its counts, the places still empty, its unknown, the
    differences between its numbers."""
    seen = set(counts(picture))
    match picture:
        case MarkPicture():
            total, capacity = picture.total, picture.capacity
            if picture.framed:
                seen |= {capacity - total, 10 - total if total < 10 else 20 - total, abs(total - 10)} - {0}
                if total < 5:
                    seen |= {5 - total}
                if total >= 10:
                    seen |= {10}
        case Rekenrek():
            for side in (picture.upper, picture.lower):
                seen |= {side, 10 - side}
            seen |= {picture.upper + picture.lower, 20 - picture.upper - picture.lower}
        case SpanPicture():
            ends = [end for hop in picture.hops for end in hop]
            seen |= {picture.start, picture.end, *picture.lit}
            seen |= {abs(a - b) for a, b in picture.hops} | {abs(ends[0] - end) for end in ends}
        case NumberSentence():
            values = [value for value in picture.side_values if value is not None]
            seen |= {*values, *picture.numbers, *_solution(picture)}
        case WholePicture():
            seen |= {*picture.numbers, *_solution(picture)}
        case MoreAndLess():
            seen |= {picture.value, picture.value - 1, picture.value + 1}
        case CompareBars():
            seen |= {picture.upper, picture.lower, abs(picture.upper - picture.lower)}
        case Dice():
            seen |= {sum(picture.values[:2])}
        case Tally():
            seen |= {5}
        case BaseTen():
            seen |= {10}
        case _:
            seen |= set(picture.numbers)
    return frozenset(seen)


def structure(picture: Picture) -> frozenset[int]:
    """The numbers that a picture is made with: rows of five, frames of ten, bundles, how many cards or hops there are;
    said with the word for it ("a row of five", "two frames")."""
    match picture:
        case MarkPicture():
            total = picture.total
            seen = {min(5, total), max(0, total - 5), total % 10, total // 10, total % 5, total // 5, 5, 2}
            if picture.framed:
                seen |= {10, 1, picture.capacity, min(10, total), max(0, total - 10)}
            return frozenset(seen - {0})
        case Rekenrek():
            sides = (picture.upper, picture.lower)
            return frozenset({10, 5, 20, 2, *(min(5, side) for side in sides), *(max(0, side - 5) for side in sides)})
        case SpanPicture():
            near = {value + step for value in picture.marked for step in (-10, -1, 1, 10)}
            return frozenset({len(picture.hops), 10, *near})
        case WholePicture():
            return frozenset({len(picture.parts), len(picture.parts) + 1})
        case CompareBars():
            return frozenset({2})
        case Cards():
            return frozenset({len(picture.values), 2})
        case BaseTen():
            return frozenset({10, 1, picture.tens + picture.ones})
        case Tally():
            return frozenset({5, 10, 1, 4})
        case Dice():
            return frozenset({6, 1})
        case Word():
            return frozenset(part for value in picture.numbers for part in (value % 10, value // 10, 10))
        case MoreAndLess():
            return frozenset({1})
        case _:
            return frozenset()


def relation(picture: Picture) -> Relation | None:
    """The whole and the parts that a picture is about, what is unknown worked out; None where it is about none, or more than one is unknown."""
    match picture:
        case WholePicture():
            values = _solved(picture.whole, picture.parts)
            return None if values is None else Relation(values[0], values[1])
        case NumberSentence() if len(picture.sides) == 2:
            left, right = picture.sides
            single, other = (right, left) if len(right) == 1 else (left, right)
            if len(single) != 1:
                return None
            if all(term.sign == "+" for term in other):
                values = _solved(single[0].value, tuple(term.value for term in other))
                return None if values is None else Relation(values[0], values[1])
            if len(other) == 2 and other[1].sign == "-":
                values = _solved(other[0].value, (other[1].value, single[0].value))
                return None if values is None else Relation(values[0], values[1])
            return None
        case MarkPicture() if picture.dots and picture.crosses:
            return Relation(picture.total, (picture.dots, picture.crosses))
        case Rekenrek() if picture.upper and picture.lower:
            return Relation(picture.upper + picture.lower, (picture.upper, picture.lower))
        case Dice() if len(picture.values) > 1:
            return Relation(sum(picture.values), picture.values)
        case _:
            return None


def answer_of(picture: Picture) -> int | None:
    """What a bond, a bar or a number sentence asks for by its one `?`; None where it asks for nothing or for more than one number, or
    where no number fits."""
    if not isinstance(picture, WholePicture | NumberSentence) or picture.values.count(None) != 1:
        return None
    return picture.answer(picture.values.index(None))


def _solved(whole: int | None, parts: tuple[int | None, ...]) -> tuple[int, tuple[int, ...]] | None:
    known = tuple(part for part in parts if part is not None)
    missing = len(parts) - len(known) + (whole is None)
    if missing == 0 and whole is not None:
        return whole, known
    if missing != 1:
        return None
    if whole is None:
        return sum(known), known
    rest = whole - sum(known)
    if rest < 0:
        return None
    return whole, tuple(rest if part is None else part for part in parts)


def _solution(picture: Picture) -> tuple[int, ...]:
    """The numbers with the unknown worked out."""
    found = relation(picture)
    return () if found is None else (found.whole, *found.parts)
