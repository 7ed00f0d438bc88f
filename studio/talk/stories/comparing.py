"""Compare: difference, bigger or smaller unknown, told with *more* and with *fewer*."""

from __future__ import annotations

from studio.talk.stories.clauses import Quantity
from studio.talk.stories.readings import Asked, CannotTell, Reading, bigger, difference, smaller


def read(asked: Asked) -> Reading | None:
    """A comparison, or None where nothing is compared."""
    told = [q for q in asked.known if q.compare and (q.reference or _elliptical(asked, q))]
    if told:
        return _from_difference(asked, told)
    return _difference(asked)


def _elliptical(asked: Asked, quantity: Quantity) -> bool:
    """ "The duck has five shells. The otter has three more": somebody else's, and only what is had is told."""
    if quantity.more and quantity.compare == "more":
        first = asked.known[0]
        return (
            first is not quantity
            and quantity.verb == "have"
            and bool(quantity.owner)
            and not quantity.owner & first.owner
            and bool(asked.question.subject & quantity.owner)
            and not asked.question.total
        )
    return quantity.compare == "fewer"


def _from_difference(asked: Asked, told: list[Quantity]) -> Reading | None:
    question = asked.question
    if len(told) != 1 or question.total or question.left:
        raise CannotTell
    by = told[0]
    others = [quantity for quantity in asked.known if quantity is not by]
    if len(others) != 1:
        raise CannotTell
    other = others[0]
    if by.value is None or other.value is None:
        raise CannotTell
    if question.more or question.difference:
        raise CannotTell
    subject = by.owner | by.place | (by.nouns if by.owner <= by.nouns else by.nouns - other.nouns)
    only_subject, only_reference = subject - by.reference, by.reference - subject
    asks = question.subject | question.words
    if by.back and asked.quantities.index(by) > 0:
        subject_known = True
    elif other.words & only_reference:
        subject_known = False
    elif asks & only_reference:
        subject_known = True
    elif asks & (only_subject - other.words):
        subject_known = False
    elif other.words & only_subject:
        subject_known = True
    else:
        raise CannotTell
    subject_bigger = by.compare == "more"
    if subject_known:
        return smaller(other.value, by.value) if subject_bigger else bigger(other.value, by.value)
    return bigger(other.value, by.value) if subject_bigger else smaller(other.value, by.value)


def _difference(asked: Asked) -> Reading | None:
    question = asked.question
    if not (question.difference or question.more or question.as_many):
        return None
    if not question.difference and not question.as_many and not question.has_than:
        if question.need and (question.goal is not None or len(asked.known) < 2):
            return None
        events = [q for q in asked.quantities if not q.known or q.afterwards or q.whole]
        if events or question.goal is not None or question.left:
            return None
        if question.need and question.verb in ("need", "want") and not question.subject:
            return None
    pair = _pair(asked)
    if pair is None:
        raise CannotTell
    first, second = pair
    if first.value is None or second.value is None:
        raise CannotTell
    return difference(first.value, second.value)


def _pair(asked: Asked) -> tuple[Quantity, Quantity] | None:
    """The two quantities that are compared."""
    known = asked.known
    if len(known) == 2:
        return known[0], known[1]
    halves = asked.question.halves
    if len(known) < 2 or halves is None:
        return None
    scored = []
    for i, first in enumerate(known):
        for j, second in enumerate(known):
            if i != j:
                common = first.words & second.words
                score = len((first.words - common) & halves[0]) + len((second.words - common) & halves[1])
                scored.append((score, i, j))
    scored.sort(reverse=True)
    best = scored[0]
    if best[0] < 1:
        return None
    ties = [{known[s[1]].value, known[s[2]].value} for s in scored if s[0] == best[0]]
    if any(tie != ties[0] for tie in ties):
        return None
    return known[min(best[1:])], known[max(best[1:])]
