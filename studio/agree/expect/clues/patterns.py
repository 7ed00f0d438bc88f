"""Drills and parallel talk: two or three numbers that are joined by the same words as others close by stand to one another
as those do ("I say nine, you say one. I say eight, you say two."; "5. 3! 6. 2! 4. 4 again!"; "three and three? Six. Five and
five? Ten."); and the partners to a whole that a title or the talk names ("# Partners of 10")."""

from __future__ import annotations

import itertools
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from studio.agree.expect.groups import ending
from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.place import Book, Place

_REACH = 12  # numbers
_LONGEST = 9  # words between two numbers
_BEFORE = 4  # words before a whole in which it is said to be one
_WHOLES = 2
_NEAR = 7  # numbers
_BACK = 60
_ON = 8
"""Words after a whole and before it in which its partners may be said."""
_PARTNERS = frozenset("partner partners pairs bond bonds friend friends family families parts".split())
_MAKE = frozenset("make makes making made rest fill split".split())
_MARKS = {".": ".", "!": ".", "…": ".", "?": "?", ",": ",", ";": ",", ":": ","}

Joint = tuple[str, ...]
"""The words between two numbers; where there are none, the mark."""
_Manner = str
"""How numbers are joined: "w" by words, "m" by marks alone, "" not at all."""


class Whole(NamedTuple):
    """A number that partners are looked for of, with its first word (-1: in the title) and how it is said: "t" in the
    title, "p" of partners, "m" of what is made."""

    word: int
    value: int
    source: str


