"""A question whether two amounts are the same, which they are not, is answered with no: where nobody says so, one of its
numbers is a slip ("Is 5 + 2 the same as 2 + 6? Thumbs up!")."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case
from studio.findings import Finding

NAME = "what is asked can be"
_REACH = 10  # sentences
_TURNED = re.compile(r"(\d+) - (\d+) = \2 - \1")
_NO = frozenset(
    "no nope nay not false wrong untrue isn't aren't doesn't don't never different unequal greater less more fewer bigger "
    "smaller neither cannot can't question tomorrow wonder homework".split()
)


def find(case: Case) -> Iterator[Finding]:
    for statement in case.talk.statements:
        if statement.holds is not None or statement.expected is not False or " = " not in statement.written:
            continue
        if statement.kind == "question" or case.is_excused(statement.start, statement.end):
            continue
        if _TURNED.fullmatch(statement.written):
            continue  # "Is 5 take away 2 the same as 2 take away 5?": it is turned around on purpose
        index = case.sentence_index(statement.start)
        _, last = case.sentences_around(index, 0, _REACH)
        words = case.talk.words[case.sentences[index].start : case.sentences[last].end]
        if any(word.plain in _NO for word in words):
            continue
        yield Finding(NAME, "error", statement.line, statement.column, statement.said, "",
                      f"“{statement.said}” is asked; in signs that is {statement.written}, which is not so, and nobody "
                      "says no.", "Change a number, or answer with no.")  # fmt: skip
