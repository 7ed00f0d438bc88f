"""What stands written on the screen is true: in a text ("[show text: 9 + 4 = 13]"), in the words of a wait, in a title
("# Seven and three make ten")."""

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
_TELLS = re.compile(r"\b(?:makes?|made|equals?|is|are|gives?)\b", re.IGNORECASE)
_OTHERWISE = re.compile(r"[,=]|\bdozen\b", re.IGNORECASE)  # "2 cups = 1 can", a baker's dozen
_FIGURES = re.compile(r"[\d\s.,;+=<>−–-]+")


def find(case: Case) -> Iterator[Finding]:
    for words in words_on_screen(case):
        yield from _false(case, words.direction, words.text)
    if case.lesson is None:
        return
    header = case.lesson.header
    titles = {
        header.title: (header.lines.get("title", 0), 0)
    }  # what stands before the first title has that of the lesson
    for segment in case.lesson.segments:
        titles.setdefault(segment.title, (segment.place.line, segment.words[0].index if segment.words else 0))
    for title, (line, position) in titles.items():
        yield from _false_title(case, line, position, title)


def _false_title(case: Case, line: int, position: int, title: str) -> Iterator[Finding]:
    """A title that is a false sum and nothing else: "Find the mistake: 2 + 2 = 5" is true."""
    if not case.excused.isdisjoint(range(line - 1, line + _NOTED + 1)):
        return  # a note cannot stand in a title, only beside it
    for statement in written_statements(title):
        told = title.strip(" .!*_")
        if statement.holds is False and statement.said == told and not denied(case, statement.values, position):
            why, instead = _why_false(statement)
            message = f"The title on line {line} says {statement.said}. {why}"
            yield Finding(NAME, "error", line, 1, statement.said, "", message, instead.replace("Say ", "Write ", 1))


def _false(case: Case, direction: Direction, text: str) -> Iterator[Finding]:
    if direction.place.line in case.excused:
        return
    for statement in written_statements(text):
        if statement.holds is not False or denied(case, statement.values, direction.at) or _is_played(case, direction):
            continue
        why, instead = _why_false(statement)
        message = f"Line {direction.place.line} writes {statement.said} on the screen. {why}"
        yield of_direction(NAME, direction, message, instead.replace("Say ", "Write ", 1))


def _is_played(case: Case, direction: Direction) -> bool:
    """Whether true and false are called out where it stands."""
    played = called_out(case)
    return any(
        statement.start in played for statement in case.statements_between(direction.at - _NEAR, direction.at + _NEAR)
    )


_NEAR = 25  # words
_NOTED = 2  # lines behind a title


def _why_false(statement: Statement) -> tuple[str, str]:
    why, instead = why_false(statement)
    return why.removeprefix(f"In signs that is {statement.written}, and it is not true: "), instead


def written_statements(text: str) -> list[Statement]:
    """The statements of a text: those in figures and signs, and those in words that are told in one breath ("8 and 5, make a ten
    on the way" tells how it is done) and not asked. A row of numbers may be meant to have a gap."""
    words = words_of(_SIGN.sub(r" \1 ", text))
    numbers = find_numbers(words)
    found = find_statements(words, numbers, speech(words, numbers))
    is_asked = text.rstrip().endswith("?")
    return [
        one
        for one in found
        if ("=" in one.said and _FIGURES.fullmatch(one.said))
        or (_TELLS.search(one.said) and not (is_asked or _OTHERWISE.search(one.said) or one.kind.startswith("count")))
    ]
