"""Binding the steps of a count to the number words that are spoken.

The count is the run of number words that goes up or down by the step; other words, other numbers among them, may stand
between, and its first word may name the number that is already there. So the numbers wanted (the one that is there,
then one for each step) are laid against the numbers said by local alignment, which puts up with a number too many, too
few or wrong, and the place where they differ is told.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from studio.talk.model import Number

_MATCH, _WRONG, _MISSING = 3, -2, -2
_REACH = 40  # numbers said that are looked at for each step wanted: keeps the time in proportion to the length
_BEGUN, _ANNOUNCED = 2, 2  # numbers
_LATER = 12  # words from a count to what is said again


@dataclass(frozen=True, slots=True)
class Binding:
    """`words[i]` is the index of the word with which step i happens (None: nothing is said for it). `fits` is true
    where every step has its number in order and no other number stands inside the run out of turn. `run` holds the
    numbers said from the first to the last of the count; `wrong` is the first number that does not fit (None: one is
    missing)."""

    words: tuple[int | None, ...]
    fits: bool
    run: tuple[Number, ...]
    wrong: Number | None


def bind(
    base: int,
    wanted: Sequence[int],
    said: Sequence[Number],
    counted: Callable[[Number], bool] = lambda number: True,
    closing: Callable[[Number], bool] = lambda number: False,
) -> Binding:
    """Lay the numbers `wanted` (one for each step) and the number already there, `base`, against the numbers `said`.

    `counted` tells a number that stands alone, as in a count ("eight."), from one before a noun ("eight frogs");
    `closing` one with which a sentence ends.
    """
    said = [number for number in said if number.form in ("word", "digits")][: _REACH + 3 * len(wanted)]
    whole = _whole_run(base, wanted, said, closing)
    if whole is None:
        return _best_run(base, wanted, said)
    if not whole.fits:
        return whole
    bound = _goes_on(whole, base, wanted, said, counted)
    if bound.fits or [number.value for number in said[: len(wanted)]] != list(wanted):
        return bound
    # "Seven! And eight is next to it. Six, seven, eight, all in a row.": what comes first was the count
    first, between = tuple(said[: len(wanted)]), said[len(wanted) : said.index(whole.run[0])]
    # "Ten! We only needed one. … Say them with me: nine, ten, eleven."
    again = whole.run[0].start - first[-1].end > _LATER
    if not again and (bound.wrong is None or bound.wrong.value not in [number.value for number in between]):
        return bound
    begun = _goes_on(
        Binding(tuple(number.start for number in first), True, first, None), base, wanted, said, lambda number: True
    )
    return begun if begun.fits else bound


def bind_changed(base: int, steps: int, said: Sequence[Number]) -> Binding | None:
    """The count of what is put there, goes away or is hopped, for itself: one, two and on, as many as there are steps. How many
    are there, `base`, and how many come may be said before it ("Five frogs, and three more: one, two, three."). None where
    nothing like it is said."""
    found: list[Binding] = []
    for at in range(len(said)):
        found.append(_changed(steps, said[at:]))
        if found[-1].fits or at == _ANNOUNCED or said[at].value not in (base, steps):
            break
    best = max(found, key=lambda one: (one.fits, len(one.run)), default=None)
    return best if best is not None and len(best.run) >= _BEGUN else None


def _changed(steps: int, said: Sequence[Number]) -> Binding:
    """The same, where it begins with the first number."""
    run: list[Number] = []
    for number in said:
        if number.value != len(run) + 1 or (len(run) >= steps and number.start != run[-1].end):
            break
        run.append(number)
    words = tuple(number.start for number in run[:steps])
    fits = len(run) == steps >= _BEGUN
    return Binding((*words, *[None] * (steps - len(words))), fits, tuple(run), None if fits or not run else run[-1])


def _goes_on(
    whole: Binding, base: int, wanted: Sequence[int], said: Sequence[Number], counted: Callable[[Number], bool]
) -> Binding:
    """A count that runs on after the last step ("… seven, eight" where the picture ends with seven) does not fit."""
    after = said.index(whole.run[-1]) + 1
    step = wanted[-1] - (wanted[-2] if len(wanted) > 1 else base)
    if after < len(said):
        number = said[after]
        if number.start == whole.run[-1].end and number.value == wanted[-1] + step and counted(number):
            return Binding(whole.words, False, (*whole.run, number), number)
    return whole


def _whole_run(
    base: int, wanted: Sequence[int], said: Sequence[Number], closing: Callable[[Number], bool]
) -> Binding | None:
    """The tightest run that has every number wanted in order, or None. Of equals, the first."""
    best: tuple[int, int, list[Number]] | None = None
    for start, number in enumerate(said):
        if number.value not in (base, wanted[0]):
            continue
        run: list[Number] = []
        at = start + 1 if number.value == base and wanted[0] != base else start
        for value in wanted:
            while at < len(said) and said[at].value != value:
                at += 1
            if at == len(said):
                break
            run.append(said[at])
            at += 1
        if len(run) < len(wanted):
            continue
        strangers = (at - start) - len(wanted) - (1 if number.value == base and wanted[0] != base else 0)
        rank = (strangers, 0 if number.value == base else 1)
        if best is None or rank < best[:2]:
            best = (*rank, run)
    if best is None:
        return None
    strangers, _, run = best
    first, last = said.index(run[0]), said.index(run[-1])
    inside = _taken_up(said[first : last + 1], closing)
    run = [next((other for other in inside if other.value == number.value and other.start >= number.start), number)
           for number in run]  # fmt: skip
    stray = next(
        (number for number in inside
         if number not in run and (_in_a_row(number, inside) or _in_place(number, inside, run, closing))), None
    )  # fmt: skip
    return Binding(tuple(number.start for number in run), stray is None, tuple(inside), stray)


def _taken_up(inside: Sequence[Number], closing: Callable[[Number], bool]) -> Sequence[Number]:
    """Without the numbers by which a count that stopped is taken up again: such a number ends a sentence, other words
    part it from the count before, and the count goes on with the same number ("One, two, three. Where was I? The next
    word is four! Four, five.")."""
    return [
        number
        for at, number in enumerate(inside)
        if not (
            0 < at < len(inside) - 1
            and closing(number)
            and inside[at - 1].end < number.start
            and number.end == inside[at + 1].start
            and number.value == inside[at + 1].value
        )
    ]


def _in_a_row(number: Number, inside: Sequence[Number]) -> bool:
    """Whether a stray number stands directly between two number words, with nothing else said around it ("six, nine,
    seven"): then it is a slip of the count and not talk about something else."""
    at = inside.index(number)
    return 0 < at < len(inside) - 1 and inside[at - 1].end == number.start and number.end == inside[at + 1].start


def _in_place(
    number: Number, inside: Sequence[Number], run: Sequence[Number], closing: Callable[[Number], bool]
) -> bool:
    """Whether a stray number stands where the count should go on: right behind two of its numbers, at the end of a
    sentence, while the number that is wanted comes only later ("Twenty-four, twenty-three, two. Bzzz! Twenty-two stay in.")."""
    at = inside.index(number)
    if not 2 <= at < len(inside) - 1 or not closing(number) or number.end == inside[at + 1].start:
        return False
    first, second = inside[at - 2 : at]
    return first in run and second in run and first.end == second.start and second.end == number.start


def _best_run(base: int, wanted: Sequence[int], said: Sequence[Number]) -> Binding:
    """Local alignment (Smith and Waterman 1981) of base and wanted against said."""
    goal = [base, *wanted]
    rows, columns = len(goal) + 1, len(said) + 1
    score = [[0] * columns for _ in range(rows)]
    top, end = 0, (0, 0)
    for i in range(1, rows):
        for j in range(1, columns):
            pair = _MATCH if goal[i - 1] == said[j - 1].value else _WRONG
            score[i][j] = max(0, score[i - 1][j - 1] + pair, score[i - 1][j] + _MISSING, score[i][j - 1] + _MISSING)
            if score[i][j] > top:
                top, end = score[i][j], (i, j)
    if top <= 0:
        return Binding((None,) * len(wanted), False, (), None)
    matched: dict[int, Number] = {}
    i, j = end
    first = j
    while i and j and score[i][j] > 0:
        pair = _MATCH if goal[i - 1] == said[j - 1].value else _WRONG
        first = j
        if score[i][j] == score[i - 1][j - 1] + pair:
            matched[i - 1] = said[j - 1]
            i, j = i - 1, j - 1
        elif score[i][j] == score[i - 1][j] + _MISSING:
            i -= 1
        else:
            j -= 1
    # A run goes on while number words follow one another without other words between ("six, seven, nine").
    last = end[1]
    reached = end[0]
    while last < len(said) and reached < len(goal) and said[last - 1].end == said[last].start:
        matched[reached] = said[last]
        last += 1
        reached += 1
    run = tuple(said[first - 1 : last])
    wrong = next((matched[k] for k in range(len(goal)) if k in matched and matched[k].value != goal[k]), None)
    taken = set(matched.values())
    if wrong is None:
        wrong = next((number for number in run if number not in taken), None)
    words = tuple(matched[k + 1].start if k + 1 in matched else None for k in range(len(wanted)))
    return Binding(words, False, run, wrong)
