"""Where a number stands: "seventeen is between sixteen and eighteen", "zero comes right before one".

Values: the number, then its neighbours.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.talk.model import Statement
from studio.talk.speech import Speech

_IS = r"(?: (?:is|are|was|lies|lives|comes|sits|stands|goes|fits|hides|belongs|stays|right|just|in|straight|directly))*"
_BETWEEN = re.compile(rf"#{_IS} between (?:the )?# and (?:the )?#(?= [.,?¶§]| and )")
_SOME_ONE = re.compile(
    r" (?:the|any|another|take|pick|choose|find|name|hide|write|think of|give me|tell me|show me|say) # between $"
)
"""The card, the stone, some number ("Take one between eleven and nineteen")."""
_WHICH = re.compile(r" [.,] (?:[¶§] )?(?:so |and )?(?:which|what) (?:number|one|card) ")
"""What asks for it: "One lives between four and six. Which number?"."""
_LONGEST_ONE = 24  # characters
_INSIDE = re.compile(
    r"between # and # (?:there )?(?:are|come|lie|sit|stand|live|fit) #(?: , #)*(?: ,)? and #(?= [.,?¶§])"
)
_NEXT = re.compile(rf"#{_IS} (before|after) #(?= [.,?¶§]| and )")


def find(speech: Speech) -> Iterator[Statement]:
    """Numbers between two others are told right or wrong; neighbours only where they are neighbours."""
    text = speech.text
    if " between " in text:
        for match in _BETWEEN.finditer(text):
            number, one, other = (found.value for found in speech.numbers_in(match.start(), match.end()))
            if number == 1 and (
                _SOME_ONE.search(text, max(0, match.start() - _LONGEST_ONE), match.start() + len("# between "))
                or _WHICH.match(text, match.end())
            ):
                continue
            low, high = sorted((one, other))
            yield _make(
                speech, match, "between", (number, one, other), low < number < high, f"{low} < {number} < {high}"
            )
        for match in _INSIDE.finditer(text):
            one, other, *numbers = (found.value for found in speech.numbers_in(match.start(), match.end()))
            low, high = sorted((one, other))
            outside = next((number for number in numbers if not low < number < high), None)
            number = numbers[0] if outside is None else outside
            yield _make(speech, match, "between", (number, low, high), outside is None, f"{low} < {number} < {high}")
    if " before " in text or " after " in text:
        for match in _NEXT.finditer(text):
            number, other = (found.value for found in speech.numbers_in(match.start(), match.end()))
            step = 1 if match[1] == "after" else -1
            if number == other + step:
                sign = "+" if step > 0 else "-"
                yield _make(speech, match, f"right {match[1]}", (number, other), True, f"{number} = {other} {sign} 1")


def _make(
    speech: Speech, match: re.Match[str], kind: str, values: tuple[int, ...], holds: bool, written: str
) -> Statement:
    return speech.statement(kind, values, holds, match.start(), match.end(), written)
