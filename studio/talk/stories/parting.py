"""Put together and take apart: total, addend or both addends unknown."""

from __future__ import annotations

from studio.talk.stories import lexicon as lex
from studio.talk.stories.changing import question_is_for_part, sign
from studio.talk.stories.clauses import Quantity
from studio.talk.stories.readings import Asked, CannotTell, NothingFits, Reading, add_to, addend, both_addends, total
from studio.talk.stories.relevant import KINDS

_SIDES = frozenset(("left-hand", "right"))


def read(asked: Asked) -> Reading | None:
    """Parts and a whole; None where they cannot be told apart."""
    question = asked.question
    known = asked.known
    if len(known) == 1 and question.both_parts and known[0].value is not None:
        return both_addends(known[0].value)
    if len(known) == 2:
        first, second = known
        if first.value is None or second.value is None:
            return None
        part = _part_of(asked, first, second)
        if part is not None:
            return part
    if len(known) == 3 and (rest := _rest_of_two(asked)) is not None:
        return rest
    if len(known) in (2, 3):
        return _total(asked)
    return None


def _rest_of_two(asked: Asked) -> Reading | None:
    """ "One brought six, one brought eight, one brought the rest, and altogether they have eighteen. How many …?",
    "Sixteen eggs. Six are green. Six are brown. The rest are white. How many …?": a whole and two of its three parts."""
    question, known = asked.question, asked.known
    if question.total or question.more or question.left or not any(quantity.rest for quantity in asked.unknown):
        return None
    wholes = [quantity for quantity in known if quantity.whole] or [known[0]]
    parts = [quantity for quantity in known if quantity is not wholes[0]]
    alike = len({part.of_whole for part in parts}) == 1  # "Seven are boots, two of them have no laces"
    described = wholes[0].whole or (alike and all(_describes(part) or part.of_whole for part in parts))
    if len(wholes) != 1 or not described:
        return None
    whole, values = wholes[0].value, [part.value for part in parts if part.value is not None]
    if whole is None or len(values) != 2 or sum(values) == whole:
        raise CannotTell
    if sum(values) > whole:
        raise NothingFits(f"{values[0]} + {values[1]} + ? = {whole}")
    rest = whole - sum(values)
    return Reading(
        "put together/take apart, addend unknown", "addend", f"{values[0]} + {values[1]} + ? = {whole}", rest,
        (*values, whole),
    )  # fmt: skip


def _part_of(asked: Asked, first: Quantity, second: Quantity) -> Reading | None:
    question = asked.question
    if question.total or first.value is None or second.value is None or (first.of_whole and second.of_whole):
        return None
    wholes = [quantity for quantity in (first, second) if quantity.whole]
    if len(wholes) == 1:
        whole, part = (first, second) if wholes[0] is first else (second, first)
    elif second.of_whole or (_describes(second) and not first.is_subject) or any(q.rest for q in asked.unknown):
        whole, part = (first, second)
        described = _describes(second) or any(q.rest for q in asked.unknown) or question.negative
        moved = sign(second, asked) and not question_is_for_part(asked, second) and question.verb != "be"
        if second.of_whole and not described and moved:
            return None
    elif first.of_whole and second.value >= first.value:
        whole, part = second, first
    elif question.negative or question.rest:
        whole, part = (first, second) if first.value >= second.value else (second, first)
    else:
        return None
    if whole.value is None or part.value is None:
        raise CannotTell
    if _same_as(asked, part):
        raise CannotTell
    return addend(whole.value, part.value)


def _same_as(asked: Asked, part: Quantity) -> bool:
    """Whether the question asks for the part that was told."""
    if asked.question.rest or asked.question.negative != part.negated:
        return False
    described = asked.question.words - asked.question.subject
    told = part.nouns | part.place
    whole_words = frozenset().union(*(q.nouns for q in asked.known if q is not part))
    return bool((described & told) - whole_words) and not (described - told)


def _describes(quantity: Quantity) -> bool:
    """ "Six are blue": part of what was told before."""
    return (
        quantity.is_subject
        and (quantity.verb == "be" or (quantity.passive and quantity.verb not in lex.LOSSES))
        and not quantity.more
        and (not quantity.named or bool(quantity.place))
        and not quantity.afterwards
    )


def _total(asked: Asked) -> Reading | None:
    question = asked.question
    known = asked.known
    values = [quantity.value for quantity in known if quantity.value is not None]
    if any(quantity.of_whole for quantity in known[1:]) and not question.total:
        raise CannotTell
    if question.more or question.difference or question.left:
        raise CannotTell
    if any(quantity.of_whole for quantity in asked.unknown) and not question.total:
        raise CannotTell  # "Five hung there, and some of them blinked out. Two were shining."
    if len(values) == 3 and not question.total:
        return None
    if question.measure == "long" and question.goal is not None:
        raise CannotTell  # "The cake bakes for twelve minutes. I look at five. How long before twelve?"
    sides = question.words & _SIDES
    if sides and not (question.total or question.now or any(sides & quantity.words for quantity in known)):
        raise CannotTell  # "One fish goes round the rock. Three stay. How many on the right?": of one side, not of both
    modifiers = question.nouns - {question.head}
    if not question.total and modifiers and any(modifiers & q.nouns != modifiers & known[0].nouns for q in known):
        raise CannotTell  # asked for what was told
    event = question.verb in lex.LOSSES | lex.GAINS
    if not question.total and event and question.verb not in {quantity.verb for quantity in known}:
        raise CannotTell
    if not question.total and not _same_kind(asked):
        raise CannotTell
    if any(quantity.whole or (quantity.afterwards and quantity.verb in ("have", "be")) for quantity in known):
        raise CannotTell
    if len(values) == 2 and known[1].more and not known[1].reference and known[0].owner & known[1].owner:
        return add_to(values[0], values[1], None)
    if len(values) == 3 and any(sign(quantity, asked) < 0 and sign(known[0], asked) >= 0 for quantity in known[1:]):
        raise CannotTell
    return total(values)


def _same_kind(asked: Asked) -> bool:
    """Whether everything told is of the sort that is asked, and nothing asks for only one of the owners."""
    question = asked.question
    known = asked.known
    tails = question.words - question.nouns
    hit = [bool((tails | question.subject) & (quantity.owner | quantity.place)) for quantity in known]
    if any(hit) and not all(hit) and not question.pronoun:
        different = [quantity.owner for quantity in known]
        if all(different) and not different[0] & different[-1]:
            return False
    if not question.nouns:
        return True
    covers = KINDS.get(question.head, frozenset())
    fit = [bool((question.nouns | covers) & (quantity.nouns | {quantity.head})) for quantity in known]
    if all(fit):
        return True
    return not any(fit) and all(quantity.verb == known[0].verb for quantity in known)
