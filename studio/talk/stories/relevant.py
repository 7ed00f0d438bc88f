"""Which of the quantities told belong to what is asked ("28 gallons" does not, where miles are asked)."""

from __future__ import annotations

from collections.abc import Sequence

from studio.talk.stories import lexicon as lex
from studio.talk.stories.clauses import Quantity
from studio.talk.stories.question import Question

_KINDS = {
    "child": "girl boy kid student pupil", "person": "man woman child girl boy adult kid", "bird": "duck goose swan "
    "heron owl robin crow pigeon sparrow coot moorhen", "animal": "frog duck otter turtle fish heron newt toad snail "
    "beaver goose swan rabbit dog cat cow horse sheep pig", "flower": "rose tulip daisy lily iris poppy", "fruit":
    "apple orange pear plum peach banana grape", "insect": "bee ant beetle dragonfly butterfly ladybug",
    "pet": "dog cat fish rabbit hamster gerbil bird", "money": "cent dollar penny pound", "coin": "penny nickel dime",
    "dollar": "$", "time": "minute hour day", "weight": "pound kilogram gram ounce", "toy": "car doll ball truck",
}  # fmt: skip
KINDS = {kind: frozenset(members.split()) for kind, members in _KINDS.items()}
"""A wider word and some of what it covers; any wider word is accepted where everything told is its kind."""


def relevant(quantities: Sequence[Quantity], question: Question) -> tuple[Quantity, ...]:
    """The quantities that may take part, in order."""
    asked = question.nouns
    about_time = bool(asked & (lex.SETTINGS | {"time"})) or question.measure in ("old", "long", "much", "young")
    kept = [
        quantity
        for quantity in quantities
        if about_time or not (quantity.nouns & lex.SETTINGS and quantity.named and not quantity.nouns & asked)
    ]
    known = [quantity for quantity in kept if quantity.known]
    if any(quantity.rest for quantity in kept) and any(quantity.whole for quantity in known):
        return tuple(kept)  # the parts of a whole and the rest of it
    needed = 1 if question.goal is not None else 2
    if len(known) <= needed:
        return tuple(kept)
    plain = [q for q in known if q.value != 1 or q.more]
    if len(known) > len(plain) >= needed:  # "25 cents on one apple"
        kept = [q for q in kept if q in plain or not q.known]
        known = plain
    if len(known) <= needed or question.difference:
        return tuple(kept)
    if question.head:
        by_head = [q for q in kept if question.head in q.nouns or question.head == q.head]
        if sum(q.known for q in by_head) >= needed:
            kept = [q for q in kept if q in by_head or (not q.known and not q.named)]
            known = [quantity for quantity in kept if quantity.known]
    if len(known) > needed:
        modifiers = question.nouns - {question.head}
        matching = [q for q in kept if modifiers and modifiers & q.words]
        if sum(q.known for q in matching) == needed:
            kept = [q for q in kept if q in matching or not q.known]
            known = [quantity for quantity in kept if quantity.known]
    if len(known) > needed and question.verb not in ("have", "be", "do", ""):
        matching = [q for q in kept if q.verb == question.verb]
        if sum(q.known for q in matching) == needed:
            kept = [q for q in kept if q in matching or not q.known]
            known = [quantity for quantity in kept if quantity.known]
    if len(known) > needed:
        tail = question.words - question.nouns
        matching = [q for q in kept if tail & q.words]
        if sum(q.known for q in matching) == needed:
            kept = [q for q in kept if q in matching or not q.known]
    return tuple(kept)
