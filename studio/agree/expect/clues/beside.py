"""Bounds and what lies beside them: the clues of a riddle narrow down to the answer ("more than ten, less than
twelve"), one more and one less, the greatest and the least of what is shown, the start and the end of a count."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from studio.agree.case import Appearance
from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.place import Book, Place
from studio.pictures.kinds.cards import Cards
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.spans import SpanPicture
from studio.script.model import Hop

_UP = frozenset("greater more bigger larger longer higher above after past over right most beyond further".split())
_DOWN = frozenset("less fewer smaller lower shorter below before under left lower".split())
_MOST = frozenset("greatest biggest largest most highest longest greater bigger larger more longer".split())
_LEAST = frozenset("least smallest fewest lowest shortest smaller less fewer".split())
_BEGIN = frozenset("start starts started begin begins began from at stand stands standing stood".split())
_TO = frozenset("to until till reach reaches stop stops lands land land get gets".split())
_HOPS = frozenset("hop hops step steps jump jumps more leap leaps stones times".split())
_SIDES = {
    **dict.fromkeys("before below less lower fewer smaller backwards underneath".split(), -1),
    **dict.fromkeys("after above more higher next greater bigger".split(), 1),
}
_STEPS = {
    "mt": (1,), "mp": (0, 1), "mn": (0, 10), "ms": (0, 1),
    "pt": (1,), "pp": (0,), "pn": (0, 1), "ps": (0,),
    "bt": (2,), "bp": (0,), "bn": (1,), "bs": (0,),
}  # fmt: skip
"""How far a bound may lie from the number it is compared with, by the sort of bound and where that number stands."""
_NEAR = 4  # words before a number
_LIES = frozenset("comes lives sits is stands goes just straight right come live".split())
_AHEAD = 7
_BEHIND = 4
"""Words before a place and behind it in which a side is named."""
_ROUND = 3  # sentences
_ASKED = 5  # sentences back to what is asked of each pair
_CLOSE = 6  # between two bounds
_LONGEST = 30  # numbers of a count
_SOON = 4  # picture steps
_REACH = 30  # words to a picture step
_STRIDES = (1, 2, 5, 10)


@dataclass(frozen=True, slots=True)
class _Notes:
    """What is worked out once for a lesson. `plains` are its words; for each number `roles` tells what it is compared as,
    `ends` which number ends the count that begins with it; `bounds` are the numbers that are bounds. `sides` tells which
    side a word names, `last_side` which word up to it was the last to name one, `lies` are the words that name one behind
    "comes". `hops` are the hops and `hops_at` their picture steps."""

    plains: list[str]
    roles: list[str]
    bounds: list[int]
    sides: list[int]
    last_side: list[int]
    lies: list[int]
    ends: list[int]
    hops_at: list[int]
    hops: list[Hop]


def _notes(book: Book) -> _Notes:
    plains = [word.plain for word in book.words]
    sides = [_SIDES.get(plain, 0) for plain in plains]
    named_at = [at for at, side in enumerate(sides) if side]
    lies = [at for at in named_at if at and plains[at - 1] in _LIES]
    for at in named_at:
        # "more" and "less" only behind "one"
        if plains[at] in ("more", "less", "fewer") and not _behind_one(book, plains, at):
            sides[at] = 0
    last, last_side = -1, []
    for at, side in enumerate(sides):
        last = at if side else last
        last_side.append(last)
    roles = [_role(book, plains, index) for index in range(len(book.numbers))]
    bounds = [index for index, role in enumerate(roles) if role in ("g", "a", "l", "d")]
    changes = [getattr(moment.direction, "change", None) for moment in book.case.stage.moments]
    hops = [(at, change) for at, change in enumerate(changes) if type(change) is Hop]
    return _Notes(
        plains, roles, bounds, sides, last_side, lies, _ends(book), [at for at, _ in hops], [hop for _, hop in hops]
    )


def _behind_one(book: Book, plains: list[str], at: int) -> bool:
    return at > 0 and plains[at - 1] in ("one", "1") and book.words[at - 1].segment == book.words[at].segment


def _role(book: Book, plains: list[str], index: int) -> str:
    """What a number is compared as: "g" greater than it, "l" less than it, "b" between it and another, "a" above it or
    after it, "d" below it or before it; "" nothing."""
    start = book.numbers[index].start
    ahead = plains[max(start - _NEAR, book.case.sentences[book.sentence_of[index]].start) : start]
    if not ahead:
        return ""
    if "between" in ahead:
        return "b"
    if "than" in ahead[-2:]:
        than = len(ahead) - (1 if ahead[-1] == "than" else 2)
        behind = ahead[max(0, than - 2) : than]
        return "g" if not _UP.isdisjoint(behind) else "l" if not _DOWN.isdisjoint(behind) else ""
    near = ahead[-1]
    return "a" if near in _UP and near != "more" else "d" if near in _DOWN and near != "less" else ""


def _ends(book: Book) -> list[int]:
    """For each number the last one of the count that begins with it (itself where none begins)."""
    numbers, said = book.numbers, book.said
    ends = list(range(len(numbers)))
    behind = 0  # the stride of the pair behind; 0: it does not count on
    for at in range(len(numbers) - 2, -1, -1):
        stride = said[at + 1] - said[at]
        if (
            abs(stride) not in _STRIDES
            or book.links[at] not in ("0", "S", "A")
            or book.words[numbers[at].start].segment != book.words[numbers[at + 1].start].segment
        ):
            stride = 0
        else:
            ends[at] = ends[at + 1] if stride == behind else at + 1
        behind = stride
    return ends


def find(place: Place) -> Iterator[Hint]:
    notes = place.book.once(_notes)
    start = place.number.start
    screen = place.book.screen(start, start + 1)[:2]
    role = notes.roles[place.index]
    if role:
        yield from _from_anchors(place, role, screen)
    else:
        step, side = _side(place, notes)
        if step:
            yield from _neighbours(place, step, side, screen)
    if notes.bounds:
        yield from _bounds(place, notes, role)
    if len(place.others) < 2:
        yield from _choice(place)
    for seen in screen:
        if isinstance(seen.picture, Cards) and len(seen.picture.faces) <= _LONGEST:
            yield from _extreme(place, seen.picture.faces)
            break
    for seen in screen:
        if isinstance(seen.picture, CompareBars):
            yield from _compared(place, (seen.picture.upper, seen.picture.lower))
            break
    first = place.index + 1
    if first < len(notes.ends) and notes.ends[first] > first and place.book.numbers[first].start < place.end:
        yield from _count_ahead(place, notes)
    yield from _hop(place, notes, screen)


def _from_anchors(place: Place, role: str, screen: Sequence[Appearance]) -> Iterator[Hint]:
    """The numbers beside those that a number is likely to be compared with: what is greater than the place is one more
    than it, the other bound lies two away."""
    book = place.book
    first = bool(place.others) and place.others[0].start > place.number.start
    below = role in "ga" or (role == "b" and first)  # the place lies below what is compared with it
    sort = "m" if role in "gl" else "b" if role == "b" else "p"
    yield from (
        (value, _steps(sort, anchor, below))
        for anchor, value in (
            *[("t", other.value) for other in place.others[-1:]],
            *[("p", value) for value in place.said_beside(-1)[-1:]],
            *[("n", value) for value in place.said_beside(1)[:1]],
            *[("s", value) for seen in screen[:1]
              for value in book.look(seen.picture).essential[-1:]],
        )
    )  # fmt: skip


@lru_cache(maxsize=KEPT)
def _steps(sort: str, anchor: str, below: bool) -> Bundle:
    sign = -1 if below else 1
    return Bundle(tuple((sign * step, f"Bea{sort}{anchor}{step}") for step in _STEPS[sort + anchor]))


def _side(place: Place, notes: _Notes) -> tuple[int, str]:
    """Which side is named next to the place (1 after, -1 before, 0 none), and whether ahead of it or behind it."""
    number = place.number
    if number.start > place.start:
        at = notes.last_side[number.start - 1]
        if at >= max(place.start, number.start - _AHEAD):
            return notes.sides[at], "a"
    found = bisect_left(notes.lies, number.end + 1)
    if found < len(notes.lies) and notes.lies[found] < min(number.end + _BEHIND, place.sentence.end):
        return _SIDES[notes.plains[notes.lies[found]]], "b"
    return 0, ""


def _neighbours(place: Place, step: int, side: str, screen: Sequence[Appearance]) -> Iterator[Hint]:
    """One more or one less, where that is what is named just before or behind the place ("one before it is nine", "eight
    comes before")."""
    book = place.book
    for seen in screen[:1]:
        picture = seen.picture
        shown = picture.marked[-1:] if isinstance(picture, SpanPicture) else book.look(picture).essential[-1:]
        for value in shown:
            yield value + step, named(f"Bek{side}s")
    for anchor, values in (("p", place.preceding[-1:]), ("P", place.preceding[-2:-1])):
        for value in values:
            yield value + step, named(f"Bek{side}{anchor}")
    for value in sorted(book.titles.get(place.segment, ()))[:1]:
        yield value + step, named(f"Bek{side}T")


def _bounds(place: Place, notes: _Notes, role: str) -> Iterator[Hint]:
    """The bounds that are named close by: what lies between them, and beside one of them."""
    book, index, bounds = place.book, place.index, notes.bounds
    low: list[int] = []
    high: list[int] = []
    for bound in range(bisect_left(bounds, index - 6), len(bounds)):
        at = bounds[bound]
        if at >= index + 5:
            break
        other = book.numbers[at]
        if at == index or not place.start <= other.start < place.end:
            continue
        if abs(book.sentence_of[at] - place.sentence_index) <= _ROUND:
            (low if notes.roles[at] in ("g", "a") else high).append(other.value)
    if not low and not high:
        return
    mine = "B" if role else "-"
    for name, values, step in (("l", low, 1), ("h", high, -1)):
        for value in dict.fromkeys(values[-2:]):
            yield value, named(f"Beb0{mine}")
            if not role:
                yield value + step, named(f"Beb1{name}")
    if low and high and 1 < high[-1] - low[-1] <= _CLOSE:
        for value in range(low[-1] + 1, high[-1]):
            yield value, named("Bebm")


def _choice(place: Place) -> Iterator[Hint]:
    """One of two to choose from ("nine or twelve? Twelve."): the answer is one of the two, and each of the two is likely
    to be the answer."""
    book, at = place.book, place.sentence_index
    before = place.said_beside(-1)
    if len(before) == 2 and not place.others and book.case.asks(book.case.sentences[at - 1]):
        first, _ = book.case.sentences_around(at, _ASKED, 0)
        for sentence in range(at - 1, first - 1, -1):
            most, least = book.says(sentence, _MOST), book.says(sentence, _LEAST)
            if most != least:
                yield (max if most else min)(before), named("Bex")
                break
        yield min(before), named("Bei")
    if len(place.others) == 1 and book.case.asks(place.sentence):
        behind = place.said_beside(1)
        if len(behind) == 1 and behind[0] != place.others[0].value:
            yield behind[0], named("Beq")


def _extreme(place: Place, faces: Sequence[int]) -> Iterator[Hint]:
    """The greatest or the least of the cards, where that is asked for."""
    book, at = place.book, place.sentence_index
    for sentence in (at, at - 1) if at else (at,):
        if book.says(sentence, _MOST):
            yield max(faces), named("Bemx")
        if book.says(sentence, _LEAST):
            yield min(faces), named("Bemi")
    used = {other.value for other in place.others[:6]}.union(place.said_beside(-1)[:6])
    rest = [face for face in faces if face not in used]
    if len(rest) <= 2 and len(rest) < len(faces):
        for value in rest:
            yield value, named("Bemr")


def _compared(place: Place, pair: tuple[int, int]) -> Iterator[Hint]:
    """The other bar than the one that was just named."""
    named_last = place.preceding[-1:] or place.following[:1]
    if named_last and named_last[0] in pair:
        sort = place.after.sort if place.after.sort in (".", ",", "0") else "x"
        yield pair[1 - pair.index(named_last[0])], named("Bec" + sort)
    if place.book.says(place.sentence_index, _MOST):
        yield max(pair), named("Becx")


def _count_ahead(place: Place, notes: _Notes) -> Iterator[Hint]:
    """The count that follows the place: where it starts, where it ends, how long it is."""
    said, first = place.book.said, place.index + 1
    last = min(notes.ends[first], first + _LONGEST - 1)
    manner = _manner(place, notes)
    link = place.book.links[place.index]
    far = "0" if link == "0" else "S" if link.startswith("S") else "x"
    if manner == "b" or (far == "0" and manner == "-"):
        yield 2 * said[first] - said[first + 1], named(f"Bes{manner}")
    if far != "0" or manner == "t":
        yield said[last], named(f"Bee{'t' if manner == 't' else far}")
    if manner != "h":
        return
    if far != "0":
        yield last - first + 1, named("Belh")
    if place.preceding:
        yield abs(said[last] - place.preceding[-1]), named("Bewh")


def _manner(place: Place, notes: _Notes) -> str:
    """How the words next to a place speak of a way: "b" it begins there, "t" it leads there, "h" so many hops."""
    if place.after.word in _HOPS:
        return "h"
    start = place.number.start
    ahead = notes.plains[max(place.sentence.start, start - _NEAR) : start]
    if ahead and ahead[-1] in _TO:
        return "t"
    if not _BEGIN.isdisjoint(ahead):
        return "b"
    return "t" if not _TO.isdisjoint(ahead) else "-"


def _hop(place: Place, notes: _Notes, screen: Sequence[Appearance]) -> Iterator[Hint]:
    """The next hop or the one that was just made: its start, its end, its length."""
    if notes.hops:
        at = place.book.moment_from(place.number.start + 1)
        found = bisect_left(notes.hops_at, at)
        if found < len(notes.hops) and (step := notes.hops_at[found]) < at + _SOON and _is_near(place, at, step, step):
            yield from _of_hop("n", _manner(place, notes), notes.hops[found])
        if found and (step := notes.hops_at[found - 1]) >= at - _SOON and _is_near(place, step, at - 1, step):
            yield from _of_hop("b", _manner(place, notes), notes.hops[found - 1])
    if place.preceding and screen:
        picture = screen[0].picture
        if isinstance(picture, SpanPicture) and picture.marked and (manner := _manner(place, notes)) in "ht":
            # a mark and the way to it: "from 12 to 15: three hops"
            yield abs(picture.marked[-1] - place.preceding[-1]), named(f"Bepm{manner}")


def _is_near(place: Place, first: int, last: int, farthest: int) -> bool:
    """Whether the picture steps from `first` to `last` belong to the segment and the farthest is not far away."""
    moments = place.book.case.stage.moments
    return abs(moments[farthest].word - place.number.start) <= _REACH and all(
        moments[at].direction.segment == place.segment for at in range(first, last + 1)
    )


def _of_hop(name: str, manner: str, hop: Hop) -> Iterator[Hint]:
    """The part of a hop that goes with the manner of the words; all of it where they tell nothing."""
    if manner in "b-":
        yield hop.start, named(f"Bep{name}s{manner}")
    if manner == "t" or (manner == "-" and name == "b"):
        yield hop.end, named(f"Bep{name}e{manner}")
    if manner in "ht" or (manner == "-" and name == "b"):
        yield abs(hop.end - hop.start), named(f"Bep{name}l{manner}")
