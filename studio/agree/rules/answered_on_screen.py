"""What stands on the screen as a question while children think is answered rightly when the talk goes on ("[wait 4 s: 9 + 4]
Thirteen.")."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.expect.place import book_of
from studio.agree.wording import of_number, spelled
from studio.agree.written_questions import WrittenQuestion, WrittenQuestions
from studio.findings import Finding
from studio.talk.model import Number

NAME = "written question is answered"


def find(case: Case) -> Iterator[Finding]:
    if case.lesson is None:
        return
    for asked in book_of(case).once(WrittenQuestions).all:
        answer, line = asked.answer, asked.wait.place.line
        if answer is None or asked.is_answered or line in case.excused or case.is_excused(answer.start, answer.end):
            continue
        yield of_number(
            NAME,
            answer,
            asked.wait.text,
            *_why(asked, answer),
        )


def _why(asked: WrittenQuestion, answer: Number) -> tuple[str, str]:
    """What is wrong, and what to do."""
    message = f"Line {asked.wait.place.line} asks “{asked.wait.words}” on the screen"
    if asked.expected < 0:
        return f"{message}, and no number answers that.", "Write a question that has an answer."
    message += f"; that makes {asked.expected}, and {spelled(answer.value)} is said."
    return message, f"Say {spelled(asked.expected)}, or write another question."
