"""How hard the talk of a lesson is, by two measures that are not ours."""

from __future__ import annotations

import itertools

import textstat  # type: ignore[import-untyped]

from studio.script.model import Lesson, Word
from studio.script.numberwords import to_number


def levels(lesson: Lesson, *, numerals: bool = False) -> tuple[float, float]:
    """The Automated Readability Index and the Coleman-Liau index by textstat: school grades of the United States,
    kindergarten is 0, and a text is of a grade until the next begins. Both count letters, words and sentences.

    With `numerals`, numbers are written as digits: "seventeen" is what a lesson is about and no hard word in it.
    """
    text = spoken(lesson, numerals=numerals)
    return textstat.automated_readability_index(text), textstat.coleman_liau_index(text)


def spoken(lesson: Lesson, *, numerals: bool = False) -> str:
    """What is said, without the rows of a count ("ten, twenty, thirty"), which are no sentences to be understood."""
    sentences = [list(words) for _, words in itertools.groupby(lesson.words, key=lambda word: word.sentence)]
    told = [words for words in sentences if not all(_number(word) is not None for word in words)]
    return " ".join(_written(word, numerals) for words in told for word in words)


def _written(word: Word, numerals: bool) -> str:
    number = _number(word) if numerals else None
    if number is None:
        return word.text
    return str(number) + (word.text[-1] if not word.text[-1].isalnum() else "")


def _number(word: Word) -> int | None:
    try:
        return to_number(word.plain)
    except ValueError:
        return None
