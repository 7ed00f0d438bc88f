"""A count that is said with the direction: where it ends, how long it is, what was there before it. And what is missing to
the numbers that are said with the direction and with later changes of the picture."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.shown.courses import difference
from studio.agree.expect.shown.place import ShownPlace
from studio.script.model import Add, Amount, Count, Hop, Marks, NumberList, Show, TakeAway

_STARTS = 3  # numbers with which the count may begin
_CHANGES = 4
_SOON = 25  # words
_HEAPS = ("dice", "rekenrek")
"""Kinds with a list of numbers that belong together."""


def find(place: ShownPlace) -> Iterator[Hint]:
    slot, direction, course = place.slot, place.slot.direction, place.book.courses
    if isinstance(direction, Show):
        if _total(direction) is not None:
            what = f":{slot.kind}.{slot.name}"
            yield from _with_run(place, what, 3)
            yield from _with_changes(place, sum(mate.value for mate in place.mates), 1, what)
        return
    change = direction.change
    if not isinstance(change, Add | TakeAway | Hop | Count):
        return
    counting = "c" if isinstance(change, Count) or change.counting else ""
    what = f"{counting}:{slot.kind}.{slot.name}"
    yield from _with_run(place, what, 2)
    if isinstance(change, Add | TakeAway):
        show = course.show(direction)
        total = None if show is None else _total(show)
        if total is not None:
            rest = total + sum(map(difference, course.earlier(direction)))
            sign = -1 if isinstance(change, TakeAway) else 1
            yield from _with_said(place, rest, sign, what)
            yield from _with_changes(place, rest, sign, what)


def _with_run(place: ShownPlace, what: str, least: int) -> Iterator[Hint]:
    """The end, the length and the beginning of the first count that is said; it has at least so many numbers."""
    change = getattr(place.slot.direction, "change", None)
    for rank, at in enumerate(place.after[:_STARTS]):
        run = place.book.run(at)
        if run.length >= least:
            end, length, before, step = _of_run(rank, run.length > 2, what)
            yield run.end, end
            yield run.length, length
            if isinstance(change, Hop):
                yield place.book.book.said[at] - run.step, before
            if isinstance(change, Count):
                yield abs(run.step), step
            return


def _total(show: Show) -> int | None:
    """How many there are in a picture of things."""
    match show.details:
        case Marks(dots=dots, crosses=crosses):
            return dots + crosses
        case Amount(value=value):
            return value
        case NumberList(values=values) if show.kind in _HEAPS:
            return sum(values)
        case _:
            return None


def _with_said(place: ShownPlace, rest: int, sign: int, what: str) -> Iterator[Hint]:
    """What is missing to the numbers that are said when more come or some go: `rest` are there without."""
    names = _of_said(what)
    for rank, at in enumerate(place.after[:_STARTS]):
        yield sign * (place.book.book.said[at] - rest), names[rank]
        if not rank and place.book.run(at).length > 1:
            yield sign * (place.book.run(at).end - rest), names[_STARTS]


def _with_changes(place: ShownPlace, rest: int, sign: int, what: str) -> Iterator[Hint]:
    """What is missing to the topic, and to the numbers said with the next changes of the picture: all but those of the
    place are `rest`, and then as many as the changes make of them."""
    book, direction = place.book, place.slot.direction
    topics = book.topics(place.segment) if rest else ()
    changes = book.courses.later(direction)[:_CHANGES]
    if not topics and not changes:
        return
    topic, begins, ends, *said = _of_changes(what)
    for whole in topics:
        yield sign * (whole - rest), topic
    for change in changes:
        if not difference(change):
            continue
        at = bisect_left(book.starts, change.at)
        if at < len(book.starts) and book.starts[at] < min(place.end, change.at + _SOON):
            run = book.run(at)
            if run.length > 1:
                yield sign * (book.book.said[at] - run.step - rest), begins
                yield sign * (run.end - rest - difference(change)), ends
            for value, name in zip(book.book.said[at : at + len(said)], said, strict=False):
                yield sign * (value - rest - difference(change)), name
        rest += difference(change)


@lru_cache(maxsize=KEPT)
def _of_run(rank: int, long: bool, what: str) -> tuple[Bundle, Bundle, Bundle, Bundle]:
    return (
        named(f"rne{rank}{long:d}{what}"),
        named(f"rnl{rank}{long:d}{what}"),
        named(f"rnb{rank}{long:d}{what}"),
        named(f"rns{what}"),
    )


@lru_cache(maxsize=KEPT)
def _of_said(what: str) -> tuple[Bundle, ...]:
    return tuple(named(f"re{name}{what}") for name in (*(f"d{rank}" for rank in range(_STARTS)), "run"))


@lru_cache(maxsize=KEPT)
def _of_changes(what: str) -> tuple[Bundle, ...]:
    return tuple(named(f"re{name}{what}") for name in ("t", "cb", "ce", "c0", "c1"))
