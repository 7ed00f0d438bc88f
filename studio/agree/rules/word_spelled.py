"""A number word on the screen is spelled right ("[show word: fourty]" with "Forty."). A note: another word may be meant."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from studio.agree.case import Case
from studio.agree.wording import of_direction
from studio.findings import Finding
from studio.pictures.kinds.word import Word
from studio.script.nearest import nearest
from studio.script.numberwords import to_number, to_words
from studio.talk.numbers import PLURALS

NAME = "word is spelled right"
_SHORTEST = 5
_WORDS = [to_words(value) for value in range(121)]


def find(case: Case) -> Iterator[Finding]:
    for seen in case.pictures:
        picture, direction = seen.picture, seen.moment.direction
        if not isinstance(picture, Word) or picture.numbers or direction.place.line in case.excused:
            continue
        written = picture.text.lower()
        if len(written) < _SHORTEST or written in PLURALS:
            continue
        meant = nearest(written, _WORDS)
        if (
            meant is None
            or written.replace("-", "") == meant
            or to_number(meant) not in case.said_in(direction.segment)
        ):
            continue  # "seven-teen"
        start, end = case.segments[direction.segment]
        if all(case.says(start, end, (word,)) for word in written.split()):
            continue  # "even" may be meant, and is said then
        message = (
            f"Line {direction.place.line} writes “{picture.text}” on the screen. The number word is spelled “{meant}”."
        )
        found = of_direction(NAME, direction, message, f"Write {meant}, if that is meant.")
        yield replace(found, level="note")
