"""The role that remains: of the numbers that go together in a picture near by in time (start, end and length of a hop;
whole and parts; what was there, what came, what there is now) one or two are said next to the place already, so that
it is most likely for the other; and the number that a picture is there to show and that nobody else says."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from studio.agree.expect.clues.to_come import REACH_IN_WORDS, Turn, near, turns
from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.place import Book, Place
from studio.agree.looks import relation
from studio.pictures.base import Picture
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.kinds.dice import Dice
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.kinds.tally import Tally
from studio.pictures.kinds.word import Word
from studio.pictures.marks import MarkPicture
from studio.pictures.spans import SpanPicture
from studio.script.model import Add, Count, Hop, TakeAway

Group = tuple[str, tuple[tuple[str, int], ...]]
"""A sort, and the numbers that go together with the role of each."""
_MATES = 3  # numbers before the place and after it
_LEFT = 2  # roles that may remain
_PICTURES = 2
_UNSAID = 3  # sentences before and after
_NAMED = 4  # parts, dice
_ALIKE = {"t": "a", "m": "r", "v": "r"}
"""Sorts of groups that are talked about in the same way."""
_LOOSE = frozenset("fc fe fb nl nm vd".split())
"""Roles that a number seldom has if only one other role is said (or none): what a frame holds, a neighbour."""
_TOLD = (Add, TakeAway, Count, Hop)
"""Changes that tell themselves what the picture that they lead to shows."""


Rest = tuple[str, int, int, int]
"""A role that remains with its sort, its number, how many others are said, how many remain (less than nought)."""


class Together(NamedTuple):
    """Numbers that go together; what remains of them, by those that are said next to a place."""

    sort: str
    roles: tuple[tuple[str, int], ...]
    values: frozenset[int]
    rests: dict[tuple[int, ...], tuple[Rest, ...]]


Groups = tuple[tuple[str, Together], ...]


class Around(NamedTuple):
    """What goes together around the places of a sentence between two changes and when ("n" on the screen, "b" before, "c"
    and "d" behind), what of it is said only once near by, and the clues to what nobody says: by the number that stands at
    the place if that is said only once, else by None."""

    groups: Groups
    once: frozenset[int]
    unsaid: dict[int | None, tuple[Hint, ...]]


def find(place: Place) -> Iterator[Hint]:
    around = _around(place)
    if not around.groups:
        return
    scope, mates = _mates(place)
    if mates:
        for (value, when, name), (matched, left) in _remaining(around.groups, mates).items():
            yield value, _rest(scope, when, name, matched, -left)
    number = place.number.value
    own = number if number in around.once else None
    kept = around.unsaid.get(own)
    if kept is None:
        kept = around.unsaid[own] = _not_said(place, around.groups, own)
    yield from kept


def _remaining(groups: Groups, mates: list[int]) -> dict[tuple[int, str, str], tuple[int, int]]:
    """The roles that remain where the mates have the others; of a role that remains in several groups, the surest."""
    best: dict[tuple[int, str, str], tuple[int, int]] = {}
    for when, group in groups:
        values = group.values
        said = tuple([mate for mate in mates if mate in values])
        if not said:
            continue
        rests = group.rests.get(said)
        if rests is None:
            rests = group.rests[said] = _without(group, said)
        for name, value, matched, left in rests:
            key, sure = (value, when, name), (matched, left)
            if key not in best or sure > best[key]:
                best[key] = sure
    return best


def _not_said(place: Place, groups: Groups, own: int | None) -> tuple[Hint, ...]:
    """The one role of each group whose number is not said near by (but for `own`, which stands at the place)."""
    said = place.book.said_around(place.sentence_index, _UNSAID)
    told: dict[tuple[str, str, int], None] = {}
    for when, (sort, roles, *_) in groups:
        rest = [(role, value) for role, value in roles if value == own or value not in said]
        if len(rest) == 1 and sort + rest[0][0] not in _LOOSE:
            told[when, sort + rest[0][0], rest[0][1]] = None
    return tuple([(value, _unsaid(when, name)) for when, name, value in told])


@lru_cache(maxsize=KEPT)
def _rest(scope: str, when: str, role: str, matched: int, left: int) -> Bundle:
    sure = f"Rmr{_ALIKE.get(role[0], role[0])}{role[1:]}" if left == 1 else f"Rms{role[1:]}"
    return named(f"Rm{scope}{when}{matched}{left}", sure)


@lru_cache(maxsize=KEPT)
def _unsaid(when: str, role: str) -> Bundle:
    return named(f"Rmu{when}", f"Rmv{role[1:]}")


def _without(group: Together, mates: tuple[int, ...]) -> tuple[Rest, ...]:
    """The roles whose number is not among the mates (each of which stands for one)."""
    over = [*mates]
    rest: list[tuple[str, int]] = []
    for role, value in group.roles:
        if value in over:
            over.remove(value)
        else:
            rest.append((group.sort + role, value))
    if len(rest) > _LEFT:
        return ()
    matched, left = min(len(group.roles) - len(rest), 2), -len(rest)
    return tuple([(name, value, matched, left) for name, value in rest if left == -1 or name not in _LOOSE])


def _mates(place: Place) -> tuple[str, list[int]]:
    """The numbers that are said with it: in its sentence ("i"), else next to it in the sentences beside ("o")."""
    book, index, here = place.book, place.index, place.sentence_index
    said, sentence_of = book.said, book.sentence_of
    if place.others:
        first, last = index, index + 1
        while first and index - first < _MATES and sentence_of[first - 1] == here:
            first -= 1
        while last < len(said) and last - index <= _MATES and sentence_of[last] == here:
            last += 1
        return "i", said[first:index] + said[index + 1 : last]
    return "o", [
        said[at]
        for at in (index - 2, index - 1, index + 1, index + 2)
        if 0 <= at < len(said)
        and abs(sentence_of[at] - here) <= 1
        and place.start <= book.numbers[at].start < place.end
    ]


def _places(book: Book) -> dict[tuple[int, int], Around]:
    """What is kept around places, by their sentence and the last edge before them."""
    return {}


def _around(place: Place) -> Around:
    """What is around a place, made once for all places of its sentence with the same pictures near by."""
    book, start = place.book, place.number.start
    cache = book.once(_places)
    key = place.sentence_index, bisect_right(book.once(_edges), start)
    kept = cache.get(key)
    if kept is None:
        found: list[tuple[str, Together]] = []
        for seen in book.screen(start, start + 1)[:_PICTURES]:
            if not seen.moment.counted:
                found += [("n", group) for group in _seen(book, seen.picture)]
        for when, turn in near(place):
            side = "b" if when in "hg" else "d" if when == "k" else "c"
            found += [(side, group) for group in _of_turn(book, turn, side == "b")]
        once: list[int] = []
        if found:
            said = book.said_around(place.sentence_index, _UNSAID)
            once = [value for _, group in found for value in group.values if said.get(value) == 1]
        kept = cache[key] = Around(tuple(found), frozenset(once), {})
    return kept


def _edges(book: Book) -> list[int]:
    """The words from which on something else is on the screen or near by, in order."""
    edges = {at for seen in book.case.pictures for at in (seen.moment.word, seen.until)}
    for turn in book.once(turns):
        edges.update((turn.at - REACH_IN_WORDS, turn.at, turn.at + REACH_IN_WORDS + 1))
    return sorted(edges)


def _changes(book: Book) -> dict[int, tuple[Together, ...]]:
    """What goes together in changes, by the identity of their turn."""
    return {}


def _of_turn(book: Book, turn: Turn, behind: bool) -> tuple[Together, ...]:
    """The numbers that go together in a change and, if it is to come, in the picture that it leads to."""
    change = turn.change
    if change is None:
        return () if behind or turn.picture is None else _seen(book, turn.picture)
    cache = book.once(_changes)
    kept = cache.get(id(turn))
    if kept is None:
        kept = cache[id(turn)] = _made(_of_change(change, turn.there))
    if behind or turn.picture is None or isinstance(change, _TOLD):
        return kept
    return kept + _seen(book, turn.picture)


def _made(groups: Iterator[Group]) -> tuple[Together, ...]:
    return tuple([Together(sort, roles, frozenset([value for _, value in roles]), {}) for sort, roles in groups])


def _of_change(change: object, there: int | None) -> Iterator[Group]:
    """The numbers that go together in a change of a picture with so many things."""
    match change:
        case Hop(start=start, end=end):
            yield "h", (("s", start), ("e", end), ("d", abs(end - start)))
        case Add(count=count) if there is not None:
            yield "a", (("b", there), ("n", count), ("a", there + count))
        case TakeAway(count=count) if there is not None:
            yield "t", (("b", there), ("n", count), ("a", there - count))
        case _:
            return


def _pictures(book: Book) -> dict[int, tuple[Picture, tuple[Together, ...]]]:
    """What goes together in pictures, by their identity."""
    return {}


def _seen(book: Book, picture: Picture) -> tuple[Together, ...]:
    """The numbers that go together in a picture, made once."""
    cache = book.once(_pictures)
    kept = cache.get(id(picture))
    if kept is None:
        kept = cache[id(picture)] = (picture, _made(_together(picture)))
    return kept[1]


def _together(picture: Picture) -> Iterator[Group]:
    match picture:
        case MarkPicture():
            yield from _of_marks(picture)
        case Rekenrek():
            upper, lower = picture.upper, picture.lower
            if lower:
                yield "r", (("p", upper), ("p", lower), ("w", upper + lower))
        case Dice():
            yield "r", (*(("p", value) for value in picture.values[:_NAMED]), ("w", picture.total))
        case CompareBars():
            yield "v", (("p", picture.upper), ("p", picture.lower), ("d", abs(picture.upper - picture.lower)))
        case BaseTen():
            yield "k", (("t", picture.tens), ("o", picture.ones), ("w", picture.value))
            yield "k", (("T", 10 * picture.tens), ("o", picture.ones), ("w", picture.value))
        case Tally():
            yield "k", (("T", picture.value // 5 * 5), ("o", picture.value % 5), ("w", picture.value))
        case Word():
            for value in picture.numbers[:1]:
                if value > 10:
                    yield "k", (("T", value // 10 * 10), ("o", value % 10), ("w", value))
        case SpanPicture():
            for value in picture.marked[-1:]:
                yield "n", (("l", value - 1), ("w", value), ("m", value + 1))
            for start, end in picture.hops[-1:]:
                yield "h", (("s", start), ("e", end), ("d", abs(end - start)))
        case _:
            fact = relation(picture)
            if fact is not None:
                yield "w", (*(("p", part) for part in fact.parts[:_NAMED]), ("w", fact.whole))


def _of_marks(picture: MarkPicture) -> Iterator[Group]:
    total = picture.total
    if picture.dots and picture.crosses:
        yield "m", (("p", picture.dots), ("p", picture.crosses), ("w", total))
    if picture.framed and 0 < total < picture.capacity:
        yield "f", (("w", total), ("e", picture.capacity - total), ("c", picture.capacity))
        base = 10 if total > 10 else 5
        if total > base:
            yield "f", (("b", base), ("o", total - base), ("w", total))
