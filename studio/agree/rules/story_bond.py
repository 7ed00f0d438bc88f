"""The number bond or bar of a story must have the story's whole and parts.

Only said where no bond or bar shown for the story fits it.
"""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Appearance, Case
from studio.agree.tellings import Telling, misfits, outside_counts
from studio.agree.wording import row
from studio.findings import Finding
from studio.pictures.wholes import WholePicture

NAME = "bond fits story"
_AFTER = 2
"""Sentences after the first behind a picture, in which what it asks is said."""


def _asks_anew(case: Case, telling: Telling, appearance: Appearance) -> bool:
    """Whether the story is answered by then and a new question begins with the picture: all its numbers are said at once ("Four
    and three are seven. [8 is 7 and ?] Seven are in the apron. She wants eight.")."""
    start = appearance.moment.word
    _, last = case.sentences_around(case.sentence_index(start), 0, _AFTER)
    said = {number.value for number in case.numbers_between(start, case.sentences[last].end)}
    return outside_counts(case, telling.answer, telling.story.end, start) and said.issuperset(
        appearance.picture.numbers
    )


def find(case: Case) -> Iterator[Finding]:
    for telling, appearance, fact in misfits(case, WholePicture):
        if fact[0] in telling.parts and fact[0] == sum(fact[1]):
            continue  # a part that is itself parted ("28 + 7: seven is two and five")
        if _asks_anew(case, telling, appearance):
            continue
        direction = appearance.moment.direction
        yield Finding(
            NAME, "error", direction.place.line, direction.place.column, "", direction.text,
            f"The story on line {telling.story.line} has the whole {telling.whole} and the parts {row(telling.parts)}. "
            f"The {appearance.picture.kind} shows the whole {fact[0]} with the parts {row(fact[1])}.",
            f"Show {telling.whole} is {row(telling.parts)}, with ? for the {telling.answer} until it is found.",
        )  # fmt: skip
