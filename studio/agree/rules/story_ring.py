"""In the finished sentence or bond of a story the ring is on the number that was found, never on one that was told
(common practice, no source)."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.rules.ring import told_whole
from studio.agree.tellings import family_of, tellings
from studio.findings import Finding
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.pictures.wholes import WholePicture
from studio.script.model import ChangePicture, Circle

NAME = "ring is on the answer"


def find(case: Case) -> Iterator[Finding]:
    for telling in tellings(case):
        for appearance in telling.pictures:
            direction = appearance.moment.direction
            if not isinstance(direction, ChangePicture) or not isinstance(direction.change, Circle):
                continue
            picture = appearance.picture
            if not isinstance(picture, NumberSentence | WholePicture) or direction.change.value == telling.answer:
                continue
            if family_of(picture) != (telling.whole, telling.parts):
                continue
            if len(telling.parts) > 2 and direction.change.value in telling.parts and not picture.filled:
                continue  # "Which two make ten?"
            if direction.change.value == telling.whole and told_whole(case, appearance, telling.whole):
                continue
            yield Finding(
                NAME, "error", direction.place.line, direction.place.column, "", direction.text,
                f"The ring is on {direction.change.value}, which the story on line {telling.story.line} tells. "
                f"The story asks for {telling.answer}.",
                f"Write [{direction.name}: circle {telling.answer}].",
            )  # fmt: skip
