"""By how much two numbers differ: "Nine and fifteen differ by six", "Nine differs from fifteen by six".

Values: the greater, the smaller, the difference.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.talk.expressions import NOUN
from studio.talk.model import Statement
from studio.talk.speech import Speech

_DIFFER = re.compile(
    rf"#{NOUN} (?:and #{NOUN} (?:only |always )?differ|differs from #{NOUN})(?: only| just| exactly)? by"
    r"(?: only| just| exactly)? #(?= )"
)


def find(speech: Speech) -> Iterator[Statement]:
    if " differ" not in speech.text:
        return
    for match in _DIFFER.finditer(speech.text):
        one, other, by = (number.value for number in speech.numbers_in(match.start(), match.end()))
        big, small = max(one, other), min(one, other)
        yield speech.statement(
            "difference", (big, small, by), big - small == by, match.start(), match.end(), f"{big} - {small} = {by}"
        )
