"""The words that stand on the screen: those of texts and of waits, each with its direction and how long they stand there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from studio.agree.case import Case
from studio.pictures.kinds.text import Text
from studio.script.model import Direction, Wait


@dataclass(frozen=True, slots=True)
class Words:
    """Words on the screen from before word `start` to before word `end` of the talk."""

    direction: Direction
    text: str
    start: int
    end: int


def words_on_screen(case: Case) -> Iterator[Words]:
    """The words of all waits and texts of a lesson; none where words were only heard."""
    for direction in case.lesson.directions if case.lesson is not None else ():
        if isinstance(direction, Wait) and direction.words:
            yield Words(direction, direction.words, direction.at, direction.at + 1)
    for seen in case.pictures:
        if isinstance(seen.picture, Text):
            yield Words(seen.moment.direction, seen.picture.text, seen.moment.word, seen.until)
