"""The questions that stand written on the screen while children think ("[wait 4 s: 9 + 4]", "[wait 4 s: 5 and ? make 8]"), each with
the number that is said right after."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from studio.agree.case import Case
from studio.agree.expect.place import Book
from studio.script.model import Wait
from studio.talk.model import Number
from studio.talk.numbers import find_numbers, words_of
from studio.talk.speech import speech
from studio.talk.statements import find_statements

_ENDINGS = ("?", " is what?", " what?")
"""What makes a question of words that are one without saying so ("9 + 4", "5 and 3 make")."""
_BEGINS = frozenset("what is and so now write say solve much many how".split())
"""Words with which a written question may begin before its arithmetic does."""
_TURNED = frozenset("back backwards backward down by".split())
"""Words with which "after" and "next" mean another number."""
_STEPS = (2, 5, 10)
"""Steps of a count: what comes after a number is then another than the next one."""
_NAMED = re.compile(r"[\w-]+ and [\w-]+\s*[?.!]?")
_SOON = 3  # words that may come before the answer in its sentence
_LATER = 40  # words in which the right answer may still come
_UNITS = frozenset("tens ten ones hundreds hundred".split())
_NOT = frozenset("not no nope isn't".split())
_KEPT = 512


@dataclass(frozen=True, slots=True)
class WrittenQuestion:
    """`values` are the numbers of the question, `expected` is its answer, `answer` the number that is said right after, none
    where something else is said first or the right answer comes a little later; `told` is whether that comes at all."""

    wait: Wait
    values: tuple[int, ...]
    expected: int
    answer: Number | None
    told: bool

    @property
    def is_answered(self) -> bool:
        """Whether the right answer is said right after."""
        return self.answer is not None and self.answer.value == self.expected


class WrittenQuestions:
    """Those of a lesson, in order; `right` are the first words of the right answers."""

    def __init__(self, book: Book) -> None:
        self.all = tuple(_find(book.case))
        self.right = frozenset(one.answer.start for one in self.all if one.answer is not None and one.is_answered)


def _find(case: Case) -> Iterator[WrittenQuestion]:
    waits = [one for one in case.lesson.directions if isinstance(one, Wait)] if case.lesson is not None else []
    starts = [wait.at for wait in waits]
    for wait in waits:
        question = question_of(wait.words) if wait.words else None
        if question is not None and wait.at < len(case.talk.words):
            following = bisect_right(starts, wait.at)
            end = min([*starts[following : following + 1], case.segment_around(wait.at)[1]])
            values, expected = question
            told = expected in [one.value for one in case.numbers_between(wait.at, min(end, wait.at + _LATER))]
            answer = _answer(case, wait, end)
            if answer is not None and answer.value != expected and (told or _means_another(wait, values, answer.value)):
                answer = None
            yield WrittenQuestion(wait, values, expected, answer, told)


def _means_another(wait: Wait, values: tuple[int, ...], answer: int) -> bool:
    """Whether the next number of a count by steps is asked for ("What comes after 14?"), or in two numbers that are only named how
    far they are apart ("8 and 6")."""
    if len(values) == 1:
        return abs(answer - values[0]) in _STEPS
    return answer == abs(values[0] - values[-1]) and _NAMED.fullmatch(wait.words) is not None


@lru_cache(maxsize=_KEPT)
def question_of(text: str) -> tuple[tuple[int, ...], int] | None:
    """The numbers of a question, if it is one of arithmetic from beginning to end, and its answer."""
    bare = text.strip().rstrip(" ?!.…")
    words = words_of(bare)
    if not find_numbers(words) or any(word.plain in _TURNED for word in words):
        return None
    for ending in _ENDINGS:
        put = words_of(bare + ending)
        numbers = find_numbers(put)
        for statement in find_statements(put, numbers, speech(put, numbers)):
            if not isinstance(statement.expected, int) or isinstance(statement.expected, bool):
                continue
            begins = all(word.plain in _BEGINS for word in put[: statement.start])
            if begins and statement.end >= len(words) and statement.holds is None:
                return statement.values, statement.expected
    return None


def _answer(case: Case, wait: Wait, end: int) -> Number | None:
    """The number that answers a wait: the only one of the sentence that goes on there, said soon in it."""
    sentence = case.sentences[case.sentence_index(wait.at)]
    last = min(sentence.end, end)
    numbers = case.numbers_between(wait.at, last)
    if len(numbers) != 1 or wait.segment != sentence.segment:
        return None
    (answer,) = numbers
    words = case.talk.words
    behind = words[answer.end].plain if answer.end < last else ""
    if (
        answer.start - wait.at > _SOON
        or behind in _UNITS
        or "?" in words[last - 1].text
        or case.says(wait.at, last, _NOT)
    ):
        return None
    return answer
