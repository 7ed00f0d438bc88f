"""What points to all numbers of a segment alike: its title and the titles of the lesson; what is said and shown in the segment
before and in the one after: a story that is told in one is drawn and written in the next."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.expect.hints import Bundle, Hint
from studio.agree.expect.place import Book, Place

_MOST = 40  # numbers of a segment


def find(place: Place) -> Iterator[Hint]:
    book = place.book
    kept = book.everywhere.get(place.segment)
    if kept is None:
        kept = book.everywhere[place.segment] = Bundle((*_titles(book, place.segment), *_beside(book, place.segment)))
    yield 0, kept


def _titles(book: Book, segment: int) -> Iterator[tuple[int, str]]:
    for value in book.titles.get(segment, ()):
        yield value, "title"
    for value in book.headings:
        yield value, "heading"


def _beside(book: Book, segment: int) -> Iterator[tuple[int, str]]:
    for way, side in ((-1, "p"), (1, "n")):
        for value, count in book.case.times_said_in(segment + way).most_common()[:_MOST]:
            yield value, f"xs{side}{min(count, 3)}"
        for value, count in book.shown_in(segment + way).most_common()[:_MOST]:
            yield value, f"xh{side}{min(count, 3)}"
