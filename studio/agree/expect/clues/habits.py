"""Numbers that are said of many things whatever the lesson is about: nought, one, two, five and ten."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.expect.place import Place

_COMMON = (0, 1, 2, 5, 10)


def find(place: Place) -> Iterator[tuple[int, str]]:
    before, after = place.before.sort, place.after.sort
    for value in _COMMON:
        yield value, f"b{value}"
        yield value, f"b{value}n{after}"
        yield value, f"b{value}p{before}"
