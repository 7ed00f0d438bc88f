"""The number that a stretch of talk is about: "the number of the day is fourteen", "today's number is 14", "partners of 8"."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.talk.model import Number
from studio.talk.speech import Speech

_TOPIC = re.compile(
    r"(?:number of the day|today is (?:special |star |mystery |new |big )?number|(?:our|my|the|this) (?:special|star|mystery|secret|new|teen|lucky|big|next|first|second|target)?(?: )?number(?: for today| today| this time| of the day)?)"
    r" (?:is|will be|was|, it is|, is|today is|,) (?:the number |called |a |number )?#(?= [.,?])"
)
_WHOLE = re.compile(
    r"(?:partners|parts|number pairs|pairs|number bonds|bonds|ways to make|ways of making|ways to build|combinations|friends|number friends|names|ways to get to|facts) "
    r"(?:of|to|for|that make|which make|to make|make)?(?: ?the number)? ?#(?= (?:first |now |next |today )?[.,?])"
)
_MADE = re.compile(r" (?:the whole is always|we are making) #(?= [.,?])")
_LISTED = re.compile(r"parts #(?: ,)?(?: and)? #")


def topic_numbers(speech: Speech) -> Iterator[Number]:
    """The numbers that are said to be the number of the day or the like."""
    if " number" not in speech.text:
        return
    for match in _TOPIC.finditer(speech.text):
        yield speech.number_at[match.end() - 1]


def wholes(speech: Speech) -> Iterator[Number]:
    """The numbers whose partners are talked about."""
    for match in _WHOLE.finditer(speech.text):
        if _LISTED.match(speech.text, match.start()):
            continue  # "fifteen, with the parts six, four and five"
        yield speech.number_at[speech.text.rindex("#", match.start(), match.end())]
    for match in _MADE.finditer(speech.text):
        yield speech.number_at[match.end() - 1]
