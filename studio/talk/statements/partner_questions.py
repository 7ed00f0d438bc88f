"""Partners of a whole that was named, told in few words: "Seven and? Three.", "Nine? One!", "Nine goes with one.",
"Eight needs two."

Values: part, part, whole. The whole is the last one named in the same segment ("partners of ten", "to make ten").
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator

from studio.talk.model import Statement
from studio.talk.speech import Speech
from studio.talk.topics import wholes

_ANSWER = r"(?:¶ )?(?:(?:yes|it is|that is|only|right|,) )*"
_PATTERNS = (
    re.compile(rf"(?<=[.?,¶§] )# (?:and|goes with|needs|plus)(?: what)? \? {_ANSWER}#(?= [.,])"),
    re.compile(rf"(?<=[.?¶§] )# \? {_ANSWER}#(?= [.])"),
    re.compile(r"(?<=[.?¶§] )# and , #(?= [.])"),  # "Seven and... three."
    re.compile(r"# (?:goes|go) with #(?= [.,?]| and )"),
    re.compile(r"(?<=[.?,¶§] )# needs #(?= [.,])"),
    # "What goes with six? Three. And with five? Four."
    re.compile(
        r"(?:(?<=[.?¶§] )(?:and )?|(?:what|who|which|which (?:card|number|part)) (?:goes|pairs up|belongs) )with # \? "
        rf"{_ANSWER}#(?= [.,])"
    ),
)
_GOAL = re.compile(
    r" (?:(?:its|the) partner to|(?:partner|friend) (?:who|that|which) makes|lacks to be|to make|makes?|make up|from|to get to|short of|missing from|to reach) #(?= [.,?])|"
    r" say (?:a |one )?part of #(?= and you )"
)
_AND_ITS_PARTNER = re.compile(r" [.,] (?:¶ )?(?:and|with) #(?= [.,])")
_FAR = 400  # characters
_OTHER_DRILL = re.compile(r"[.?¶§] (?:now |next |and )?(?:(?:near )?doubles?|halves|half|# (?:more|less)) [.,]")


def find(speech: Speech) -> Iterator[Statement]:
    text = speech.text
    named: list[tuple[int, int]] | None = None
    for pattern in _PATTERNS:
        for match in pattern.finditer(text):
            if named is None:
                named = named_wholes(speech)
            one, other = speech.numbers_in(match.start(), match.end())
            whole = whole_at(speech, named, one.start)
            if whole is None or (pattern is _PATTERNS[1] and one.value >= whole):
                continue
            if one.value == other.value and _AND_ITS_PARTNER.match(speech.text, match.end()):
                continue  # "What goes with seven? Seven. And two."
            yield speech.statement(
                "partners",
                (one.value, other.value, whole),
                one.value + other.value == whole,
                match.start(),
                match.end(),
                f"{one.value} + {other.value} = {whole}",
            )


def named_wholes(speech: Speech) -> list[tuple[int, int]]:
    """Position and value of the wholes that are named, in order."""
    found = {(number.start, number.value) for number in wholes(speech)}
    for match in _GOAL.finditer(speech.text):
        number = speech.number_at[match.end() - 1]
        found.add((number.start, number.value))
    return sorted(found)


def whole_at(speech: Speech, named: list[tuple[int, int]], position: int) -> int | None:
    """The whole that is named last before the number at word `position`, in its segment; none where another drill was
    named after it ("Partners of ten. Two? Eight. Doubles. Eight? Sixteen.")."""
    at = bisect_right(named, (position, -1)) - 1
    if at < 0 or speech.words[named[at][0]].segment != speech.words[position].segment:
        return None
    start, end = speech.offset_at(named[at][0]), speech.offset_at(position)
    return None if _OTHER_DRILL.search(speech.text, max(start, end - _FAR), end) else named[at][1]
