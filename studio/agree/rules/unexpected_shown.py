"""A number that a direction shows fits what is said and what else is shown. What was to be expected, and how sure one can be
that another number is a slip, was learned from right lessons and from the same lessons with one number changed
(`studio/agree/expect/shown`). Where it is only likely, the finding is a note."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Appearance, Case
from studio.agree.expect.doubt import judge
from studio.agree.expect.shown.families import FAMILIES
from studio.agree.expect.shown.place import ShownPlace
from studio.agree.expect.shown.suspects import judged
from studio.agree.expect.suspicion import Suspect
from studio.agree.expect.trial import tried_as_shown
from studio.agree.hops import ways
from studio.agree.implied import by_all_together, by_the_last_row, by_what_is_empty
from studio.agree.rules.unexpected import FEW, FEWEST, instead
from studio.findings import Finding
from studio.pictures.spans import SpanPicture
from studio.script.model import Show

NAME = "picture fits the words"
DOUBTS = True
CERTAIN = 4.5
LIKELY = 1.5
"""The doubts (log-odds) from which a finding is an error, where the number is not tried, and a note."""
TRIED = 2.0
"""The log-odds, by its trial, from which it is an error."""
BOUND = 1.5
"""By how much more one must doubt where a line, a path or a chart begins or ends, which nobody says, and what stands in a text."""
_ENDS = ("start", "end")


def find(case: Case) -> Iterator[Finding]:
    doubted = [*doubtful(case, LIKELY)]
    for suspect, doubt in doubted:
        slot = suspect.place.slot
        direction = slot.direction
        line = direction.place.line
        certain = len(case.counted) >= FEWEST and _is_certain(case, suspect, doubt, len(doubted) <= FEW)
        yield Finding(
            NAME,
            "error" if certain else "note",
            line,
            direction.place.column,
            "",
            direction.text,
            f"[{direction.text}] on line {line} shows {slot.value}, and that does not fit what is said and "
            "shown around it.",
            instead(suspect.expectation, FAMILIES),
        )


def doubtful(case: Case, least: float) -> Iterator[tuple[Suspect[ShownPlace], float]]:
    """The numbers of directions that one must doubt by more than so much and of which nothing else tells, each with its doubt."""
    if case.lesson is None:  # words that were heard: nothing need be read that was learned
        return
    doubted = [(suspect, doubt) for suspect, doubt in judged(case) if doubt > least]
    if not doubted:
        return
    # that nothing is there yet where something comes later need not be said
    filled_later = {seen.moment.direction.place for seen in case.pictures if id(seen) in case.growing}
    asked_about = {suspect.place.slot.direction.place for suspect, _ in doubted}
    told_by_rest = {
        seen.moment.direction.place
        for seen in case.pictures
        if seen.moment.direction.place in asked_about and any(tells(case, seen) for tells in _TOLD_BY_REST)
    }
    for suspect, doubt in doubted:
        place = suspect.place.slot.direction.place
        is_empty = suspect.place.value == 0 and place in filled_later
        if place.line not in case.excused and place not in told_by_rest and not is_empty:
            yield suspect, doubt


def is_loose(suspect: Suspect[ShownPlace]) -> bool:
    """Whether many numbers would do there: a line, a path or a chart begins or ends somewhere, and nobody says where."""
    return suspect.place.slot.name in _ENDS


def _is_certain(case: Case, suspect: Suspect[ShownPlace], doubt: float, is_tried: bool) -> bool:
    """Whether one can be sure that it is a slip, by its trial; where it is not tried or cannot be, by the doubt."""
    loose = is_loose(suspect)
    trial = tried_as_shown(case, suspect, doubt, loose) if is_tried else None
    if trial is not None:
        return judge("tried_shown").doubt(trial) > TRIED + BOUND * loose
    return doubt > CERTAIN + BOUND * (loose or suspect.place.slot.kind == "text")


def _marks_the_goal(case: Case, seen: Appearance) -> bool:
    """Whether what is marked on a line is where it is hopped to then ("[show path: 0 to 10, mark 7] Start with five. [path: hop 5 to 7]")."""
    direction = seen.moment.direction
    return (
        isinstance(seen.picture, SpanPicture)
        and isinstance(direction, Show)
        and any(
            way.name == seen.moment.name and way.end in seen.picture.marked
            for way in ways(case).get(direction.segment, ())
        )
    )


_TOLD_BY_REST = (by_what_is_empty, by_all_together, by_the_last_row, _marks_the_goal)
"""What tells of a number that is shown, though it is not said."""
