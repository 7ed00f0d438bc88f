"""A number that is alone in its direction, with those of the directions right before and after it: what they leave of the
numbers that are said next, and what they make together."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.shown.place import ShownPlace

_SAID = 4  # numbers
_SLOTS = 3


def find(place: ShownPlace) -> Iterable[Hint]:
    if place.mates:
        return ()
    book, name, now = place.book, place.slot.direction.name, place.after.start
    said = book.book.said[now : min(now + _SAID, place.after.stop)]
    found: list[Hint] = []
    for way, side in ((-1, "p"), (1, "n")):
        at = place.group + way
        if not 0 <= at < len(book.groups) or book.groups[at][0].direction.segment != place.segment:
            continue
        slots = book.groups[at]
        same = slots[0].direction.name == name
        if len(slots) > 1:
            found.append((sum(slot.value for slot in slots), _together(side, same, slots[0].kind)))
        if len(slots) > _SLOTS or (side == "p" and not same):
            continue  # another picture that was there before leaves hardly anything for this one
        for slot in slots:
            for value, (less, more) in zip(said, _of_sibling(side, same, slot.kind, slot.name), strict=False):
                found.append((abs(value - slot.value), less))
                if same and side == "n":
                    found.append((value + slot.value, more))
    return found


@lru_cache(maxsize=KEPT)
def _together(side: str, same: bool, kind: str) -> Bundle:
    return named(f"wb{side}{'=' if same else ''}:{kind}")


@lru_cache(maxsize=KEPT)
def _of_sibling(side: str, same: bool, kind: str, name: str) -> tuple[tuple[Bundle, Bundle], ...]:
    """What a number of another direction leaves of each number that is said next, and makes with it."""
    begin, behind = f"wb{side}{'=' if same else ''}", f":{kind}.{name}"
    return tuple((named(f"{begin}{rank}-{behind}"), named(f"{begin}{rank}+{behind}")) for rank in range(_SAID))
