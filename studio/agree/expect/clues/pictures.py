"""What is on the screen when the number is said, what was there before, what comes on next."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.expect.place import Place
from studio.agree.expect.roles import sort_of
from studio.agree.looks import essential, structure
from studio.agree.wording import spelled
from studio.pictures.kinds.word import Word

_PICTURES = 3
_SHOWN = 4  # numbers of the newest picture whose neighbours and digits are looked at


def find(place: Place) -> Iterator[tuple[int, str]]:
    book, number = place.book, place.number
    mates = {other.value for other in place.others[:6]}
    before, after = place.before.sort, place.after.sort
    before_word, after_word = place.before.word, place.after.word
    for rank, seen in enumerate(book.screen(number.start, number.start + 1)[:_PICTURES]):
        sort = sort_of(seen.picture)
        roles = book.roles(seen.picture)
        older = min(rank, 1)
        together = bool(mates) and any(value in mates for _, value in roles)
        for role, value in roles:
            yield value, f"pic{older}{sort}{role}"
            yield value, f"role{role}:{after}"
            yield value, f"rolp{role}:{before}"
            yield value, f"rw{role}:{after_word}"
            yield value, f"rb{role}:{before_word}"
            if together:
                yield value, "picc" + role
        made = f"str{older}{sort}"
        for value in structure(seen.picture):
            yield value, made
            yield value, "str:" + after
        if rank:
            continue
        for value in essential(seen.picture)[:_SHOWN]:
            for step in (1, -1, 10, -10):
                yield value + step, f"e{step}{sort}"
            if value > 9:
                yield value // 10, "edt" + after
                yield value % 10, "edo" + after
        if isinstance(seen.picture, Word) and place.after.word.startswith("letter"):
            for value in seen.picture.numbers:
                yield len(spelled(value).replace("-", "")), "letters"
        if seen.before is not None:
            for role, value in book.roles(seen.before):
                if role in ("tot", "dot", "cro"):
                    yield value, "bef" + role
