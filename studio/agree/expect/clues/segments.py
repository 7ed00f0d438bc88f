"""What is said and shown in the segment before and in the one after: a story that is told in one is drawn and written in the
next."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.expect.place import Place


def find(place: Place) -> Iterator[tuple[int, str]]:
    book = place.book
    for way, side in ((-1, "p"), (1, "n")):
        segment = place.segment + way
        for value, count in book.case.times_said_in(segment).items():
            yield value, f"xs{side}{min(count, 3)}"
        for value, count in book.shown_in(segment).items():
            yield value, f"xh{side}{min(count, 3)}"
