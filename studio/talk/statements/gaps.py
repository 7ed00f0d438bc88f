"""A number that is hummed in an even row, and told next: "Twenty-four, twenty-two, mmm, eighteen. [wait 2 s] Twenty.", "Five, ten,
something, twenty. What was it? Fifteen."

Values: the row with what is told in its gap. A row that no single number would make even is no count.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.talk.model import Statement
from studio.talk.speech import Speech
from studio.talk.statements.counts import repaired, step_of

_HUM = r"(?:m+|hm+|hum|beep|bleep|blank|buzz|bzz+|bz+t|quack|ribbit|croak|splash|something|gap|sh+|ps+t|tap|clap|plop)"
_ROW = re.compile(rf"(?:{_HUM} (?:, )?)?#(?: (?:, )?(?:and )?(?:#|{_HUM}))+(?= [.?])")
_IS_HUM = re.compile(rf" ({_HUM}) ")
_TOLD = re.compile(r" [.?](?: \.)?(?: ¶)?(?: [^#.?¶§]{1,40}[?](?: ¶)?)? #(?= [.,?¶§]| (?:came|comes|is|was|goes) )")
_FEWEST = 4  # with the one that is hummed


def find(speech: Speech) -> Iterator[Statement]:
    """Rows of four or more numbers, one of which is hummed."""
    text = speech.text
    for match in _ROW.finditer(text):
        hums = _IS_HUM.findall(f" {match[0]} ".replace(" , ", "  "))
        told = _TOLD.match(text, match.end())
        if len(hums) != 1 or told is None:
            continue
        hum = match.start() + match[0].index(hums[0])
        before = [number.value for number in speech.numbers_in(match.start(), hum)]
        after = [number.value for number in speech.numbers_in(hum, match.end())]
        row = (*before, speech.value_at(told.end() - 1), *after)
        if len(row) < _FEWEST or (step_of(row) is None and len(repaired(row) or ()) != len(row)):
            continue
        step = (repaired(row) or row)[1] - (repaired(row) or row)[0]
        yield speech.statement(
            "count" if step > 0 else "count back",
            row,
            step_of(row) is not None,
            match.start(),
            told.end(),
            ", ".join(map(str, row)),
        )
