"""A number that is said fits its place: it was to be expected from what is said and shown around it. What was to be
expected, and how sure one can be that another number is a slip, was learned from right lessons and from the same lessons
with one number changed (`studio/agree/expect`). Where it is only likely, the finding is a note."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from studio.agree.case import Case
from studio.agree.denials import denied, one_is_looked_for
from studio.agree.expect.expectation import Expectation
from studio.agree.expect.families import FAMILIES
from studio.agree.expect.place import Place
from studio.agree.expect.suspects import judged
from studio.agree.wording import row
from studio.findings import Finding
from studio.pictures.marks import MarkPicture

NAME = "number fits its place"
CERTAIN = 3.5
LIKELY = 1.5
"""The doubts (log-odds) from which a finding is an error, and a note."""
BOUND = 1.0
"""By how much more one must doubt a bound ("it is smaller than 18"): many numbers would do."""
FEWEST = 10
"""Numbers that are said in a lesson: in a few sentences there is too little to tell what is to be expected."""
_COMPARING = frozenset("than before after above below over under".split())
_ROWS = frozenset("above below under underneath".split())


def find(case: Case) -> Iterator[Finding]:
    if case.lesson is None:  # words that were heard: nothing need be read that was learned
        return
    for suspect, doubt in judged(case):
        number, sentence = suspect.place.number, suspect.place.sentence
        if doubt <= LIKELY or case.is_excused(sentence.start, sentence.end) or _denied(case, suspect.place):
            continue
        if _in_the_rows(case, suspect.place) or _of_both_pictures(case, suspect.place) or _counted_on(suspect.place):
            continue
        certain = CERTAIN + BOUND * _is_bound(suspect.place)
        yield Finding(
            NAME,
            "error" if doubt > certain and len(case.counted) >= FEWEST else "note",
            number.line,
            number.column,
            number.text,
            "",
            f"Line {number.line} says {number.value}, and that does not fit what is said and shown around it.",
            instead(suspect.expectation, FAMILIES),
        )


def _denied(case: Case, place: Place) -> bool:
    """Whether it stands in something false that is said only to be told apart from what is true."""
    return any(
        statement.expected is False
        or (statement.holds is False and denied(case, statement.values, statement.start))
        or (statement.holds is False and statement.kind.startswith("count") and one_is_looked_for(case, statement))
        for statement in case.covering.get(place.number.start, ())
    )


def _is_bound(place: Place) -> bool:
    """Whether it is only compared with, in a sentence without another number ("Clue: it comes before thirteen")."""
    return place.before.word in _COMPARING and len(place.sentence.numbers) == 1


def _in_the_rows(case: Case, place: Place) -> bool:
    """Whether it answers what is above or below one of the last numbers ("26. What is above it? 16.")."""
    asked = case.question_before(place.sentence_index)
    value = place.number.value
    return (
        asked is not None
        and len(place.sentence.numbers) == 1
        and case.has_word(asked, _ROWS)
        and not {value - 10, value + 10}.isdisjoint(place.preceding)
    )


def _counted_on(place: Place) -> bool:
    """Whether it is where a count of one step was to get to ("Let us count on from thirteen to fourteen. Thirteen. Fourteen.")."""
    value, before = place.number.value, place.preceding
    step = abs(value - before[-1]) if before else 0
    return step == 1 and before[-3:] == [before[-1], value, before[-1]] and len(place.sentence.numbers) == 1


def _of_both_pictures(case: Case, place: Place) -> bool:
    """Whether the dots of the two pictures on the screen make it ("a full frame and four more. I am fourteen")."""
    seen = case.on_screen(place.number.start, place.number.start + 1)
    totals = [one.picture.total for one in seen if isinstance(one.picture, MarkPicture)]
    return len(seen) == len(totals) == 2 and sum(totals) == place.number.value


def instead(expectation: Expectation, families: Mapping[str, tuple[str, str]]) -> str:
    """What was rather to be expected, and why; `families` are those of the clues, with the reasons."""
    likely = [value for value, chance in expectation.likely if chance > 0.1] or [expectation.likely[0][0]]
    gains: dict[str, float] = {}
    for (_, reason), (own, other) in zip(families.values(), expectation.shares[:-1], strict=True):
        if reason:
            gains[reason] = gains.get(reason, 0.0) + other - own
    best = max(gains, key=lambda reason: gains[reason])
    because = f": {best}" if gains[best] > 0 and len(likely) == 1 else ""
    return f"Check it. One would expect {row(likely, 'or')} here{because}."
