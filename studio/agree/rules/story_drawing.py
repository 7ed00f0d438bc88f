"""The drawing of a story begins and ends with numbers of the story.

Only where one picture of dots and crosses is drawn for the story: with several, each may show a piece of it. Bars that
are laid beside each other are the two amounts that are compared.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from studio.agree.case import Appearance, Case
from studio.agree.tellings import Telling, drawings, tellings
from studio.agree.wording import counted, row
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.marks import MarkPicture
from studio.script.model import Add

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


def _comes_in_steps(telling: Telling, life: list[Appearance]) -> bool:
    """Whether things come more than once, unlike many, some of them as the story tells: it may tell of the others, too, in words that
    were not read ("Four boats lie there. A further one arrives, and after it three more.")."""
    comes = {id(step.change): step.change.count for step in life if isinstance(step.change, Add)}
    counts = set(comes.values())
    return len(counts) > 1 and not counts.isdisjoint(telling.values)


def _ends(life: list[Appearance]) -> list[Appearance]:
    """The pictures in which a step of the drawing ended, all but the last (a count passes by other numbers)."""
    return [step for step, following in pairwise(life) if step.moment.direction is not following.moment.direction]


def _bars(case: Case, telling: Telling) -> Iterator[Finding]:
    """The bars of a comparison that are not its two amounts, where no bars shown for it are."""
    amounts = sorted(telling.story.told)
    said = case.numbers_between(telling.story.start, telling.story.end)
    if telling.story.unknown != "difference" or sorted(number.value for number in said) != amounts:
        return
    end = case.segment_around(telling.story.start)[1]
    shown = [
        (seen, bars)
        for seen in telling.shown(CompareBars)
        if isinstance(bars := seen.picture, CompareBars) and seen.moment.word < end
    ]
    if not shown or any(sorted((bars.upper, bars.lower)) == amounts for _, bars in shown):
        return
    seen, bars = shown[0]
    if not {bars.upper, bars.lower} & set(amounts):
        return
    direction = seen.moment.direction
    yield Finding(
        NAME, "error", direction.place.line, direction.place.column, "", direction.text,
        f"The story on line {telling.story.line} compares {row(amounts)}, and the bars are {bars.upper} and "
        f"{bars.lower}.",
        f"Show bars of {row(amounts)}, or change the story.",
    )  # fmt: skip


def find(case: Case) -> Iterator[Finding]:
    for telling in tellings(case):
        yield from _bars(case, telling)
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
                isinstance(step.picture, MarkPicture) and step.picture.total == telling.answer
                for step in _ends(life[1:])
            ):
                continue  # it came to the answer, and then the next story began with the same picture
            if appearance is life[-1] and _comes_in_steps(telling, life):
                continue
            if appearance is life[-1] and _groups_go(telling, life[0].picture, picture):
                continue
            if appearance is life[-1] and len(telling.parts) > 2 and picture.total == telling.whole:
                continue  # of three parts, some are dots and some are crosses
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
