"""Games with pairs: two numbers are called out and the answer is not their sum, but the greater one, their difference, what goes
over ten, or the third part of a whole ("Four and nine. Nine. Eight and six. Eight. Twelve and twenty. Twenty."). Several answers
in a row by one such rule are no false sums."""

from __future__ import annotations

import re
from collections import Counter, defaultdict

from studio.agree.case import Case
from studio.agree.expect.place import book_of
from studio.talk.model import Statement

_CALLED = re.compile(r"[^.!?]+[.!?] [^.!?]+")
_LEAST = 3
"""Answers by one rule, where nothing else tells it."""
_LEAST_OF_WHOLE = 2
"""Answers that are the third part of a whole that is named in the segment or its title."""


def called_out(case: Case) -> frozenset[int]:
    """The first words of the false sums that are answers in such a game."""
    pairs: defaultdict[int, list[Statement]] = defaultdict(list)
    for statement in case.talk.statements:
        false = statement.kind == "sum" and len(statement.values) == 3 and statement.holds is False
        if false and _CALLED.fullmatch(statement.said):
            pairs[case.talk.words[statement.start].segment].append(statement)
    found: set[int] = set()
    for segment, its in pairs.items():
        if len(its) < _LEAST_OF_WHOLE:
            continue
        rules = Counter(rule for statement in its for rule in _rules(statement))
        named = case.said_in(segment) | book_of(case).titles.get(segment, frozenset())
        good = {
            rule
            for rule, many in rules.items()
            if many >= _LEAST or (many >= _LEAST_OF_WHOLE and rule[0] == "of three parts" and rule[1] in named)
        }
        found |= {statement.start for statement in its if good.intersection(_rules(statement))}
    return frozenset(found)


def _rules(statement: Statement) -> set[tuple[str, int]]:
    """The rules by which the answer to two numbers may be told."""
    one, other, answer = statement.values
    found = {("of three parts", one + other + answer)}
    if answer == max(one, other):
        found.add(("the greater", 0))
    if answer == min(one, other):
        found.add(("the smaller", 0))
    if answer == abs(one - other):
        found.add(("the difference", 0))
    if answer == (one + other) % 10:
        found.add(("over the tens", 0))
    return found
