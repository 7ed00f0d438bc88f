"""Sounds that are made and then counted are as many as one hears ("Clap, clap, clap. It is three.", "Knock, knock. Two knocks.")."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.wording import of_number, spelled
from studio.findings import Finding

NAME = "sounds as counted"
_MADE = re.compile(
    r"(?<=[.?¶§] )(?P<sounds>(?P<one>clap|knock|tap|beep|ding|snap|stamp|toot|quack|croak|peep|plop|splash|tick)(?: , (?P=one))+) \. (?:¶ )?"
    r"(?:(?:it is|it was|that is|that was) (?P<is>#)(?= [.,])|(?P<lone>#)(?= (?:(?P=one)e?s|, yes) ))"
)


def find(case: Case) -> Iterator[Finding]:
    speech = case.talk.speech
    for match in _MADE.finditer(speech.text):
        number = speech.number_at[match.start("is") if match["is"] else match.start("lone")]
        many = match["sounds"].count(",") + 1
        if number.value != many and not case.is_excused(number.start, number.end):
            yield of_number(
                NAME, number, "", f"Line {number.line} says {number.value}, but “{match['one']}” is said {many} times.",
                f"Say {spelled(many)}, or make {number.value} of them.",
            )  # fmt: skip
