"""What is asked of a picture and answered by what follows from its numbers in one step: then they need not be said themselves
("[show rekenrek: 7 and 2] Tell me how many beads there are on both wires. Nine.")."""

from __future__ import annotations

from itertools import pairwise

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.looks import answer_of, relation
from studio.pictures.base import Picture
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.pictures.marks import MarkPicture
from studio.pictures.spans import SpanPicture
from studio.script.model import Show

_SENTENCES = 3
_ASKS = frozenset("how what which where who".split())


def told_with(case: Case, appearance: Appearance) -> tuple[Sentence, ...]:
    """The sentence with which a picture comes on, and the next ones."""
    first, last = case.sentences_around(case.sentence_index(appearance.moment.word), 0, _SENTENCES)
    return case.sentences[first : last + 1]


def is_worked_out(case: Case, appearance: Appearance) -> bool:
    """Whether one of the sentences with which a picture comes on asks, and the next is answered with one number that follows from it."""
    follows = _follows(appearance.picture) if isinstance(appearance.moment.direction, Show) else set()
    if not follows:
        return False
    return any(
        len(answer.values) == 1
        and answer.values[0] in follows
        and (case.asks(question) or case.has_word(question, _ASKS))
        for question, answer in pairwise(told_with(case, appearance))
    )


def _follows(picture: Picture) -> set[int]:
    """What follows in one step: what is empty in a frame, what is asked for in a bond or a number sentence, how far it is from a mark to the
    end, what two parts make and by how much one is more."""
    if isinstance(picture, SpanPicture):
        return {abs(end - mark) for mark in picture.marked for end in (picture.start, picture.end)} - {0}
    answer = answer_of(picture)
    if answer is not None:  # of two sums one number more must be said
        return set() if isinstance(picture, NumberSentence) and min(map(len, picture.sides)) > 1 else {answer}
    if isinstance(picture, CompareBars):
        return {picture.upper + picture.lower, abs(picture.upper - picture.lower)}
    found = {picture.empty} if isinstance(picture, MarkPicture) and picture.framed else set()
    known = relation(picture)
    if known is not None and len(known.parts) == 2:
        one, other = known.parts
        found |= {known.whole, abs(one - other)}
    return found
