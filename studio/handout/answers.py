"""What the grown-up's page says: answers, what to have ready, cautions."""

from __future__ import annotations

from studio.handout.facts import LessonFacts
from studio.pictures.base import several

_SCISSORS = "Scissors: cut together with the child, or cut the cards out beforehand."
_CAUTIONS = (
    "Small counters can choke a child under three: count them out, and count them back in.",
    "The rules of your school, group or home come first.",
)


def cautions(cards: bool) -> list[str]:
    """What to take care of; `cards`: there is something to cut out."""
    return [*([_SCISSORS] if cards else []), *_CAUTIONS]


def number_facts(number: int) -> list[tuple[str, str]]:
    """What a lesson says about its number: tens and ones, one less and one more."""
    found = []
    tens, ones = divmod(number, 10)
    if number > 10:
        found.append(("The number of the day", f"{number} is {several(tens, 'ten')} and {several(ones, 'one')}."))
    less = f"One less than {number} is {number - 1}. " if number > 0 else ""
    found.append(("One less, one more", f"{less}One more than {number} is {number + 1}."))
    return found


def partners_line(facts: LessonFacts) -> str:
    """All partners of the whole ("0 and 9; 1 and 8"); "" where there is no whole."""
    if facts.whole is None:
        return ""
    pairs = [f"{one}\u00a0and\u00a0{other}" for one, other in facts.partners]
    return "; ".join(pairs)


def answer_lines(facts: LessonFacts) -> list[tuple[str, str]]:
    """The answers of the lesson: what they belong to, and what they are."""
    found = []
    if facts.number is not None:
        found += number_facts(facts.number)
    if facts.whole is not None:
        found.append((f"Partners of {facts.whole}", partners_line(facts)))
    bonds = {f"{facts.whole} is {a} and {b}" for pair in facts.partners for a, b in (pair, pair[::-1])}
    told = [answer for answer in facts.answers if answer[1] in bonds]
    # Where the lesson goes through the partners one by one, they stand in one line already.
    return [*found, *(answer for answer in facts.answers if len(told) < 3 or answer not in told)]
