"""A doubted number is tried: what stands around it is read once more with the number that was rather to be expected in its
place. Where a slip was made the numbers beside it fit better than before, sums come true, and the rules mind less; where only an odd
thing was said, they do not. How sure one can be by that was learned (`benchmarks/trials.py`)."""

from __future__ import annotations

import math

from studio.agree.case import Case
from studio.agree.expect.ordered.chances import Chances, chances
from studio.agree.expect.ordered.offers import GREATEST
from studio.agree.expect.place import Place
from studio.agree.expect.retold import Retold, Span, around
from studio.agree.expect.shown.place import ShownPlace
from studio.agree.expect.shown.slots import renumbered
from studio.agree.expect.suspicion import Suspect

NAMES = (
    "doubt",
    "many would do",
    "chance of the expected",
    "surprise",
    "surprise as it is told here",
    "surprise of the expected",
    "surprise as it is read in order",
    "surprise of the expected as it is read in order",
    "chance of the likeliest in order",
    "the likeliest in order is expected",
    "how much less the others surprise",
    "how much less one of them at most",
    "how much less one of them at least",
    "true where it stands",
    "true where the expected stands",
    "false where it stands",
    "false where the expected stands",
    "more that is true",
    "more that is false",
    "errors",
    "fewer errors",
    "notes",
    "fewer notes",
)
"""What is learned from: the statements are counted where the number stands, and in all that is read once more; errors and notes are
those of the rules that doubt nothing."""
_OF_STANDING = tuple(name for name in NAMES if "stands" in name)
SHOWN_NAMES = tuple(name for name in NAMES if name not in _OF_STANDING)
"""The same for a number that is shown, which no statement covers."""


def tried(case: Case, suspect: Suspect[Place], doubt: float, loose: bool) -> tuple[float, ...] | None:
    """What comes of the trial of a doubted number, in the order of `NAMES`; `loose` is whether many numbers would do there.
    None where the number has several words."""
    place, expected = suspect.place, suspect.expectation.likely[0][0]
    number = place.number
    if case.lesson is None or number.end != number.start + 1:
        return None
    at, span = number.start, around(place.start, place.end, number.start)
    now, then = _as_it_is(case, span), Retold(case.lesson, span, {at: expected})
    own = now.surprises.get(at, -1.0), then.surprises.get(at, -1.0)
    standing = [retold.told_at(at, holds) for holds in (True, False) for retold in (now, then)]
    in_order = _in_order(chances(case, place.segment, at), number.value, expected)
    return *_known(suspect, doubt, loose), *own, *in_order, *_less(now, then, at), *standing, *_more(now, then)


def tried_as_shown(case: Case, suspect: Suspect[ShownPlace], doubt: float, loose: bool) -> tuple[float, ...] | None:
    """The same for a number of a direction, in the order of `SHOWN_NAMES`. None where it is written in words, or with nothing said."""
    place, expected = suspect.place, suspect.expectation.likely[0][0]
    direction = place.slot.direction
    other = renumbered(direction, place.index, expected)
    if case.lesson is None or other is None or place.start == place.end:
        return None
    span = around(place.start, place.end, direction.at)
    now, then = _as_it_is(case, span), Retold(case.lesson, span, {}, other)
    at = direction.place, place.index
    own = now.shown_surprises.get(at, -1.0), then.shown_surprises.get(at, -1.0)
    in_order = _in_order(chances(case, direction.segment, at), place.value, expected)
    return *_known(suspect, doubt, loose), *own, *in_order, *_less(now, then), *_more(now, then)


def _as_it_is(case: Case, span: Span) -> Retold:
    """A span as it is, read once more only once."""
    told: dict[Span, Retold] = case.__dict__.setdefault("_retold", {})
    if span not in told:
        assert case.lesson is not None
        told[span] = Retold(case.lesson, span, {})
    return told[span]


def _known(suspect: Suspect[Place] | Suspect[ShownPlace], doubt: float, loose: bool) -> tuple[float, ...]:
    """What was known before the trial."""
    return doubt, loose, suspect.expectation.likely[0][1], suspect.expectation.surprise


def _in_order(found: Chances | None, value: int, expected: int) -> tuple[float, ...]:
    """What is told of a number, and of the one that was expected, by all that is read in order; nothing within a count."""
    if found is None:
        return -1.0, -1.0, -1.0, -1.0
    own, other = (-math.log(found[min(one, GREATEST)]) for one in (value, expected))
    return own, other, float(found.max()), float(found.argmax() == expected)


def _less(now: Retold, then: Retold, but: int = -1) -> tuple[float, ...]:
    """How much less the numbers that are said surprise, but for that at a word: in all, one of them at most and at least."""
    others = sorted(now.surprises.keys() & then.surprises.keys() - {but})
    less = [now.surprises[other] - then.surprises[other] for other in others]
    return sum(less), max(less, default=0.0), min(less, default=0.0)


def _more(now: Retold, then: Retold) -> tuple[float, ...]:
    """How much more is true and is false, and what the rules mind, now and how much less of it then."""
    (errors, notes), (errors_then, notes_then) = now.minded, then.minded
    more = (then.told(holds) - now.told(holds) for holds in (True, False))
    return *more, errors, errors - errors_then, notes, notes - notes_then
