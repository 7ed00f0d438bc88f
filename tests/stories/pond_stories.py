"""Stories of our own at the pond, in `pond_stories.txt`: situation | story | question | sentence | answer.

The situations are all those of Table 1 of the Common Core State Standards for Mathematics (2010), from memory, in the
wordings with *more* and with *fewer* where amounts are compared.
"""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple


class PondStory(NamedTuple):
    """One story; `answer` None where it cannot be told."""

    situation: str
    story: str
    question: str
    sentence: str
    answer: int | None


def _read() -> tuple[PondStory, ...]:
    found = []
    for line in (Path(__file__).parent / "pond_stories.txt").read_text("utf-8").splitlines():
        situation, story, question, sentence, answer = (part.strip() for part in line.split("|"))
        found.append(PondStory(situation, story, question, sentence, None if answer == "None" else int(answer)))
    return tuple(found)


POND_STORIES = _read()
