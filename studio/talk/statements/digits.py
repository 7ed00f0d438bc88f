"""How many tens or ones a number has: "fifty-four has five tens", "there are four ones in fourteen".

Values: the number, how many.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.talk.model import Statement
from studio.talk.speech import Speech

_HAS = re.compile(
    r"# (?:has|have|is made of|needs|shows) (?:only |exactly )?# (?:more |extra |single )?(tens?|ones?)(?= (?:[.,]|and # (?:has|have|is)|but))"
)
_IN = re.compile(r"# (tens?|ones?) (?:are )?in #(?= [.,])")


def find(speech: Speech) -> Iterator[Statement]:
    for match in _HAS.finditer(speech.text):
        offset = match[0].index("#", 1)
        number, many = speech.value_at(match.start()), speech.value_at(match.start() + offset)
        yield _make(speech, match, number, many)
    for match in _IN.finditer(speech.text):
        number, many = speech.value_at(match.end() - 1), speech.value_at(match.start())
        yield _make(speech, match, number, many)


def _make(speech: Speech, match: re.Match[str], number: int, many: int) -> Statement:
    unit = "tens" if match[1].startswith("ten") else "ones"
    holds = number // 10 == many if unit == "tens" else many in (number % 10, number)
    first, last = speech.span(match.start(), match.end())
    word = speech.words[first]
    return Statement(unit, (number, many), holds, first, last, word.place.line, word.place.column,
                     speech.said(match.start(), match.end()), f"{number} has {many} {unit}")  # fmt: skip
