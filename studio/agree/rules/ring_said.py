"""What is said of a ring or a mark is what the screen shows ("The five gets a ring", "I put a ring around the seven")."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.wording import row
from studio.findings import Finding

NAME = "ring as said"
_SAID = (
    re.compile(
        r" (?:ring|circle) (?:is |goes |it |sits |go |belongs )*(?:round|around|on) (?:the |our )?(#)(?= [.,?])"
    ),
    re.compile(
        r" (?:the|our|a) (#) (?:gets|is|has|wears|goes|went)(?: in| into| a| its| the)* (?:ring|ringed|circle|circled)(?= )"
    ),
    re.compile(r" (?:ring|circle) (?:the )(#)(?= [.,?])"),
)


def find(case: Case) -> Iterator[Finding]:
    text = case.talk.speech.text
    if not case.pictures or not any(word in text for word in (" ring", " circle")):
        return
    for pattern in _SAID:
        for match in pattern.finditer(text):
            number = case.talk.speech.number_at[match.start(1)]
            index = case.sentence_index(number.start)
            sentence = case.sentences[index]
            last = min(index + 1, len(case.sentences) - 1)
            seen = case.on_screen(sentence.start, case.sentences[last].end + 1)
            ringed = {value for appearance in seen for value in getattr(appearance.picture, "ringed", ())}
            if not ringed or number.value in ringed or case.is_excused(sentence.start, sentence.end):
                continue
            yield Finding(NAME, "error", number.line, number.column, number.text, "",
                          f"Line {number.line} speaks of a ring round {number.value}, but the ring is round "
                          f"{row(sorted(ringed))}.", f"Say {row(sorted(ringed), 'or')}.")  # fmt: skip
