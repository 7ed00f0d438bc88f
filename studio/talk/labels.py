"""Numbers that only tell which task of a row comes: "One. Two plus three. [wait 5 s]", "Two. Nine minus one. [wait 5 s]", a line for each.
They count nothing, as little as "first" and "second" would."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from studio.script.model import Word
from studio.talk.model import Number

_FEWEST = 3  # lines
_FEWEST_BEHIND = 2
"""Numbers behind the label in its line; where one counts along ("Two. Another frog."), there are fewer."""


def without_labels(words: Sequence[Word], numbers: Sequence[Number]) -> tuple[Number, ...]:
    """The numbers, those that are labels as ordinals. Time grows with how many there are."""
    labels: set[int] = set()
    run: list[int] = []
    for at in [*_begin_lines(words, numbers), -1]:
        goes_on = at >= 0 and (
            numbers[at].value == len(run) + 1
            and (not run or words[numbers[at].start].segment == words[numbers[run[-1]].start].segment)
        )
        if not goes_on:
            labels.update(run if len(run) >= _FEWEST else ())
            run = []
        if goes_on or (at >= 0 and numbers[at].value == 1):
            run.append(at)
    return tuple(replace(number, form="ordinal") if at in labels else number for at, number in enumerate(numbers))


def _begin_lines(words: Sequence[Word], numbers: Sequence[Number]) -> Iterator[int]:
    """The indices of the numbers that stand alone at the beginning of a line, with a task behind them."""
    for at, number in enumerate(numbers):
        start, end = number.start, number.end
        if number.form not in ("word", "digits") or end >= len(words):
            continue
        line = words[start].place.line
        alone = words[end].sentence != words[start].sentence or words[end - 1].text.endswith(":")
        if not alone or words[end].place.line != line or (start and words[start - 1].place.line == line):
            continue
        behind = numbers[at + 1 : at + 1 + _FEWEST_BEHIND]
        if len(behind) == _FEWEST_BEHIND and all(other.line == line for other in behind):
            yield at
