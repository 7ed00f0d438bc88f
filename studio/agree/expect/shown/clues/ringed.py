"""The number that is ringed, marked or turned over: what is missing from the last one, or from one that is said, to the whole
that the segment is about; the next in order; what pairs before made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from studio.agree.expect.hints import Bundle, Hint, named
from studio.agree.expect.shown.place import ShownPlace
from studio.script.model import ChangePicture, Circle, Hop, MarkNumber, NumberList, Show, TurnOver

_AFTER = 3  # numbers
_BEFORE = 3
_CHOSEN = Circle | TurnOver | MarkNumber
_NEXT = {
    name: Bundle(tuple((step, f"ri{step:+}:{name}") for step in (1, -1, 2, -2, 5, -5, 10, -10)))
    for name in ("ring", "turn over", "mark")
}


def find(place: ShownPlace) -> Iterable[Hint]:
    direction = place.slot.direction
    if not isinstance(direction, ChangePicture) or not isinstance(direction.change, _CHOSEN):
        return ()
    return _chosen(place, direction)


def _chosen(place: ShownPlace, direction: ChangePicture) -> Iterator[Hint]:
    name, said = place.slot.name, place.book.book.said
    earlier = place.book.courses.earlier(direction)
    chosen = [change.change.value for change in earlier if isinstance(change.change, _CHOSEN)]
    for whole in place.book.topics(place.segment):
        for rank, at in enumerate(place.after[:_AFTER]):
            yield whole - said[at], named(f"ria{rank}:{name}")
        for rank, at in enumerate(place.before[:_BEFORE]):
            yield whole - said[at], named(f"rib{rank}:{name}")
        if chosen:
            yield whole - chosen[-1], named(f"riw{len(chosen) % 2}:{name}")
    if chosen:
        yield from _after_others(chosen, name)
    show = place.book.courses.show(direction)
    if show is not None and isinstance(show.details, NumberList):
        yield from _in_order(show.details.values, chosen, name)
    yield from _hopped(place, direction, show, name)


def _after_others(chosen: Sequence[int], name: str) -> Iterator[Hint]:
    """How it goes on from the last numbers that were chosen."""
    yield chosen[-1], _NEXT[name]
    if len(chosen) > 1:
        yield 2 * chosen[-1] - chosen[-2], named(f"ristep:{name}")
    pairs = len(chosen) // 2
    if pairs and len(chosen) % 2:
        sums = {chosen[2 * at] + chosen[2 * at + 1] for at in range(pairs)}
        if len(sums) == 1:
            yield sums.pop() - chosen[-1], named(f"ripair{min(pairs, 2)}:{name}")


def _in_order(values: Sequence[int], chosen: Sequence[int], name: str) -> Iterator[Hint]:
    """The next card beside the last that was chosen, the one across, the first and the last that were not."""
    left = [value for value in values if value not in chosen]
    if left:
        yield left[0], named(f"rifirst{min(len(chosen), 2)}:{name}")
        yield left[-1], named(f"rilast{min(len(chosen), 2)}:{name}")
        if len(left) == 1:
            yield left[0], named(f"rionly:{name}")
    if chosen and chosen[-1] in values:
        at = values.index(chosen[-1])
        for way, side in ((1, ">"), (-1, "<")):
            if 0 <= at + way < len(values):
                yield values[at + way], named(f"ri{side}:{name}")
        yield values[-1 - at], named(f"rix{len(chosen) % 2}:{name}")


def _hopped(place: ShownPlace, direction: ChangePicture, show: Show | None, name: str) -> Iterator[Hint]:
    """Where the last hop ended, where the next begins, what was marked when the picture came."""
    courses = place.book.courses
    for change in reversed(courses.earlier(direction)):
        if isinstance(change.change, Hop):
            yield change.change.end, named(f"rihop<:{name}")
            break
    for change in courses.later(direction):
        if isinstance(change.change, Hop):
            yield change.change.start, named(f"rihop>:{name}")
            break
    mark = getattr(show.details, "mark", None) if show is not None else None
    if mark is not None:
        yield mark, named(f"rimark:{name}")
