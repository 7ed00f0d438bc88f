"""What is posed before a wait and worked out after it comes out there: three numbers to be added ("Four plus three plus four. [wait 7 s] Double four is
eight, and three more is eleven."), so many steps on or back ("Begin at eleven, back three. [wait 7 s] Ten, nine, eight.")."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.wording import of_number, row
from studio.findings import Finding
from studio.talk.model import Number

NAME = "what is posed comes out"
_SUM = re.compile(
    r"(?<=[.?¶§] )(?:(?:try|now|next|and|what about|how about|last) ,? ?)?# (?P<one>plus|minus) # (?P<other>plus|minus) # [.?] "
)
_STEPS = re.compile(
    r" (?:put|pop|start|begin|stand|starting|keep|hold)(?: at| on| with| from)? (?P<from>#)(?: in (?:your|my) (?:head|mind|pocket))?(?: now)?"
    r"(?: ,| \. (?:¶ )?)(?: (?:and|now|we|are|you|i|he|she|it|going|go|goes|count|hop|step|move|wants to go)){0,3} "
    r"(?P<way>back|on|down|up|forward)(?: by)? (?P<by>#)(?= (?:steps? |hops? |more )?[.?])"
)
_FAR = 40  # words


def find(case: Case) -> Iterator[Finding]:
    speech = case.talk.speech
    for match in _SUM.finditer(speech.text):
        one, other, third = speech.numbers_in(*match.span())
        result = _signed(_signed(one.value, match["one"] == "plus", other), match["other"] == "plus", third)
        if third.end in case.waited:
            yield from _other(case, one, third, result)
    for match in _STEPS.finditer(speech.text):
        begin, by = (speech.number_at[match.start(name)] for name in ("from", "by"))
        yield from _other(case, begin, by, _signed(begin.value, match["way"] not in ("back", "down"), by))


def _signed(value: int, adds: bool, number: Number) -> int:
    return value + number.value if adds else value - number.value


def _other(case: Case, first: Number, last: Number, result: int) -> Iterator[Finding]:
    """Where in the rest of the paragraph other numbers are said, and never the result."""
    paragraph = case.talk.words[last.start].paragraph
    rest = [
        one
        for one in case.numbers_between(last.end, last.end + _FAR)
        if case.talk.words[one.start].paragraph == paragraph
    ]
    values = [one.value for one in rest]
    if rest and result > 0 and result not in values and not case.is_excused(first.start, rest[-1].end):
        yield of_number(
            NAME, last, "",
            f"What line {last.line} poses with {first.value} and {last.value} comes to {result}, but then {row(values)} "
            f"{'is' if len(values) == 1 else 'are'} said.", "Change what is posed, or say what it comes to.",
        )  # fmt: skip
