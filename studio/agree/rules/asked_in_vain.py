"""A question whether two amounts are the same, which they are not, is answered with no: where nobody says so, one of its
numbers is a slip ("Is 5 + 2 the same as 2 + 6? Thumbs up!")."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.denials import refused
from studio.findings import Finding

NAME = "what is asked can be"
_UNKNOWN = frozenset("what how which".split())
_TURNED = re.compile(r"(\d+) - (\d+) = \2 - \1")


def find(case: Case) -> Iterator[Finding]:
    for statement in case.talk.statements:
        if statement.holds is not None or statement.expected is not False or " = " not in statement.written:
            continue
        if statement.kind == "question" or case.is_excused(statement.start, statement.end):
            continue
        if _TURNED.fullmatch(statement.written):
            continue  # "Is 5 take away 2 the same as 2 take away 5?": it is turned around on purpose
        if refused(case, statement) or case.has_word(case.sentences[case.sentence_index(statement.start)], _UNKNOWN):
            continue  # "Ten is worth the same as six with how much?"
        yield Finding(NAME, "error", statement.line, statement.column, statement.said, "",
                      f"“{statement.said}” is asked; in signs that is {statement.written}, which is not so, and nobody "
                      "says no.", "Change a number, or answer with no.")  # fmt: skip
