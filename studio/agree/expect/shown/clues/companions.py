"""What stands beside the other numbers of the direction in the sentences that follow and went before."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.shown.place import ShownPlace

_SENTENCES = 8
_OF_SENTENCE = 12  # numbers


def find(place: ShownPlace) -> Iterator[Hint]:
    """What stands beside the other numbers of the direction in the sentences that follow and went before."""
    mates = {mate.value for mate in place.mates}
    case = place.book.book.case
    if not place.slot.at < len(case.talk.words):
        return
    middle = case.sentence_index(place.slot.at)
    said = place.book.book.said_in_sentence
    for at in range(max(0, middle - 3), min(len(case.sentences), middle + _SENTENCES)):
        sentence = case.sentences[at]
        values = said[at][:_OF_SENTENCE]
        if sentence.segment != place.segment or not values:
            continue
        shared = len(mates.intersection(values))
        side = "n" if sentence.end > place.slot.at else "p"
        beside = _beside(side, min(shared, 3), min(len(mates), 3))
        for value in dict.fromkeys(values):
            if value not in mates:
                yield value, beside


@lru_cache(maxsize=KEPT)
def _beside(side: str, shared: int, mates: int) -> Bundle:
    return named(f"c{side}{shared}{mates}")
