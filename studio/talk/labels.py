"""Numbers that only tell which task of a row comes: "One. Two plus three. [wait 5 s]", "Two. Nine minus one. [wait 5 s]", a line for each.
They count nothing, as little as "first" and "second" would."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from studio.script.model import Word
from studio.talk.model import Number
from studio.talk.numbers import find_numbers

_FEWEST = 3  # lines
_FEWEST_BEHIND = 2
"""Numbers behind the label in its line; where one counts along ("Two. Another frog."), there are fewer."""


def spoken_numbers(words: Sequence[Word]) -> tuple[Number, ...]:
    """The numbers in the words of a lesson, as `find_numbers` finds them, but those that are labels as ordinals."""
    numbers = find_numbers(words)
    labels: set[int] = set()
    run: list[int] = []
    for at in _begin_lines(words, numbers):
        number = numbers[at]
        if run and (
            number.value != len(run) + 1 or words[number.start].segment != words[numbers[run[0]].start].segment
        ):
            labels |= _labels(run)
            run = []
        if number.value == len(run) + 1:
            run.append(at)
    labels |= _labels(run)
    return tuple(replace(number, form="ordinal") if at in labels else number for at, number in enumerate(numbers))


def _labels(run: list[int]) -> set[int]:
    return {*run} if len(run) >= _FEWEST else set()


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
