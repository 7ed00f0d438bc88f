"""Groups of numbers that are said in the same way one after the other ("Six? Four. Three? Seven.", "What is four and three?
Four and three is seven. What is six and two? Six and two is eight."): where the numbers of all other groups go together in
one way, those of a group are to go together so, too."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import combinations, pairwise, permutations
from typing import NamedTuple

from studio.agree.expect.hints import KEPT
from studio.agree.expect.place import Book

_SIZES = range(2, 8)  # numbers of a group
_LONGEST = 12  # words between two numbers
_FEWEST = 3  # groups
_MOST = 40
"""Groups that are laid side by side; in more of them the first ones are."""
_ADDED = 3  # numbers: of more, the last may be the sum of all others
_STEPS = (0, 1, -1, 2, -2, 5, -5, 10, -10)
_MARKS = {".": ".", "!": "!", "…": ".", "?": "?"}
_QUOTES = "\"”’*_)'"
_LEFT_OUT = frozenset("and now then so yes oh next the a or well right okay".split())

Group = tuple[int, ...]
_Relation = tuple[str, tuple[int, ...]]
"""How numbers of a group go together, and which of them (by their place in it)."""


class Same(NamedTuple):
    """What all other groups (`others` different ones) let expect of one number of a group: that it is `value`, by a relation
    of sort `sort`."""

    sort: str
    others: int
    value: int


class Groups:
    """For each number of a lesson what the other groups let expect of it."""

    def __init__(self, book: Book) -> None:
        said = book.said
        joints = [_joint(book, one.end, other.start) for one, other in pairwise(book.numbers)]
        self.same: list[list[Same]] = [[] for _ in said]
        for size in _SIZES:
            for first, count in _runs(joints, size):
                groups = [tuple(said[at : at + size]) for at in range(first, first + count * size, size)]
                for at, found in enumerate(_expected(groups)):
                    self.same[first + at] += found


def _joint(book: Book, start: int, end: int) -> str | None:
    """The words and marks between two numbers; nothing where they are far apart or in two segments."""
    words = book.words
    if end - start > _LONGEST or words[start - 1].segment != words[end].segment:
        return None
    said = [_mark(words[start - 1].text)]
    for word in words[start:end]:
        if word.plain not in _LEFT_OUT:
            said.append(word.plain)
        said.append(_mark(word.text))
    return " ".join(filter(None, said))


def _mark(text: str) -> str:
    return "" if text[-1:].isalnum() else _MARKS.get(ending(text), "")


def ending(text: str) -> str:
    """The last character of a word as it is written, quotes and brackets left out."""
    return text.rstrip(_QUOTES)[-1:]


def _runs(joints: Sequence[str | None], size: int) -> Iterator[tuple[int, int]]:
    """The first numbers of runs of groups, `size` numbers each, that are joined in the same way, and how many groups they
    have. A mere count ("one, two, three") has no groups."""
    counts = _counts(joints, size)
    finer = [(smaller, _same_until(joints, smaller)) for smaller in range(2, size) if size % smaller == 0]
    taken = -1
    for first, count in enumerate(counts):
        inside = joints[first : first + size - 1]
        if first <= taken or count < _FEWEST or None in inside or not any(inside):
            continue
        end = first + count * size - 1
        if any(until[first] >= end - smaller for smaller, until in finer):
            continue  # smaller groups are joined in the same way, too
        taken = first + (count - 2) * size
        yield first, min(count, _MOST)


def _counts(joints: Sequence[str | None], size: int) -> list[int]:
    """For each number, how many groups of `size` numbers follow one another from it that are joined as the first of them."""
    counts = [1] * max(0, len(joints) + 2 - size)
    for first in range(len(counts) - 1 - size, -1, -1):
        after = first + size
        if joints[after - 1] is not None and joints[first : after - 1] == joints[after : after + size - 1]:
            counts[first] += counts[after]
    return counts


def _same_until(joints: Sequence[str | None], step: int) -> list[int]:
    """For each joint that has one `step` on, the first from it on that is another than the one `step` on from that."""
    last = max(0, len(joints) - step)
    until = list(range(last))
    for at in range(last - 1, -1, -1):
        if joints[at] == joints[at + step]:
            until[at] = until[at + 1] if at + 1 < last else last
    return until


def _expected(groups: Sequence[Group]) -> Iterator[list[Same]]:
    """For each number of the groups, one group after the other, what the other groups let expect of it."""
    size, count = len(groups[0]), len(groups)
    found: list[dict[Same, None]] = [{} for _ in range(size * count)]
    times = Counter(groups)
    others = [len(times) - (times[group] == 1) for group in groups]  # different ones
    for relation, told in _relations(size):
        holds = [_told(relation, group) for group in groups]
        often = Counter(holds)
        if len(often) > 2:
            continue
        for at, group in enumerate(groups):
            kept = [hold for hold in often if hold != holds[at] or often[hold] > 1]
            if len(kept) == 1 and others[at] > 1 and kept[0] is not None:
                for slot in told:
                    value = _wanted(relation, kept[0], group, slot)
                    if value is not None and value >= 0:
                        found[at * size + slot][Same(relation[0], min(others[at], 5), value)] = None
    for slot in range(size):
        for at, same in _columns([group[slot] for group in groups]):
            found[at * size + slot][same] = None
    yield from map(list, found)


@lru_cache(maxsize=len(_SIZES))
def _relations(size: int) -> tuple[tuple[_Relation, tuple[int, ...]], ...]:
    """The ways in which numbers of a group may go together, each with the places in it that it tells the number of."""
    found: list[tuple[_Relation, tuple[int, ...]]] = []
    for pair in combinations(range(size), 2):
        found += [(("sum", pair), pair), (("step", pair), pair)]
    for pair in permutations(range(size), 2):
        found += [
            (("times2", pair), pair),
            (("times5", pair), pair[1:]),
            (("times10", pair), pair),
            (("ones", pair), pair[1:]),
        ]
    for whole in range(size):
        for one, other in combinations([at for at in range(size) if at != whole], 2):
            found.append((("add", (one, other, whole)), (one, other, whole)))
    every = tuple(range(size))
    if size > _ADDED:
        found.append((("all", every), every))
    return tuple(found)


@lru_cache(maxsize=KEPT)
def _told(relation: _Relation, group: Group) -> int | None:
    """What the numbers of a group say of a relation: the sum, the step, whether it holds (0); nothing where it does not."""
    sort, at = relation
    one, other = group[at[0]], group[at[1]]
    match sort:
        case "sum":
            return one + other
        case "step":
            return other - one if other - one in _STEPS else None
        case "times2" | "times5" | "times10":
            return 0 if other and other == one * int(sort[5:]) else None
        case "ones":
            return 0 if one > 9 and other == one % 10 else None
        case "all":
            return 0 if group[-1] == sum(group[:-1]) else None
        case _:
            return 0 if one and other and group[at[2]] == one + other else None


def _wanted(relation: _Relation, hold: int, group: Group, slot: int) -> int | None:
    """The number that stands at place `slot` of a group where a relation holds as in the others."""
    sort, at = relation
    values = [group[place] for place in at]
    which = at.index(slot)
    match sort:
        case "sum":
            return hold - values[1 - which]
        case "step":
            return values[0] + hold if which else values[1] - hold
        case "times2" | "times5" | "times10":
            times = int(sort[5:])
            return values[0] * times if which else values[1] // times if values[1] % times == 0 else None
        case "ones":
            return values[0] % 10
        case "all":
            rest = sum(values[:-1])
            return rest if which == len(values) - 1 else values[-1] - rest + values[which]
        case _:
            return values[0] + values[1] if which == 2 else values[2] - values[1 - which]


def _columns(column: Sequence[int]) -> Iterator[tuple[int, Same]]:
    """Where the numbers at one place of all groups but one are the same, or go up or down by the same step: that one."""
    count = len(column)
    for at in range(count):
        rest = [(other, value) for other, value in enumerate(column) if other != at]
        (first, low), (last, high) = rest[0], rest[-1]
        step, left = divmod(high - low, last - first)
        if left or (step and (step not in _STEPS or count <= _FEWEST)):
            continue
        if all(value == low + step * (other - first) for other, value in rest):
            value = low + step * (at - first)
            if value >= 0:
                yield at, Same("on" if step else "same", min(count - 1, 5), value)
