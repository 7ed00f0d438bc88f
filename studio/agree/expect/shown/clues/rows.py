"""Where the rows of a chart begin and end, around the number that it marks or that is said with it."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.expect.hints import Hint, named
from studio.agree.expect.shown.place import ShownPlace

_ROWS = 10  # of a chart


def find(place: ShownPlace) -> Iterator[Hint]:
    """Where the rows of a chart begin and end, around the number that it marks or that is said with it."""
    name = place.slot.name
    if place.slot.kind != "hundred chart" or name not in ("start", "end"):
        return
    marked = [mate.value for mate in place.mates if mate.name == "mark"]
    for rank, value in enumerate(marked or [place.book.book.said[index] for index in place.after[:2]]):
        row = (value - 1) // 10
        for step in range(_ROWS):
            found = 10 * (row - step) + 1 if name == "start" else 10 * (row + step) + 10
            if 0 < found <= 100:
                yield found, named(f"qr{rank}{step}{name}")
