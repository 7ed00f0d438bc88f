"""Equal groups as repeated addition (2.OA.C.4: up to five groups): "two lily pads, four frogs on each"."""

from __future__ import annotations

from studio.talk.stories.clauses import Quantity
from studio.talk.stories.readings import Asked, CannotTell, Reading, total

_MOST_GROUPS = 5


def _of_one(asked: Asked) -> list[Quantity]:
    """What any one has, where next is told how many of them there are, and what they have is asked for ("A dragonfly has four
    wings. Three dragonflies land. How many wings?")."""
    if len(asked.quantities) != 2 or len(asked.known) != 2:
        return []
    size, groups = asked.known
    fits = (
        size.of_any
        and not groups.more
        and groups.head in size.owner
        and groups.head not in size.nouns
        and bool(asked.question.nouns & (size.nouns | {size.head}))
    )
    return [size] if fits else []


def read(asked: Asked) -> Reading | None:
    """Equal groups put together; None where nothing is told of *each*."""
    known = asked.known
    if asked.question.each:
        raise CannotTell
    each = [quantity for quantity in known if quantity.each] or _of_one(asked)
    if not each:
        return None
    if len(known) != 2 or asked.question.more or asked.question.left or asked.question.difference:
        raise CannotTell
    if len(each) == 2:
        each = [known[1]]
    size = each[0]
    groups = known[0] if size is known[1] else known[1]
    if size.value is None or groups.value is None or not 2 <= groups.value <= _MOST_GROUPS:
        raise CannotTell
    asked_nouns = asked.question.nouns
    if asked_nouns and not asked_nouns & (size.nouns | {size.head}):
        raise CannotTell
    return total([size.value] * groups.value)
