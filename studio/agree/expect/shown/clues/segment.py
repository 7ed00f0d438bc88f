"""What the segment shows elsewhere and says most; its titles, topics and wholes."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.expect.hints import Bundle, Hint, named
from studio.agree.expect.place import Book
from studio.agree.expect.shown.place import ShownBook, ShownPlace

_OFTEN = 12  # numbers
_SHOWN = tuple(named(f"shown{count}") for count in range(5))


def around(place: ShownPlace) -> Iterator[Hint]:
    yield 0, _everywhere(place.book, place.segment)


def find(place: ShownPlace) -> Iterator[Hint]:
    """What the segment shows elsewhere; its topics and wholes with the other numbers of the direction."""
    case = place.book.book.case
    for value, count in place.book.most_shown(place.segment, place.value):
        if count:
            yield value, _SHOWN[min(count, 4)]
    for mate in place.mates[:2]:
        for value in case.topics.get(place.segment, ()):
            yield abs(value - mate.value), named("topm")
        for value in case.named_wholes.get(place.segment, ()):
            yield value - mate.value, named("wholem")


def _everywhere(book: ShownBook, segment: int) -> Bundle:
    """What points to all numbers of a segment alike."""
    kept = book.everywhere.get(segment)
    if kept is None:
        kept = book.everywhere[segment] = Bundle(tuple(_of_all(book.book, segment)))
    return kept


def _of_all(book: Book, segment: int) -> Iterator[tuple[int, str]]:
    case = book.case
    for value, count in case.times_said_in(segment).most_common()[:_OFTEN]:
        yield value, f"seg{min(count, 5)}"
    for value, count in book.most_said[:6]:
        yield value, f"all{min(count // 4, 4)}"
    for value in case.topics.get(segment, ()):
        yield value, "topic"
        if value > 9:
            yield value // 10, "topt"
            yield value % 10, "topo"
    for value in case.named_wholes.get(segment, ()):
        yield value, "wholes"
    for value in book.titles.get(segment, ()):
        yield value, "title"
    for value in book.headings:
        yield value, "heading"
