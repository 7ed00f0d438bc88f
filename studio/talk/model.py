"""The values of talk. Word positions are indices into the sequence of words that was read (half-open: start, end)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Form = Literal["word", "digits", "ordinal", "pronoun"]


@dataclass(frozen=True, slots=True)
class Number:
    """A number that is said. `form`: "word" (nine, a dozen), "digits" (9), "ordinal" (third), "pronoun" (*one* that
    counts nothing: "the next one"); `line` and `column` count from 1."""

    value: int
    start: int
    end: int
    form: Form
    text: str
    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Statement:
    """An arithmetic statement that is said: `kind` is its short name ("sum"), `values` its numbers in the order of its
    kind, `holds` whether it is true (None: a question, or not decided), `written` the same in signs ("7 + 2 = 9"),
    `said` the words."""

    kind: str
    values: tuple[int, ...]
    holds: bool | None
    start: int
    end: int
    line: int
    column: int
    said: str
    written: str
    expected: int | bool | None = None
    """What a question asks for, where it can be worked out (a truth value for "Is 4 + 1 the same as 5 + 2?")."""
    answered: int | None = None
    """The position of the word with which a question is answered."""


@dataclass(frozen=True, slots=True)
class Story:
    """A story problem. `situation` is one of CCSSM Table 1 ("add to, change unknown"; "" where it cannot be told),
    `sentence` the number sentence with `?` ("7 + ? = 9"), `unknown` what is asked ("result", "change", "start",
    "total", "addend", "both addends", "difference", "bigger", "smaller"), `answer` None where it cannot be told. A sentence without a situation: no number fits
    what is told ("12 + ? = 9")."""

    start: int
    end: int
    line: int
    situation: str
    sentence: str
    unknown: str
    answer: int | None
    told: tuple[int, ...] = ()
