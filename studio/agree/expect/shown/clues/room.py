"""How far a path, a line or a chart reaches: as far as all that is marked, hopped or said on it, to a round number, or as
far as other such pictures of the lesson."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.shown.place import ShownBook, ShownPlace
from studio.script.model import Circle, Hop, MarkNumber, Show, Span

_LENGTHS = {
    "hundred chart": (19, 29, 39, 49, 99),
    "number path": (5, 8, 9, 10, 12, 20),
    "number line": (10, 12, 15, 20, 40),
}
"""The usual lengths of each kind."""
_BEGINNINGS = (0, 1)


def find(place: ShownPlace) -> Iterable[Hint]:
    show, name = place.slot.direction, place.slot.name
    if name not in ("start", "end") or not isinstance(show, Show) or not isinstance(show.details, Span):
        return ()
    return _reach(place, show.details, name == "start")


def _reach(place: ShownPlace, span: Span, first: bool) -> Iterator[Hint]:
    slot, book = place.slot, place.book.book
    yield from _around_all(_held(place, span), "h", slot.kind, first)
    said = [book.said[at] for at in place.after if book.numbers[at].start < place.until]
    yield from _around_all(said, "s", slot.kind, first)
    mate = span.end if first else span.start
    yield mate, _far(slot.kind, first)
    if first:
        yield 0, _begins(slot.kind)
    if span.mark is not None:
        yield 2 * span.mark - mate, named(f"rmmid{slot.name}")
    yield from _as_others(place, first)


def _held(place: ShownPlace, span: Span) -> list[int]:
    """The numbers that are marked or ringed on the picture, and where hops start and end."""
    found = [] if span.mark is None else [span.mark]
    for change in place.book.courses.later(place.slot.direction):
        match change.change:
            case Hop(start=start, end=end):
                found += (start, end)
            case MarkNumber(value=value) | Circle(value=value):
                found.append(value)
    return found


def _around_all(held: Sequence[int], source: str, kind: str, first: bool) -> Iterator[Hint]:
    """The numbers near the least of all (for a start) or the greatest, and the next round ones."""
    if not held:
        return
    edge = min(held) if first else max(held)
    itself, by_five, by_ten, beyond = _near(source, kind, first)
    yield edge, itself
    if first:
        yield edge // 5 * 5, by_five
        yield edge // 10 * 10, by_ten
        yield (edge - 1) // 10 * 10 + 1, beyond
    else:
        yield -(-edge // 5) * 5, by_five
        yield -(-edge // 10) * 10, by_ten
        yield edge // 10 * 10 + 10, beyond


@lru_cache(maxsize=KEPT)
def _near(source: str, kind: str, first: bool) -> tuple[Bundle, Bundle, Bundle, Bundle]:
    begin = f"rm{source}{'<' if first else '>'}"
    way = -1 if first else 1
    near = Bundle(((0, f"{begin}0:{kind}"), *((way * step, f"{begin}{step}") for step in (1, 2, 3))))
    return near, named(f"{begin}five:{kind}"), named(f"{begin}ten:{kind}"), named(f"{begin}next ten:{kind}")


@lru_cache(maxsize=KEPT)
def _far(kind: str, first: bool) -> Bundle:
    """The usual lengths, from the other end."""
    way = -1 if first else 1
    return Bundle(tuple((way * length, f"rml{way * length:+}:{kind}") for length in _LENGTHS.get(kind, ())))


@lru_cache(maxsize=KEPT)
def _begins(kind: str) -> Bundle:
    return Bundle(tuple((value, f"rmb{value}:{kind}") for value in _BEGINNINGS))


def _as_others(place: ShownPlace, first: bool) -> Iterator[Hint]:
    """The same end of the nearest other pictures of the sort, and the one that most others have."""
    spans, kind, name = place.book.spans, place.slot.kind, place.slot.name
    at = bisect_left(spans, place.group, key=lambda span: span[0])
    for way, side in ((-1, "p"), (1, "n")):
        if 0 <= at + way < len(spans):
            _, show, span = spans[at + way]
            same = "=" if show.kind == kind else ""
            here = "h" if show.segment == place.segment else ""
            yield span.start if first else span.end, named(f"rmo{side}{same}{here}{name}")
    most = _most_often(place, first)
    if most is not None:
        yield most, named(f"rmm{name}:{kind}")


def _most_often(place: ShownPlace, first: bool) -> int | None:
    """The most frequent of the other pictures' ends. The one of the place counts once less: only it or the next to it can
    come out on top."""
    kept = _two_of(place.book)[first, place.slot.kind]
    best = [(count - (value == place.value), -value) for value, count in kept]
    count, value = max(best)
    return -value if count else None


def _two_of(book: ShownBook) -> dict[tuple[bool, str], list[tuple[int, int]]]:
    """For starts and ends of each kind the two that occur most, with how often."""
    kept = book.most_spans
    if not kept:
        found: dict[tuple[bool, str], Counter[int]] = {}
        for _, show, span in book.spans:
            found.setdefault((True, show.kind), Counter())[span.start] += 1
            found.setdefault((False, show.kind), Counter())[span.end] += 1
        for key, times in found.items():
            kept[key] = sorted(times.items(), key=lambda pair: (-pair[1], pair[0]))[:2]
    return kept
