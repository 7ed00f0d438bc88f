"""What is told by a picture near by in time: one that comes on or changes within the next sentences, that changed a
sentence ago, or that has just gone. Each of its numbers has a role ("start of the hop", "what was taken away", "beads of
the lower row", "what the unknown is"), and a role goes with certain words next to the number ("six *left*", "*from* six",
"six *hops*", "*up to* six")."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import NamedTuple

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.place import Book, Place, by_word
from studio.agree.looks import amount
from studio.pictures.base import Picture
from studio.pictures.kinds.text import Text
from studio.pictures.ringed import UnknownsPicture
from studio.script.model import (
    Add,
    ChangePicture,
    Circle,
    Clear,
    Count,
    Direction,
    FillIn,
    Hide,
    Hop,
    MarkNumber,
    Show,
    TakeAway,
    TurnOver,
)

_AHEAD = 5  # changes
_BEHIND = 3  # changes
_SENTENCES = 3
REACH_IN_WORDS = 60
_CHAIN = 12  # hops
_SAME = {
    "tot": "ft rtot tt bv kv mv ww pm ds", "par": "fd fc ru rl vu vl wa wb sl0+ sl1+ sl1- sl2+ da db", "sum": "sr0+",
}  # fmt: skip
_ROLES = by_word(_SAME)
"""The roles of parts of a picture that comes on; parts that are told with the same words have one role. Of other parts
nothing is said before they are seen."""
_CUES: tuple[tuple[str, frozenset[str]], ...] = tuple(
    (name, frozenset(words.split()))
    for name, words in (
        ("hop", "hop hops step steps jump jumps leap leaps slide slides stride strides"),
        ("awa", "left remain remains stay stays stayed still keep keeps away gone off lose leave leaves go goes fly flew swam "
                "took takes take lost ate eaten minus"),
        ("mor", "more add another extra join joined joins come came arrive arrived plus"),
        ("thi", "empty gap gaps space spaces missing short needs need room ten tens bundle bundles row rows stick sticks "
                "rod rods group groups one ones single singles loose"),
        ("ups", "up forward along on until till reach reaches reached"),
        ("fro", "back down backwards"),
    )
)  # fmt: skip
_TELLING = {
    "bamt": "mor awa", "bfil": "ans mor", "bhop": "hop mor", "bres": "ans ups", "brin": "ans", "bwas": "ans fro",
    "jamt": "mor awa", "jhop": "hop", "jpar": "mor awa fro", "jrin": "ans", "jsum": "ans ups", "jtot": "ans awa que ups",
    "jwas": "ans fro ups", "jfil": "ans",
}  # fmt: skip
"""The cues that go with a role, for what is behind ("b") and what is to come ("j")."""
_REACH = 2  # words next to the number in which a cue is looked for


class Turn(NamedTuple):
    """A picture that comes on, changes or goes: the word at which it does, its sentence, how many things there
    were, the picture that it leads to, what it tells."""

    at: int
    sentence: int
    segment: int
    sort: str
    change: object | None
    there: int | None
    picture: Picture | None
    roles: tuple[tuple[str, int], ...]


def turns(book: Book) -> list[Turn]:
    """Everything that happens to the pictures of a lesson, in order, each direction once."""
    return list(_in_order(book))


def _starts(book: Book) -> list[int]:
    return [turn.at for turn in book.once(turns)]


def near(place: Place) -> Iterator[tuple[str, Turn]]:
    """What happens around a place, the nearest first: "i" behind the number in its sentence, "j" in the next, "k"
    later, "h" before the number in its sentence, "g" in the sentence before."""
    every, starts = place.book.once(turns), place.book.once(_starts)
    word, here = place.number.start, place.sentence_index
    first = bisect_left(starts, word + 1)
    for turn in every[first : first + _AHEAD]:
        if turn.segment != place.segment or turn.at > word + REACH_IN_WORDS or turn.sentence > here + _SENTENCES:
            break
        yield "i" if turn.sentence == here else "j" if turn.sentence == here + 1 else "k", turn
    for turn in reversed(every[max(0, first - _BEHIND) : first]):
        if turn.segment != place.segment or turn.at < word - REACH_IN_WORDS or turn.sentence < here - 1:
            break
        yield "h" if turn.sentence == here else "g", turn


def find(place: Place) -> Iterator[Hint]:
    cue = _cue(place)
    seen: set[tuple[str, int, str]] = set()
    for when, turn in near(place):
        behind = when in "hg"
        if turn.sort == ("s" if behind else "c"):
            continue  # it is on the screen: other clues tell what it shows
        side = "b" if behind else "j"
        for role, value in turn.roles:
            key = (role, value, side)
            if key not in seen and (when, role) != ("k", "fil"):  # an answer that is long to come is not said yet
                seen.add(key)
                yield value, _bundle(side, when, role, cue)


@lru_cache(maxsize=KEPT)
def _bundle(side: str, when: str, role: str, cue: str) -> Bundle:
    """When it happens with the role; and the role with the words around the number, if these go together."""
    base = f"Tc{role}" if role in ("gon", "lit") else f"Tc{'j' if when == 'i' else when}{role}"
    return named(base, f"Tcw{side}{role}{cue}") if cue in _TELLING.get(side + role, "") else named(base)


def _cue(place: Place) -> str:
    """What the words around the number are about; else what it follows; else what its sentence is."""
    words, number, sentence = place.book.words, place.number, place.sentence
    after = {words[at].plain for at in range(number.end, min(number.end + _REACH, sentence.end))}
    before = {words[at].plain for at in range(max(sentence.start, number.start - _REACH), number.start)}
    for said in (after, before):
        for name, cues in _CUES:
            if not cues.isdisjoint(said):
                return name
    if "from" in before or "at" in before:
        return "fro"
    if "to" in before:
        return "ups"
    if sentence.end - sentence.start - (number.end - number.start) <= 1:
        return "ans"
    if "?" in words[sentence.end - 1].text:
        return "que"
    return "oth"


def _in_order(book: Book) -> Iterator[Turn]:
    case = book.case
    if case.lesson is None:
        return
    shown: dict[int, Picture] = {}  # what a direction leads to, by its identity
    for moment in case.stage.moments:
        if moment.picture is not None:
            shown[id(moment.direction)] = moment.picture
    on: dict[str, Picture] = {}
    # Worked out, since a count that does not fit what is said is not drawn to its end.
    there: dict[str, int | None] = {}
    directions = case.lesson.directions
    for index, direction in enumerate(directions):
        change: object | None = None
        after: Picture | None = None
        many: int | None = None
        match direction:
            case Clear():
                sort, roles = "c", tuple(_gone(book, on.values()))
                on.clear()
            case Hide(name=name):
                sort, roles = "c", tuple(_gone(book, [on.pop(name)] if name in on else []))
            case Show(name=name) | ChangePicture(name=name):
                before = on.get(name)
                after = shown.get(id(direction), before if isinstance(direction, ChangePicture) else None)
                if after is None or isinstance(after, Text):
                    continue
                on[name] = after
                if isinstance(direction, ChangePicture):
                    sort, change, many = "x", direction.change, there.get(name)
                    roles = (*_changes(change, many, before), *_chain(directions, index, name))
                    there[name] = _then(many, change)
                else:
                    sort, roles = "s", tuple(_shows(book, after))
                    there[name] = amount(after)
            case _:
                continue
        sentence = case.sentence_index(direction.at)
        yield Turn(direction.at, sentence, direction.segment, sort, change, many, after, tuple(dict.fromkeys(roles)))


def _then(there: int | None, change: object) -> int | None:
    """How many things there are after a change."""
    match change:
        case Add(count=count) if there is not None:
            return there + count
        case TakeAway(count=count) if there is not None:
            return there - count
        case _:
            return there


def _gone(book: Book, pictures: Iterable[Picture]) -> Iterator[tuple[str, int]]:
    """What pictures that have just gone were there to show."""
    for picture in list(pictures)[-2:]:
        for value in book.look(picture).essential[:3]:
            yield "gon", value


def _shows(book: Book, picture: Picture) -> Iterator[tuple[str, int]]:
    for part, value in book.parts(picture):
        role = _ROLES.get(part)
        if role is not None:
            yield role, value


def _changes(change: object, there: int | None, before: Picture | None) -> Iterator[tuple[str, int]]:
    """What a change tells of a picture with so many things."""
    match change:
        case Add(count=count) | TakeAway(count=count):
            yield "amt", count
            then = _then(there, change)
            if there is not None and then is not None:
                yield "was", there
                yield "res", then
        case Hop(start=start, end=end):
            yield "was", start
            yield "res", end
            yield "hop", abs(end - start)
        case FillIn(value=value):
            yield from (("fil", answer) for answer in _filled(value, before))
        case Circle(value=value) | TurnOver(value=value) | MarkNumber(value=value):
            yield "rin", value
        case Count(by=by):
            if there is not None:
                yield "lit", there
                yield "lit", there // by
        case _:
            return


def _filled(value: int | None, before: Picture | None) -> tuple[int, ...]:
    """What is filled in: what is given, else what fits."""
    if value is not None:
        return (value,)
    return before.answers if isinstance(before, UnknownsPicture) else ()


def _chain(directions: tuple[Direction, ...], index: int, name: str) -> Iterator[tuple[str, int]]:
    """What several hops on end come to, told with the first of them."""
    hops: list[Hop] = []
    for direction in directions[index : index + 2 * _CHAIN]:
        if isinstance(direction, ChangePicture) and direction.name == name and isinstance(direction.change, Hop):
            if hops and direction.change.start != hops[-1].end:
                break
            hops.append(direction.change)
        elif isinstance(direction, Show | Clear | Hide):
            break
    if len(hops) > 1:
        yield "res", hops[-1].end
