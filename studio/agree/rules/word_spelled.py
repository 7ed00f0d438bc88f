"""A number word on the screen is spelled right ("[show word: fourty]" with "Forty.")."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.wording import of_direction
from studio.findings import Finding
from studio.pictures.kinds.word import Word
from studio.script.nearest import nearest
from studio.script.numberwords import to_number, to_words

NAME = "word is spelled right"
_WORDS = [to_words(value) for value in range(121)]


def find(case: Case) -> Iterator[Finding]:
    for seen in case.pictures:
        picture, direction = seen.picture, seen.moment.direction
        if not isinstance(picture, Word) or picture.numbers or direction.place.line in case.excused:
            continue
        meant = nearest(picture.text.lower(), _WORDS)
        segment = case.lesson.segments[direction.segment] if case.lesson is not None else None
        if meant is None or segment is None or to_number(meant) not in case.said_in(direction.segment):
            continue
        spoken = {word.plain for word in segment.words}
        if not set(picture.text.lower().split()) <= spoken:  # "even" may be meant, and is said then
            message = (
                f"Line {direction.place.line} writes “{picture.text}” on the screen; the word is spelled “{meant}”."
            )
            yield of_direction(NAME, direction, message, f"Write {meant}.")
