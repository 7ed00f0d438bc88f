"""What a picture is made of, each part by its name and by the thing that is named with the number: full rows and what is
over, the first frame and the second, bundles, cards, hops ("two full frames", "five on the top row", "four cards")."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.place import Place

_THINGS = frozenset(
    """frame frames row rows bundle bundles group groups card cards die dice stick sticks rod rods block blocks square
    squares ten tens one ones single singles loose hop hops jump jumps step steps box boxes space spaces place places spot
    spots empty bar bars part parts bead beads mark marks line lines dot dots cross crosses hand hands finger fingers
    pair pairs side sides top bottom upper lower first second last other left right full more digit digits letters over
    end start""".split()
)
_AFTER = 4
_BEFORE = 5
"""Words after a number and before it in which the thing may be named."""
_PICTURES = 2


def find(place: Place) -> Iterator[Hint]:
    book, number = place.book, place.number
    seen = book.screen(number.start, number.start + 1)[:_PICTURES]
    if not seen:
        return
    words = book.words
    after = next((words[at].plain for at in range(number.end, min(number.end + _AFTER, place.sentence.end))
                  if words[at].plain in _THINGS), "")  # fmt: skip
    before = next((words[at].plain for at in range(number.start - 1, max(number.start - _BEFORE, place.sentence.start) - 1, -1)
                   if words[at].plain in _THINGS), "")  # fmt: skip
    for rank, appearance in enumerate(seen):
        for part, value in book.parts(appearance.picture):
            yield value, _made(rank, part, after, before)


@lru_cache(maxsize=KEPT)
def _made(rank: int, part: str, after: str, before: str) -> Bundle:
    with_things = [f"md{part}:{after}"] if after else []
    if before:
        with_things.append(f"mb{part}:{before}")
    return named(f"md{rank}{part}", *with_things)
