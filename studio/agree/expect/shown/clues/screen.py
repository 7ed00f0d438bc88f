"""What the picture is before the direction changes it, and other pictures that stay on."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.shown.place import ShownPlace

_Pairs = tuple[tuple[Bundle, Bundle], ...]


def around(place: ShownPlace) -> Iterator[Hint]:
    """What the picture is before the direction changes it, and other pictures that stay on."""
    book = place.book.book
    for seen in book.screen(max(0, place.slot.at - 1), place.slot.at)[:3]:
        side = "=" if seen.moment.name == place.slot.direction.name else ""
        for role, value in book.look(seen.picture).roles:
            there, with_after = _on(side, role)
            yield value, there
            if side:
                for index, (less, more) in zip(place.after, with_after, strict=False):
                    yield abs(book.said[index] - value), less
                    yield book.said[index] + value, more


@lru_cache(maxsize=KEPT)
def _on(side: str, role: str) -> tuple[Bundle, _Pairs]:
    """The clues of a number on the screen: by itself; taken from and added to the next numbers that are said."""
    return named(f"on{side}{role}"), tuple((named(f"on{rank}-{role}"), named(f"on{rank}+{role}")) for rank in range(3))
