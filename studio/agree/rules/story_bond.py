"""The number bond or bar of a story must have the story's whole and parts.

Only said where no bond or bar shown for the story fits it.
"""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.tellings import misfits
from studio.agree.wording import row
from studio.findings import Finding
from studio.pictures.wholes import WholePicture

NAME = "bond fits story"


def find(case: Case) -> Iterator[Finding]:
    for telling, appearance, fact in misfits(case, WholePicture):
        if fact[0] in telling.parts and fact[0] == sum(fact[1]):
            continue  # a part that is itself parted ("28 + 7: seven is two and five")
        direction = appearance.moment.direction
        yield Finding(
            NAME, "error", direction.place.line, direction.place.column, "", direction.text,
            f"The story on line {telling.story.line} has the whole {telling.whole} and the parts {row(telling.parts)}. "
            f"The {appearance.picture.kind} shows the whole {fact[0]} with the parts {row(fact[1])}.",
            f"Show {telling.whole} is {row(telling.parts)}, with ? for the {telling.answer} until it is found.",
        )  # fmt: skip
