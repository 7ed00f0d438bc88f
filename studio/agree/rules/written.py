"""What stands written on the screen in figures and signs is true: in a text ("[show text: 9 + 4 = 13]"), in the words of a wait."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.denials import denied
from studio.agree.games import called_out
from studio.agree.wording import of_direction, why_false
from studio.agree.writings import words_on_screen
from studio.findings import Finding
from studio.script.model import Direction
from studio.talk.model import Statement
from studio.talk.numbers import find_numbers, words_of
from studio.talk.speech import speech
from studio.talk.statements import find_statements

NAME = "written arithmetic"
_SIGN = re.compile(r"(?<=[\d?])\s*([+=<>−–-])\s*(?=[\d?])")
_FIGURES = re.compile(r"[\d\s.,;+=<>−–-]+")


def find(case: Case) -> Iterator[Finding]:
    for words in words_on_screen(case):
        yield from _false(case, words.direction, words.text)


def _false(case: Case, direction: Direction, text: str) -> Iterator[Finding]:
    if direction.place.line in case.excused:
        return
    for statement in written_statements(text):
        if statement.holds is not False or denied(case, statement.values, direction.at) or _is_played(case, direction):
            continue
        why, instead = why_false(statement)
        why = why.removeprefix(f"In signs that is {statement.written}, and it is not true: ")
        message = f"Line {direction.place.line} writes {statement.said} on the screen. {why}"
        yield of_direction(NAME, direction, message, instead.replace("Say ", "Write ", 1))


def _is_played(case: Case, direction: Direction) -> bool:
    """Whether true and false are called out where it stands."""
    played = called_out(case)
    return any(
        statement.start in played for statement in case.statements_between(direction.at - _NEAR, direction.at + _NEAR)
    )


_NEAR = 25  # words


def written_statements(text: str) -> list[Statement]:
    """The statements of a text that are in figures and signs alone."""
    words = words_of(_SIGN.sub(r" \1 ", text))
    numbers = find_numbers(words)
    found = find_statements(words, numbers, speech(words, numbers))
    return [one for one in found if "=" in one.said and _FIGURES.fullmatch(one.said)]