class Drills:
    """What is the same for all places of a lesson. By number: the first number of its segment and the one behind the last;
    its sum with the next; the same for pairs only (where it makes none with the next, a number of its own below nought),
    with a name for each two numbers; the pairs and the threes close by that are joined as the pair and the three that
    begin with it."""

    def __init__(self, book: Book) -> None:
        numbers, said, links = book.numbers, book.said, book.links
        starts = book.case.number_starts
        self.said = said
        self.bounds: list[tuple[int, int]] = []
        while (first := len(self.bounds)) < len(numbers):
            behind = bisect_left(starts, book.case.segment_around(starts[first])[1])
            self.bounds += [(first, behind)] * (behind - first)
        self.twos = list(itertools.pairwise(said))
        self.sums = [one + other for one, other in self.twos]
        # one after the other of a count makes no pair
        self.pair_sums = [-1 - at if links[at] in ("X", "SS") else total for at, total in enumerate(self.sums)]
        # two pairs with the same name are the same two numbers, in whichever order
        smaller = map(min, self.twos)
        names: dict[tuple[int, int], int] = {}
        self.pair_names = [names.setdefault(pair, len(names)) for pair in zip(self.pair_sums, smaller, strict=True)]
        joints = [_joint(book, one.end, other.start) for one, other in itertools.pairwise(numbers)]
        self.manners = [_manner(joint) for joint in joints]
        self.pairs = self._alike([None if joint is None else (joint,) for joint in joints], 2)
        threes = [(one, other) if one and other else None for one, other in itertools.pairwise(joints)]
        self.threes = self._alike(threes, 3)
        self.totals = [_total(said[at : at + 3]) if alike else -1 for at, alike in enumerate(self.threes)]
        self.wholes: dict[int, tuple[list[Whole], list[int]]] = {}

    def manner(self, first: int, count: int) -> _Manner:
        """How the `count` numbers from number `first` on are joined: by words, or by marks alone."""
        return "w" if "w" in self.manners[first : first + count - 1] else "m"

    def _alike(self, joints: Sequence[tuple[Joint, ...] | None], count: int) -> list[list[int]]:
        """For each number, the stretches of `count` numbers close by in its segment that are joined as the one that
        begins with it."""
        found: list[list[int]] = [[] for _ in self.said]
        same: dict[tuple[Joint, ...], list[int]] = {}
        for first, joint in enumerate(joints):
            if joint is None:
                continue
            earlier = same.setdefault(joint, [])
            if earlier and earlier[-1] >= first - _REACH:
                # by marks alone every number is joined with the next: only every other one begins a pair
                step = 1 if self.manner(first, count) == "w" else count
                least = max(first - _REACH // step * step, self.bounds[first][0])
                for other in reversed(earlier):
                    if other < least:
                        break
                    if (first - other) % step == 0:
                        found[first].append(other)
                        found[other].append(first)
            earlier.append(first)
        return found


def find(place: Place) -> Iterator[Hint]:
    book, at = place.book, place.index
    drills = book.once(Drills)
    if at and drills.pairs[at - 1]:
        yield from _pairs(drills, at, at - 1)
    if drills.pairs[at]:
        yield from _pairs(drills, at, at)
    for first in range(max(0, at - 2), at + 1):
        if drills.threes[first]:
            yield from _threes(drills, at, first)
    wholes, starts = _wholes(drills, book, place.segment)
    if wholes:
        yield from _partners(drills, place, wholes, starts)
    yield from _common(drills, book, at)


def _joint(book: Book, start: int, end: int) -> Joint | None:
    words = book.words
    if end - start > _LONGEST or words[start - 1].segment != words[end].segment:
        return None
    if start == end:
        return (_MARKS.get(ending(words[start - 1].text), ""),)
    return tuple([word.plain for word in words[start:end]])


def _manner(joint: Joint | None) -> _Manner:
    return "" if joint is None else "w" if joint[0].isalpha() else "m"


def _total(three: list[int]) -> int:
    """Which of three numbers is the sum of the others; -1: none."""
    whole = sum(three)
    return next((total for total, value in enumerate(three) if 2 * value == whole), -1)


def _pairs(drills: Drills, at: int, first: int) -> Iterator[Hint]:
    """The number goes with its neighbour as the numbers of like pairs go together; `first` begins the two."""
    before = first < at
    skipped = at if before else at - 1  # the other pair that the place is in
    twos = drills.twos
    alike = dict.fromkeys([twos[other] for other in drills.pairs[first] if other != skipped])
    if not alike:
        return
    known = drills.said[first if before else at + 1]
    votes: dict[tuple[str, int], int] = {}
    for one, other in alike:
        for vote in _by(other, one, known) if before else _by(one, other, known):
            votes[vote] = votes.get(vote, 0) + 1
    many, manner = len(alike), drills.manners[first]
    for (sort, value), count in votes.items():
        if value >= 0 and (count > 1 or (many == 1 and (manner == "w" or sort in "Dd"))):
            yield value, _pair_clue(sort, count, many, manner)


@lru_cache(maxsize=KEPT)
def _pair_clue(sort: str, count: int, many: int, manner: _Manner) -> Bundle:
    share = "a" if count >= many else "h" if 2 * count >= many else "l"
    return named(f"Pa{sort}{min(count, 3)}{share}{manner}")


@lru_cache(maxsize=KEPT)
def _by(mine: int, its: int, known: int) -> tuple[tuple[str, int], ...]:
    """What would go with `known` as `mine` goes with `its`."""
    found = [("S", mine + its - known)]
    if mine == its:
        found.append(("E", known))
    else:
        found.append(("D" if abs(mine - its) in (1, 10) else "d", known + mine - its))
    if (its and mine == 2 * its) or its == 2 * mine != 0:
        if mine > its:
            found.append(("T", 2 * known))
        elif known % 2 == 0:
            found.append(("T", known // 2))
    elif its and mine in (5 * its, 10 * its):
        found.append(("X", known * (mine // its)))
    elif its > 9 and mine == its % 10 != its:
        found.append(("O", known % 10))
    elif its > 9 and mine == its // 10:
        found.append(("Z", known // 10))
    return tuple(found)


def _threes(drills: Drills, at: int, first: int) -> Iterator[Hint]:
    """Three numbers (`first` begins them) of which one is the sum of the others, as in all stretches that are joined
    alike."""
    said, totals = drills.said, drills.totals
    alike = [other for other in drills.threes[first] if not at - 2 <= other <= at]
    if not alike:
        return
    total = totals[alike[0]]
    if total < 0 or any(totals[other] != total for other in alike):
        return
    count = len({tuple(said[other : other + 3]) for other in alike})
    manner = drills.manner(first, 3)
    if manner == "m" and count == 1:
        return
    slot = at - first
    rest = sum(said[first : first + 3]) - said[at]
    value = rest if total == slot else 2 * said[first + total] - rest
    if value >= 0:
        yield value, named(f"Pat{min(count, 2)}{manner}:{slot}")


def _wholes(drills: Drills, book: Book, segment: int) -> tuple[list[Whole], list[int]]:
    """The wholes that a segment says, and the first word of each."""
    kept = drills.wholes.get(segment)
    if kept is None:
        case, words = book.case, book.words
        found: list[Whole] = []
        if case.lesson is not None and any(word.plain in _PARTNERS for word in case.title_words[segment]):
            found = [Whole(-1, number.value, "t") for number in case.title_numbers[segment]]
        start, end = case.segments[segment if case.lesson is not None else 0]
        behind = start
        for number in case.numbers_between(start, end):
            # not over another number: what is said there must not tell whether this one is a whole
            before = [word.plain for word in words[max(behind, number.start - _BEFORE) : number.start]]
            if not _PARTNERS.isdisjoint(before):
                found.append(Whole(number.start, number.value, "p"))
            elif not _MAKE.isdisjoint(before):
                found.append(Whole(number.start, number.value, "m"))
            behind = number.end
        kept = drills.wholes[segment] = found, [whole.word for whole in found]
    return kept


def _nearest(place: Place, wholes: list[Whole], starts: list[int]) -> dict[int, str]:
    """The wholes around a place that are said last, each with how it is said ("n": after the place)."""
    start, end = place.number.start, place.number.end
    found: dict[int, str] = {}
    at = bisect_left(starts, end + _ON)
    while at and len(found) < _WHOLES:
        at -= 1
        word, value, source = wholes[at]
        if 0 <= word <= start - _BACK:
            at = bisect_left(starts, 0)  # too far before it: on with the title
        elif word < start or word >= end:
            found.setdefault(value, source if word < start else "n")
    return found


def _sides(drills: Drills, at: int) -> list[tuple[str, int, int]]:
    """The neighbours of a place: where ("p", "n"), the number, its sum with the one beyond it (-1: there is none)."""
    said, sums, (low, high) = drills.said, drills.sums, drills.bounds[at]
    found = []
    if at > low:
        found.append(("p", said[at - 1], sums[at - 2] if at - 1 > low else -1))
    if at + 1 < high:
        found.append(("n", said[at + 1], sums[at + 1] if at + 2 < high else -1))
    return found


def _partners(drills: Drills, place: Place, wholes: list[Whole], starts: list[int]) -> Iterator[Hint]:
    """What is missing from the numbers next to it to such a whole; a neighbour may have its partner on its other side,
    and other pairs close by may make the whole, too."""
    near = _nearest(place, wholes, starts)
    if not near:
        return
    sides = _sides(drills, place.index)
    for whole, source in reversed(near.items()):
        drilled = _drilled(drills, place.index, whole)
        if source != "t" and drilled == 0:
            continue
        for side, value, beyond in sides:
            if value <= whole:
                yield whole - value, _partner_clue(source, side, beyond == whole, drilled)


@lru_cache(maxsize=KEPT)
def _partner_clue(source: str, side: str, taken: bool, drilled: int) -> Bundle:
    return named(f"Paw{source}{side}{'t' if taken else 'f'}{drilled}")


def _drilled(drills: Drills, at: int, whole: int) -> int:
    """How many pairs of numbers close by make a whole (2: two or more)."""
    low, high = drills.bounds[at]
    before, behind = max(low, at - _NEAR), min(high, at + _NEAR)
    sums = drills.sums
    return min(sums[before : max(before, at - 1)].count(whole) + sums[at + 1 : behind].count(whole), 2)


def _common(drills: Drills, book: Book, at: int) -> Iterator[Hint]:
    """What goes with a neighbour to the sum that most pairs close by make, whatever words are between them."""
    low, high = drills.bounds[at]
    first, last = max(low, at - _NEAR), min(high - 1, at + _NEAR)
    middle = max(first, at - 1)
    totals = drills.pair_sums[first:middle] + drills.pair_sums[at + 1 : last]
    names = drills.pair_names[first:middle] + drills.pair_names[at + 1 : last]
    if len(set(totals)) == len(set(names)):
        return  # no two pairs have the same sum
    sums: dict[int, set[int]] = {}
    behind = -1
    for other, whole, name in zip((*range(first, middle), *range(at + 1, last)), totals, names, strict=True):
        if whole < 0 or behind == other:
            continue
        pairs = sums.get(whole)
        if pairs is None:
            sums[whole] = {name}
        elif name not in pairs:
            pairs.add(name)
            behind = other + 1
    sides = _sides(drills, at)
    for whole, pairs in sums.items():
        if len(pairs) < 2:
            continue
        for side, value, beyond in sides:
            if value > whole or (abs(2 * value - whole) == 1 and len(pairs) < 3):
                continue
            link = book.links[at - 1 if side == "p" else at]
            if link != "0":  # a list of numbers, a count
                near = link if link in ("A", "S") else "x"
                yield whole - value, named(f"Pau{min(len(pairs), 3)}{'t' if beyond == whole else 'f'}{near}:{side}")
