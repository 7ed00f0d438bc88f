"""A story whose numbers cannot be: more come, and there are fewer than before."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.tellings import explained_otherwise
from studio.findings import Finding
from studio.talk.numbers import said

NAME = "story can be"


def find(case: Case) -> Iterator[Finding]:
    for story in case.talk.stories:
        if (
            story.situation
            or not story.sentence
            or case.is_excused(story.start, story.end)
            or explained_otherwise(case, story)
        ):
            continue
        line, column = case.line_of(story.start)
        yield Finding(
            NAME, "error", line, column, said(case.talk.words, story.start, story.end), "",
            f"The story that begins on line {line} tells {story.sentence}, and no number fits there.",
            "Change one of the numbers of the story.",
        )  # fmt: skip
