"""The ? of the first sentence, bond or bar of a story stands for what the story asks, not for a number that it tells:
after "They had eight shells. Now they have eighteen. How many did they find?" not 10 + ? = 18."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.tellings import Telling, family_of, outside_counts, tellings
from studio.findings import Finding
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.pictures.wholes import WholePicture

NAME = "asks what the story asks"


def find(case: Case) -> Iterator[Finding]:
    for telling in tellings(case):
        if telling.answer in telling.story.told or telling.story.situation.startswith("compare"):
            continue
        for appearance in telling.shown(object):
            picture = appearance.picture
            if not isinstance(picture, NumberSentence | WholePicture) or appearance.until < telling.story.end:
                continue
            asked = _unknown(telling, picture)
            if asked is None:
                continue
            direction = appearance.moment.direction
            if asked == telling.answer or outside_counts(
                case, telling.answer, telling.story.end, appearance.moment.word
            ):
                break  # it may be checked the other way round when it was found
            yield Finding(
                NAME, "error", direction.place.line, direction.place.column, "", direction.text,
                f"The story on line {telling.story.line} is {telling.story.sentence}. In the {picture.kind} the ? "
                f"stands for {asked}, which the story tells, and {telling.answer} is written there.",
                f"Put ? in the place of {telling.answer}, or change the numbers of the story.",
            )  # fmt: skip
            break


def _unknown(telling: Telling, picture: NumberSentence | WholePicture) -> int | None:
    """What the only ? of a picture with the numbers of a story stands for; None for another picture."""
    if family_of(picture) != (telling.whole, telling.parts):
        return None
    left = [telling.whole, *telling.parts]
    written = [term.value for term in picture.terms] if isinstance(picture, NumberSentence) else picture.values
    for value in written:
        if value in left:
            left.remove(value)
    return left[0] if len(left) == 1 else None
