"""Manners of talk in which other amounts are set equal than those that stand next to the sign: what was named before is added
up step by step, is told in shares, or stands behind a clause of its own. One function each; a new manner is one more in
`MANNERS`."""

from __future__ import annotations

import re

from studio.talk.claims import COMPARES, Saying, Side, of_tens
from studio.talk.expressions import WORD, Term

_AND_GOES_ON = re.compile(r" , and ")


def _running(saying: Saying) -> list[Side] | None:
    """What was named before is added up one after the other, and this is the first step of it ("Three berries, two nuts
    and one bit of carrot. That's three and two, five, and with the carrot, six."): that step's sides."""
    left, groups = saying.left, saying.sides[-1].groups()
    if saying.signs != ["="] or len(groups) != 2 or len(groups[0].terms) < 2 or not groups[1].single:
        return None
    parts = left.numbers[: len(groups[0].terms)]
    if parts != groups[0].numbers or len(left.numbers) <= len(parts):
        return None
    return list(groups) if _AND_GOES_ON.match(saying.text, saying.sequence.end) else None


_SHARES = re.compile(
    r"(#) (?:[a-z]+ )?(?:shared|split|cut|divided|parted|broken|sorted)(?: up| out| evenly| fairly| equally)* "
    r"(?:in|into|between|among|by|over) $"
)
_LONGEST_SHARING = 48  # characters


def _shared(saying: Saying) -> list[Side] | None:
    """The sides where the first number tells in how many shares the one before it is told ("Eight shared in two is four
    and four"): that one and the shares."""
    left, right = saying.left, saying.right
    found = saying.before(_SHARES, _LONGEST_SHARING)
    if found is None or saying.signs != ["="] or not left.single or len(right.terms) != left.value:
        return None
    whole = saying.speech.value_at(found.start(1))
    term = Term(whole, (whole,), "number", str(whole), found.start(1), found.start(1) + 1)
    return [Side((term,), ()), right]


_IS_A = re.compile(r" (?:is|are|was|(?!(?:it|that|what|here|there)['’])[a-z]+['’]s)(?: only)? (?:a |an |worth )$")
_LONGEST_IS_A = 24  # characters


def _each_is_a(saying: Saying) -> list[Side] | None:
    """The sides without what the words before say of each ("Every bundle's a five and ten fives make fifty")."""
    left = saying.left
    if saying.signs != ["="] or left.joins != ("and",) or left.terms[1].shape != "groups":
        return None
    unit, groups = left.terms
    if groups.parts[-1:] != unit.parts or not saying.before(_IS_A, _LONGEST_IS_A):
        return None
    return [left.cut(1)[1], saying.right]


_THAN = ("more than", "less than")


def _which_is(saying: Saying) -> list[Side] | None:
    """The sides of what is told of the amount with which something is compared ("It is one more than seven plus seven, which is
    fourteen", "It is one more than sixteen, which is double eight")."""
    left, right = saying.left, saying.right
    if saying.signs != ["="] or left.terms[0].shape not in _THAN:
        return None
    if " which " not in saying.text[left.terms[-1].end : right.terms[0].start]:
        return None
    base, end = left.terms[0].parts[-1], left.terms[0].end
    told = Side((Term(base, (base,), "number", str(base), end - 1, end), *left.terms[1:]), left.joins)
    return [told, right] if told.value == right.value else None


_CLAUSE = re.compile(r" (?:there (?:are|is)|(?:we|you|i|they|he|she|it) (?:have|has|see|got)) (?:only )?$")
_WORTH = re.compile(r" (?:is|are) worth $")
_LONGEST_CLAUSE = 24  # characters


def _after_a_clause(saying: Saying) -> list[Side] | None:
    """The sides without what has a verb of its own before "and" ("There are seven ones and five is less than seven", "A dime is
    worth ten cents and ten pennies are worth ten cents")."""
    left = saying.left
    if len(saying.signs) != 1 or left.joins != ("and",):
        return None
    compared = left.cut(1)[1]
    clause = _CLAUSE if saying.signs[0] in COMPARES else _WORTH
    return [compared, saying.right] if compared.single and saying.before(clause, _LONGEST_CLAUSE) else None


_EACH = re.compile(
    rf"#(?: [a-z]+){{1,3}} (?:with|of|having|have|has|had) #{WORD}(?: [a-z]+)? (?:in|on|at|under|inside|for) (?:each|every)(?= )"
)


def _in_each(saying: Saying) -> list[Side] | None:
    """The product that is told by what is in each ("Four baskets with five apples in each, and that is twenty apples")."""
    left = saying.left
    if saying.signs != ["="] or len(left.terms) != 2 or not _EACH.match(saying.text, saying.start):
        return None
    many, each = (term.value or 0 for term in left.terms)
    groups = Term(many * each, (many, each), "groups", f"{many} × {each}", saying.start, saying.end)
    return [Side((groups,), ()), saying.right]


def _both_tens(saying: Saying) -> list[Side] | None:
    """The sides where only the last of two amounts of tens is named so ("Five and three tens are eight tens")."""
    left, told = saying.left, saying.right.terms[0]
    if saying.signs[0] != "=" or left.joins != ("and",):
        return None
    first, second = left.terms
    if first.shape != "number" or not of_tens(second) or not of_tens(told):
        return None
    many = first.value or 0
    tens = Term(10 * many, (many, 10), "groups", f"{many} × 10", first.start, first.end)
    fits = many + second.parts[0] == told.parts[0]
    return [Side((tens, second), left.joins), *saying.sides[1:]] if fits else None


MANNERS = (
    _running,
    _shared,
    _each_is_a,
    _which_is,
    _after_a_clause,
    _in_each,
    _both_tens,
)


def retold(saying: Saying) -> list[Side]:
    """The sides that are meant: by the first of these manners that it is said in, or as they stand."""
    return next((sides for manner in MANNERS if (sides := manner(saying)) is not None), saying.sides)
