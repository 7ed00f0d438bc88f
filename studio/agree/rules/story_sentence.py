"""The number sentence of a story must be the story's: the same whole and the same parts.

Only said where no number sentence shown for the story fits it; helping facts beside one that fits are left alone.
"""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.tellings import family_of, tellings
from studio.findings import Finding
from studio.pictures.kinds.number_sentence import NumberSentence

NAME = "sentence fits story"


def find(case: Case) -> Iterator[Finding]:
    for telling in tellings(case):
        shown = [(appearance, family_of(appearance.picture)) for appearance in telling.shown(NumberSentence)
                 if isinstance(appearance.picture, NumberSentence)]  # fmt: skip
        facts = [(appearance, fact) for appearance, fact in shown if fact is not None]
        if not facts or any(fact == (telling.whole, telling.parts) for _, fact in facts):
            continue
        appearance, fact = facts[0]
        if not telling.values & {fact[0], *fact[1]}:
            continue
        direction = appearance.moment.direction
        written = getattr(appearance.picture, "written", direction.text)
        yield Finding(
            NAME, "error", direction.place.line, direction.place.column, "", direction.text,
            f"The story on line {telling.story.line} is {telling.story.sentence}, and its answer is {telling.answer}. "
            f"The number sentence shows {written}.",
            f"Show {telling.story.sentence}, or change the story so that it fits.",
        )  # fmt: skip
