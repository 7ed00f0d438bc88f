"""What a lesson says it is about, in its titles and in its words: the number of the day, the number whose partners it finds."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from studio.script.model import Lesson
from studio.talk.numbers import find_numbers, words_of
from studio.talk.speech import Speech, speech

_OF_THE_DAY = re.compile(
    r" (?:number of the day|number of today|number for today|today is number|our (?:new |special )?number)"
    r"(?: today)?(?: is| ,)?(?: the number)? (#) "
)
_PARTNERS = re.compile(
    r" (?:(?:number )?(?:partners?|bonds?|pairs) (?:of|for|to|that make|making)(?: the number)?|partner"
    r"|ways (?:to (?:make|build|split|break)|of making)) (#) "
)


def titles_and_words(lesson: Lesson) -> tuple[Speech, ...]:
    """What is to be looked at: the titles, and then what is said."""
    titles = [lesson.header.title, *(segment.title for segment in lesson.segments)]
    return tuple(speech(words, find_numbers(words)) for words in (*map(words_of, titles), lesson.words))


def number_of_the_day(said: Sequence[Speech]) -> int | None:
    """The number that is called the number of the day; None where none is."""
    return next(_named(said, _OF_THE_DAY), None)


def partners_of(said: Sequence[Speech]) -> tuple[int, ...]:
    """The numbers whose partners are spoken of, those of titles first, each once."""
    return tuple(dict.fromkeys(_named(said, _PARTNERS)))


def _named(said: Sequence[Speech], pattern: re.Pattern[str]) -> Iterator[int]:
    for talk in said:
        for match in pattern.finditer(talk.text):
            yield talk.value_at(match.start(1))
