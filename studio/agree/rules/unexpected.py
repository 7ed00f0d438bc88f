"""A number that is said fits its place: it was to be expected from what is said and shown around it. What was to be
expected, and how sure one can be that another number is a slip, was learned from right lessons and from the same lessons
with one number changed (`studio/agree/expect`). Where it is only likely, the finding is a note."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from studio.agree.accounts import ACCOUNTS, SEEN
from studio.agree.case import Case
from studio.agree.claimed import is_put_right
from studio.agree.denials import denied, one_is_looked_for, refused
from studio.agree.expect.doubt import judge
from studio.agree.expect.expectation import Expectation
from studio.agree.expect.families import FAMILIES
from studio.agree.expect.place import Place
from studio.agree.expect.shown import suspects as shown_suspects
from studio.agree.expect.suspects import judged
from studio.agree.expect.suspicion import Suspect
from studio.agree.expect.trial import tried
from studio.agree.manners import denied as not_so
from studio.agree.wording import ZERO, row
from studio.findings import Finding

NAME = "number fits its place"
DOUBTS = True
CERTAIN = 3.25
LIKELY = 1.5
"""The doubts (log-odds) from which a finding is an error, where the number cannot be tried, and a note."""
TRIED = 2.25
"""The log-odds, by its trial, from which it is an error."""
MORE = 1.25
"""By how much more, where it is what is seen."""
FEW, _ONE_IN = 16, 12
"""Where more numbers than so many, and more than one in so many, are doubted, none is tried: that would take long, and tell little."""
BOUND = 1.0
"""By how much more one must doubt a number where many would do ("it is smaller than 18")."""
SHOWN_TOO = 1.0
"""The doubt of a number that is shown from which it speaks for one that is said and doubted."""
FEWEST = 10
"""Numbers that are said in a lesson: in a few sentences there is too little to tell what is to be expected."""
_CHANCE = 0.1
"""A number that is at least so likely is to be expected."""
_COMPARING = frozenset("than before after above below over under".split())


def find(case: Case) -> Iterator[Finding]:
    doubted = [*doubtful(case, LIKELY)]
    is_tried = len(doubted) <= max(FEW, len(case.counted) // _ONE_IN)
    for suspect, doubt in doubted:
        number = suspect.place.number
        is_seen = any(accounts(case, suspect.place) for accounts in SEEN)
        certain = len(case.counted) >= FEWEST and _is_certain(case, suspect, doubt, is_tried, is_seen)
        if is_seen and not certain:
            continue
        yield Finding(
            NAME,
            "error" if certain else "note",
            number.line,
            number.column,
            number.text,
            "",
            f"Line {number.line} says {number.value}, and that does not fit what is said and shown around it.",
            instead(suspect.expectation, FAMILIES),
        )


def doubtful(case: Case, least: float) -> Iterator[tuple[Suspect[Place], float]]:
    """The numbers that one must doubt by more than so much and that nothing accounts for, each with its doubt."""
    if case.lesson is None:  # words that were heard: nothing need be read that was learned
        return
    for suspect, doubt in judged(case):
        place, sentence = suspect.place, suspect.place.sentence
        if doubt <= least or case.is_excused(sentence.start, sentence.end) or _denied(case, place):
            continue
        if not _is_put_right(case, suspect) and not any(accounts(case, place) for accounts in ACCOUNTS):
            yield suspect, doubt


def _is_certain(case: Case, suspect: Suspect[Place], doubt: float, is_tried: bool, is_seen: bool) -> bool:
    """Whether one can be sure that it is a slip, by what is shown or by its trial; where it is not tried or cannot be, by the doubt."""
    if is_tried and _is_doubted_as_shown(case, suspect):
        return True
    loose = is_loose(case, suspect.place)
    trial = tried(case, suspect, doubt, loose) if is_tried else None
    if trial is not None:
        return judge("tried").doubt(trial) > TRIED + MORE * is_seen
    return doubt > CERTAIN + BOUND * loose and not is_seen


def _is_doubted_as_shown(case: Case, suspect: Suspect[Place]) -> bool:
    """Whether a direction shows a number that is doubted as well, on the same line, or each is to be expected in the other's place.
    Of 1,776 right lessons there is one such in two, of 733 changed numbers that were told in notes alone in 23."""
    number, expected = suspect.place.number, suspect.expectation.likely[0][0]
    for shown, doubt in shown_suspects.judged(case):
        slot = shown.place.slot
        if doubt > SHOWN_TOO and slot.direction.segment == suspect.place.segment:
            for_each_other = (slot.value, shown.expectation.likely[0][0]) == (expected, number.value)
            if for_each_other or slot.direction.place.line == number.line:
                return True
    return False


def _denied(case: Case, place: Place) -> bool:
    """Whether it stands in something false that is said only to be told apart from what is true."""
    return any(
        (statement.expected is False and refused(case, statement))
        or (statement.holds is False and denied(case, statement.values, statement.start))
        or (statement.holds is False and statement.kind.startswith("count") and one_is_looked_for(case, statement))
        for statement in case.covering.get(place.number.start, ())
    )


def _is_put_right(case: Case, suspect: Suspect[Place]) -> bool:
    """Whether it is the last number of a claim that is refused, and what was to be expected is said soon after."""
    place = suspect.place
    expected = {value for value, chance in suspect.expectation.likely if chance > _CHANCE}
    return place.number is place.sentence.numbers[-1] and is_put_right(case, place.number.start, expected)


def is_loose(case: Case, place: Place) -> bool:
    """Whether many numbers would do: it is only compared with, in a sentence without another number ("Clue: it comes before
    thirteen"), it says what is not so ("Five hops, not six"), or it is a nought that is not called one ("None is left over")."""
    number = place.number
    if place.before.word in _COMPARING:
        return len(place.sentence.numbers) == 1
    return not_so(case, number) or (number.value == 0 and number.text.lower().rstrip(" .,;:!?") not in ZERO)


def instead(expectation: Expectation, families: Mapping[str, tuple[str, str]]) -> str:
    """What was rather to be expected, and why; `families` are those of the clues, with the reasons."""
    likely = [value for value, chance in expectation.likely if chance > _CHANCE] or [expectation.likely[0][0]]
    gains: dict[str, float] = {}
    for (_, reason), (own, other) in zip(families.values(), expectation.shares[:-1], strict=True):
        if reason:
            gains[reason] = gains.get(reason, 0.0) + other - own
    best = max(gains, key=lambda reason: gains[reason])
    because = f": {best}" if gains[best] > 0 and len(likely) == 1 else ""
    return f"Check it. One would expect {row(likely, 'or')} here{because}."
