"""A difference of two amounts that the sentence before told: "Eleven otters, eight ducks. That is three more otters.",
"13 toads, 8 newts. The difference is 5."

Values: the greater, the smaller, the difference.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.talk.expressions import NOUN
from studio.talk.model import Statement
from studio.talk.speech import Speech

_LEAD = r"[.?] (?:¶ )?(?:(?:and|so|now|yes|right) ,? ?)*"
_DIFFERENCE = re.compile(
    rf"{_LEAD}(?:therefore ,? ?)?(?:the )?difference (?:is|was|between them is|here is|of those is|,) (?P<n>#){NOUN} [.,]"
)
_MORE = re.compile(
    rf"{_LEAD}(?:(?:that is|there are|it is|we have|we see|i see) )?(?P<n>#) (?P<word>more|fewer|less) (?P<one>[a-z]+)"
    r"(?: than(?: there are)?(?: the)? (?P<other>[a-z]+))? [.,]"
)
_THING = re.compile(rf"#(?P<noun>{NOUN})(?= )")
_LONGEST = 120  # characters of the sentence before


def find(speech: Speech) -> Iterator[Statement]:
    text = speech.text
    if " difference " in text:
        for match in _DIFFERENCE.finditer(text):
            told = _told(speech, match.start())
            if len(told) == 2 and " both " not in text[told[0][0] : match.start()]:  # "and now both have twelve"
                one, other = (speech.value_at(offset) for offset, _ in told)
                yield _make(speech, told[0][0], match, max(one, other), min(one, other))
    if " more " in text or " fewer " in text or " less " in text:
        for match in _MORE.finditer(text):
            told = _told(speech, match.start())
            if len(told) != 2 or told[0][1] == told[1][1] or not (match["other"] or " is " in match[0]):
                continue
            names = [noun for _, noun in told]
            if match["one"] not in names or (match["other"] or names[0]) not in names:
                continue
            of_one = names.index(match["one"])
            one, other = (speech.value_at(told[at][0]) for at in (of_one, 1 - of_one))
            yield _make(speech, told[0][0], match, *((one, other) if match["word"] == "more" else (other, one)))


def _told(speech: Speech, end: int) -> list[tuple[int, str]]:
    """The numbers of the sentence that ends at `end`, each with the last word of what it counts."""
    text = speech.text
    start = speech.sentence_before(end, _LONGEST)
    if start < 0:
        start = max(0, end - _LONGEST)
    found = [(match.start(), match["noun"].split(" ")[-1]) for match in _THING.finditer(text, start, end)]
    return found if len(found) == text.count("#", start, end) else []


def _make(speech: Speech, start: int, match: re.Match[str], big: int, small: int) -> Statement:
    at = match.start("n")
    amount = speech.value_at(at)
    return speech.statement(
        "difference", (big, small, amount), big - small == amount, start, at + 1, f"{big} - {small} = {amount}"
    )
