"""The number sentence of a story must be the story's: the same whole and the same parts.

Only said where no number sentence shown for the story fits it; helping facts beside one that fits are left alone.
"""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.tellings import misfits
from studio.findings import Finding
from studio.pictures.kinds.number_sentence import NumberSentence

NAME = "sentence fits story"


def find(case: Case) -> Iterator[Finding]:
    for telling, appearance, _ in misfits(case, NumberSentence):
        direction = appearance.moment.direction
        written = getattr(appearance.picture, "written", direction.text)
        yield Finding(
            NAME, "error", direction.place.line, direction.place.column, "", direction.text,
            f"The story on line {telling.story.line} is {telling.story.sentence}, and its answer is {telling.answer}. "
            f"The number sentence shows {written}.",
            f"Show {telling.story.sentence}, or change the story so that it fits.",
        )  # fmt: skip
