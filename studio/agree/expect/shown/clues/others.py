"""What other directions of the segment show."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.shown.place import ShownPlace
from studio.agree.expect.shown.steps import steps
from studio.script.model import Show

_EARLIER = 8  # numbers of directions
_LATER = 6


def find(place: ShownPlace) -> Iterator[Hint]:
    """What other directions of the segment show."""
    own = place.slot
    name = f"{own.kind}.{own.name}"
    groups = place.book.groups
    for way, most in ((-1, _EARLIER), (1, _LATER)):
        at, found, rank = place.group + way, 0, 0
        while 0 <= at < len(groups) and groups[at][0].direction.segment == place.segment and found < most:
            same = "=" if groups[at][0].direction.name == own.direction.name else ""
            side = f"{'p' if way < 0 else 'n'}{min(rank, 2)}{same}"
            changed = not isinstance(groups[at][0].direction, Show)
            close = bool(same) or rank < 2
            for slot in groups[at]:
                found += 1
                yield slot.value, _of_slot(side, slot.kind, slot.name, close, name)
                if close:
                    for mate in place.mates[:2]:
                        yield abs(slot.value - mate.value), named(f"g{side}-{mate.name}")
                        yield slot.value + mate.value, named(f"g{side}+{mate.name}")
                    if len(groups[at]) == 2:
                        one, other = (slot.value for slot in groups[at])
                        yield other + (other - one), named(f"g{side}go{int(changed)}")
                        yield abs(other - one), named(f"g{side}gap")
            if len(groups[at]) > 1:
                yield sum(slot.value for slot in groups[at]), named(f"g{side}sum")
            rank += 1
            at += way


@lru_cache(maxsize=KEPT)
def _of_slot(side: str, kind: str, name: str, close: bool, own: str) -> Bundle:
    """What a number of another direction is, where it stands and for what number it speaks (`own`)."""
    return Bundle(
        ((0, f"g{side}"), (0, f"g{side}:{kind}.{name}>{own}"), *steps(f"g{side}" if close else "", f">{own}"))
    )
