"""A number told by its tens and ones, and again with a ten opened or made: "4 tens 2 ones, or 3 tens 12 ones", "Three tens and five ones.
Also two tens and fifteen ones." Both make the same. Where it is said that they are the same, `equation.py` finds it.

Values: the tens and the ones of each.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.talk.model import Statement
from studio.talk.speech import Speech

_PAIR = r"# tens?(?: ,)?(?: and)? #(?: (?:loose|single|separate))? ones?"
_AGAIN = r"(?: [.,])?(?: ¶)?(?: (?:or|and|but|else|even|just|as|well|it|too|could be|may be|we can say|you can say))*"
_TOLD = re.compile(rf"{_PAIR}(?P<again>{_AGAIN}) {_PAIR}(?= )")
_SAME = re.compile(r"\b(?:or|can|could|may)\b")
_TEN = 10


def find(speech: Speech) -> Iterator[Statement]:
    for match in _TOLD.finditer(speech.text):
        numbers = [number.value for number in speech.numbers_in(*match.span())]
        if len(numbers) != 4 or speech.text.startswith(" ?", match.end()):
            continue
        tens, ones, others, more = numbers
        holds = _TEN * tens + ones == _TEN * others + more
        if tens == others or max(ones, more) < _TEN or not (holds or _SAME.search(match["again"])):
            continue  # two numbers, and not one told twice
        yield speech.statement(
            "equal", (tens, ones, others, more), holds, match.start(), match.end(),
            f"{tens} × {_TEN} + {ones} = {others} × {_TEN} + {more}",
        )  # fmt: skip
