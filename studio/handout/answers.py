"""What the grown-up's page says: answers, what to have ready, cautions."""

from __future__ import annotations

import re
from collections.abc import Sequence

from studio.handout.facts import LessonFacts
from studio.pictures.base import several

_CUT = re.compile(r"scissors|\bcut(ting)?\b", re.IGNORECASE)
_SCISSORS = "Scissors: cut together with the child, or cut things out beforehand."
_CAUTIONS = (
    "Small counters can choke a child under three: count them out, and count them back in.",
    "The rules of your school, group or home come first.",
)


def cautions(cards: bool, needs: Sequence[str]) -> list[str]:
    """What to take care of; `cards`: there are cards to cut out; `needs`: what the lesson wants to have ready."""
    cut = cards or any(_CUT.search(need) for need in needs)
    return [*([_SCISSORS] if cut else []), *_CAUTIONS]


def partners_line(facts: LessonFacts) -> str:
    """All partners of the whole ("0 and 9; 1 and 8"); "" where there is no whole."""
    if facts.whole is None:
        return ""
    pairs = [f"{one}\u00a0and\u00a0{other}" for one, other in facts.partners]
    return "; ".join(pairs)


def answer_lines(facts: LessonFacts) -> list[tuple[str, str]]:
    """The answers of the lesson: what they belong to, and what they are."""
    found = []
    if facts.number is not None and facts.number > 10:
        tens, ones = divmod(facts.number, 10)
        of_day = f"{facts.number} is {several(tens, 'ten')} and {several(ones, 'one')}."
        found.append(("The number of the day", of_day))
    if facts.whole is not None:
        found.append((f"Partners of {facts.whole}", partners_line(facts)))
    bonds = {f"{facts.whole} is {a} and {b}" for pair in facts.partners for a, b in (pair, pair[::-1])}
    told = [answer for answer in facts.answers if answer[1] in bonds]
    # Where the lesson goes through the partners one by one, they stand in one line already.
    return [*found, *(answer for answer in facts.answers if len(told) < 3 or answer not in told)]
