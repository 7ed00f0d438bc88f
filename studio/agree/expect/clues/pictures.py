"""What is on the screen when the number is said, what was there before, what comes on next."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.place import Place, Side
from studio.agree.wording import spelled
from studio.pictures.kinds.word import Word

_PICTURES = 3
_SHOWN = 4  # numbers of the newest picture whose neighbours and digits are looked at


def find(place: Place) -> Iterator[Hint]:
    book, number = place.book, place.number
    mates = {other.value for other in place.others[:6]}
    before, after = place.before, place.after
    for rank, seen in enumerate(book.screen(number.start, number.start + 1)[:_PICTURES]):
        sort, roles, essential, structure = book.look(seen.picture)
        older = min(rank, 1)
        together = bool(mates) and any(value in mates for _, value in roles)
        for role, value in roles:
            yield value, _shown(older, sort, role, together, before, after)
        made = named(f"str{older}{sort}", "str:" + after.sort)
        for value in structure:
            yield value, made
        if rank:
            continue
        for value in essential[:_SHOWN]:
            yield value, _near(sort)
            if value > 9:
                yield value // 10, named("edt" + after.sort)
                yield value % 10, named("edo" + after.sort)
        if isinstance(seen.picture, Word) and after.word.startswith("letter"):
            for value in seen.picture.numbers:
                yield len(spelled(value).replace("-", "")), named("letters")
        if seen.before is not None:
            for role, value in book.look(seen.before).roles:
                if role in ("tot", "dot", "cro"):
                    yield value, named("bef" + role)


@lru_cache(maxsize=KEPT)
def _shown(older: int, sort: str, role: str, together: bool, before: Side, after: Side) -> Bundle:
    """What a number of a picture is in it, with the words next to the place; `together`: another number of the sentence
    is in the picture, too."""
    with_mates = ["picc" + role] if together else []
    return named(
        f"pic{older}{sort}{role}",
        f"role{role}:{after.sort}",
        f"rolp{role}:{before.sort}",
        f"rw{role}:{after.word}",
        f"rb{role}:{before.word}",
        *with_mates,
    )


@lru_cache(maxsize=KEPT)
def _near(sort: str) -> Bundle:
    return Bundle(tuple((step, f"e{step}{sort}") for step in (1, -1, 10, -10)))
