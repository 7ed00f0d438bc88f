"""Whether one number is more or less than another is asked ("Is nine less than twelve? Yes.", "Is 19 more or less than 20?
Less."): the answer is laid against it in `talk.answers`, or told here where it is one of two words.

Values: the two numbers.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.talk.expressions import NOUN
from studio.talk.model import Statement
from studio.talk.speech import Speech

_MORE = "more|greater|bigger|larger|higher|longer|taller"
_LESS = "less|fewer|smaller|lower|shorter"
_WAY = rf"(?P<way>{_MORE}|{_LESS})(?P<or> or (?:{_MORE}|{_LESS}))?(?: [a-z]+)?"
_ASKED = re.compile(
    rf" (?:is|are)(?: the)? #(?:{NOUN}) {_WAY} than #(?:{NOUN}) \?(?: ¶)?(?: (?P<said>{_MORE}|{_LESS})(?= [.,]))?"
)
_OPENING = frozenset(". ? ¶ § , and so but now".split()) | {""}
_LONGEST = 8  # characters
_WORDS = frozenset(_MORE.split("|"))


def find(speech: Speech) -> Iterator[Statement]:
    if " than #" not in speech.text:
        return
    for match in _ASKED.finditer(speech.text):
        before = speech.text[max(0, match.start() - _LONGEST) : match.start()].rpartition(" ")[2]
        if before not in _OPENING:  # "What is one less than fourteen?"
            continue
        one, other = (number.value for number in speech.numbers_in(*match.span()))
        told = match["said"] if match["or"] else None
        if match["or"] and told is None:
            continue
        more = (told or match["way"]) in _WORDS
        holds = one > other if more else one < other
        yield speech.statement(
            "greater" if more else "less",
            (one, other),
            holds if told else None,
            match.start() + 1,
            match.end(),
            f"{one} {'>' if more else '<'} {other}",
            None if told else holds,
        )
