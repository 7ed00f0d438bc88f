"""Tens and ones: base ten, also for groups of ten, and tallies for groups of five."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from studio.suggest.ideas import Idea, Part
from studio.talk.model import Statement

_LARGEST = 120


def propose(part: Part) -> Iterator[Idea]:
    """Base ten for every number that is told in tens and ones."""
    for statement in part.statements:
        if statement.holds is True and (found := _picture(statement)) is not None:
            kind, details, value = found
            until = part.sentence_of(statement.end - 1).end
            yield Idea(_start(part, statement, value), kind, details, (), until, frozenset({value}),
                       f"{value} is told in {'fives' if kind == 'tally' else 'tens and ones'}", 1)  # fmt: skip
    yield from _split(part)


def _picture(statement: Statement) -> tuple[str, str, int] | None:
    """Kind, details and number."""
    values = statement.values
    match statement.kind:
        case "tens and ones" | "tens" if values and 10 <= values[0] <= _LARGEST:
            return "base ten", str(values[0]), values[0]
        case "groups" if len(values) == 3 and values[0] * values[1] == values[2] <= _LARGEST:
            if values[1] == 10:
                return "base ten", str(values[2]), values[2]
            if values[1] == 5 and values[2] <= 50:
                return "tally", str(values[2]), values[2]
            if values[0] > 5 and values[2] <= 50:
                return "dots", f"{values[2]} dots", values[2]
        case "equal" if statement.written.endswith(" × 10") or " × 10 + " in statement.written:
            side = statement.written.split(" = ")[-1]
            value = sum(_product(term) for term in side.split(" + "))
            if 10 <= value <= _LARGEST:
                return "base ten", str(value), value
        case _:
            pass
    return None


def _product(term: str) -> int:
    """ "3 × 10" or "4" as a number; far too large for anything else."""
    product = 1
    for factor in term.split(" × "):
        product *= int(factor) if factor.isdigit() else _LARGEST + 1
    return product


def _start(part: Part, statement: Statement, value: int) -> int:
    """The sentence before, where it names the number; else the statement's."""
    index = part.sentence_index(statement.start)
    if index and set(part.sentences[index - 1].values) == {value} and not part.asks(part.sentences[index - 1]):
        return part.sentences[index - 1].start
    return part.begin(statement)


def _split(part: Part) -> Iterator[Idea]:
    """ "This is thirty-four. I see three tens and four ones." """
    for tens, ones in pairwise(part.numbers):
        after = [part.words[number.end].plain if number.end < part.end else "" for number in (tens, ones)]
        if after[0] not in ("ten", "tens") or after[1] not in ("one", "ones") or ones.start - tens.end > 3:
            continue
        value = 10 * tens.value + ones.value
        index = part.sentence_index(tens.start)
        sentence, named = part.sentences[index], part.sentences[max(0, index - 1)]
        following = part.sentences[index + 1 : index + 4]
        if 10 <= value <= _LARGEST and any(value in near.values for near in (named, *following)):
            start = named.start if set(named.values) == {value} else sentence.start
            until = part.sentence_of(ones.start).end
            yield Idea(start, "base ten", str(value), (), until, frozenset({value}),
                       f"{value} is told in tens and ones", 1)  # fmt: skip
