"""The drawing of a story begins and ends with numbers of the story.

Only where one picture of dots and crosses is drawn for the story: with several, each may show a piece of it.
"""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.tellings import Telling, drawings, tellings
from studio.agree.wording import counted, row
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.marks import MarkPicture

NAME = "drawing fits story"


def _groups_go(telling: Telling, first: Picture, last: MarkPicture) -> bool:
    """Whether equal groups were drawn all at once, and then whole groups went ("Three frogs with four flies each: twelve.
    Suppose one hops off.")."""
    return (
        isinstance(first, MarkPicture)
        and first.total == telling.answer == telling.whole
        and len(telling.parts) > 2
        and len(set(telling.parts)) == 1
        and last.total % telling.parts[0] == 0
        and not last.crosses
    )


def find(case: Case) -> Iterator[Finding]:
    for telling in tellings(case):
        drawn = drawings(telling)
        if len(drawn) != 1:
            continue
        life = telling.life(drawn[0])
        fits = telling.values | {0}
        for appearance, moment in ((life[0], "begins"), (life[-1], "ends")):
            picture = appearance.picture
            if not isinstance(picture, MarkPicture) or (picture.total in fits and picture.dots in fits):
                continue
            if appearance is life[-1] and any(
                isinstance(step.picture, MarkPicture) and step.picture.total == telling.answer for step in life[1:-1]
            ):
                continue  # it came to the answer, and then the next story began with the same picture
            if appearance is life[-1] and _groups_go(telling, life[0].picture, picture):
                continue
            if telling.whole > 20 and {picture.dots, picture.crosses} <= {part % 10 for part in telling.parts}:
                continue  # only the ones of 37 + 6
            direction = appearance.moment.direction
            shown = row([counted(number, mark) for mark, number in
                         (("dot", picture.dots), ("cross", picture.crosses)) if number] or ["nothing"])  # fmt: skip
            # A full frame with the rest beside it is the way over the ten ("four fill the frame and one is left over").
            over = picture.framed and picture.total == picture.capacity < telling.whole and picture.dots in fits
            yield Finding(
                NAME, "note" if over else "error", direction.place.line, direction.place.column, "", direction.text,
                f"The drawing {moment} with {shown}. The story on line {telling.story.line} is {telling.finished}; "
                f"it has {row(sorted(telling.values))}.",
                f"Draw {telling.parts[-1]} and {row(telling.parts[:-1])}, {telling.whole} in all."
                if "-" not in telling.story.sentence
                else f"Draw {telling.finished.split(' = ')[0].replace(' - ', ' and take away ')}.",
            )  # fmt: skip
            break
