"""Changes of pictures with the words: how many are added or taken, where a hop starts and ends, the next step of a
count, a picture that is about to come on."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator

from studio.agree.expect.hints import Hint, named
from studio.agree.expect.place import Place
from studio.script.model import Hop, Show, TakeAway
from studio.stage.model import Moment

_COMING = 4  # picture steps
_LATER = 30  # picture steps
_SOME_TIME = 90  # words
_DRAWINGS = 2
_GONE = 20  # picture steps
_SOON = 12  # words


def find(place: Place) -> Iterator[Hint]:
    book, number, sentence = place.book, place.number, place.sentence
    moments = book.case.stage.moments
    at = bisect_left(book.case.moment_words, number.start + 1)
    for moment in moments[at : at + _COMING]:
        if moment.direction.segment != place.segment or moment.word >= sentence.end + _SOON:
            break
        when = "i" if moment.word < sentence.end else "j" if moment.word <= sentence.end + 1 else "k"
        if moment.picture is not None and not moment.counted:
            for role, value in book.look(moment.picture).roles:
                yield value, named(f"next{when}{role}")
        for value, what in _amounts(moment):
            yield value, named(f"chn{when}:{what}")
    yield from _drawn_later(place, at)
    begin = bisect_left(book.case.moment_words, sentence.start - 1)
    for moment in moments[max(begin, at - _GONE) : at]:
        if not moment.counted:
            for value, what in _amounts(moment):
                yield value, named("chb:" + what)
    yield from _in_all(place, at)


def _in_all(place: Place, at: int) -> Iterator[Hint]:
    """What several changes come to: the picture shows in two steps what is told in one ("6 more come", drawn as 1 and 5;
    "go down 6", hopped as 4 and 2)."""
    book = place.book
    moments = book.case.stage.moments
    earlier = (moments[index] for index in range(at - 1, max(-1, at - _GONE), -1))
    for side, ways in (("n", iter(moments[at : at + _GONE])), ("b", earlier)):
        seen: set[int] = set()
        amounts: list[int] = []
        for moment in ways:
            direction = moment.direction
            if direction.segment != place.segment or abs(moment.word - place.number.start) > _SOME_TIME:
                break
            change = getattr(direction, "change", None)
            if change is None:  # another picture, or none
                break
            if id(direction) in seen:
                continue
            seen.add(id(direction))
            amount = change.end - change.start if isinstance(change, Hop) else getattr(change, "count", None)
            if not isinstance(amount, int):
                continue
            amounts.append(-amount if isinstance(change, TakeAway) else amount)
            if isinstance(change, Hop):
                yield change.end, named(f"end{side}{min(len(amounts), 3)}")
            if len(amounts) > 1:
                yield abs(sum(amounts)), named(f"sum{side}{min(len(amounts), 3)}")
            yield len(amounts), named(f"many{side}")


def _drawn_later(place: Place, at: int) -> Iterator[Hint]:
    """What the next pictures of the segment show when they come on: a story is told before it is drawn."""
    book, number = place.book, place.number
    found = 0
    for moment in book.case.stage.moments[at : at + _LATER]:
        if moment.direction.segment != place.segment or moment.word > number.start + _SOME_TIME or found == _DRAWINGS:
            return
        if not isinstance(moment.direction, Show) or moment.picture is None:
            continue
        found += 1
        for role, value in book.look(moment.picture).roles:
            if role not in ("emp", "vis"):
                yield value, named(f"later{found}{role}")


def _amounts(moment: Moment) -> Iterator[tuple[int, str]]:
    change = getattr(moment.direction, "change", None)
    if change is None:
        return
    if isinstance(change, Hop):
        yield abs(change.end - change.start), "hops"
    for name in ("count", "value", "start", "end"):
        value = getattr(change, name, None)
        if isinstance(value, int):
            yield value, type(change).__name__ if name in ("count", "value") else name
            if name == "count" and value % 10 == 0:
                yield value // 10, "tens"  # "two sticks more"
