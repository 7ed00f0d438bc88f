"""Numbers that are said of many things whatever the lesson is about: nought, one, two, five and ten."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint
from studio.agree.expect.place import Place

_COMMON = (0, 1, 2, 5, 10)


def find(place: Place) -> Iterator[Hint]:
    yield 0, _habits(place.before.sort, place.after.sort)


@lru_cache(maxsize=KEPT)
def _habits(before: str, after: str) -> Bundle:
    return Bundle(
        tuple((value, name) for value in _COMMON for name in (f"b{value}", f"b{value}n{after}", f"b{value}p{before}"))
    )
