"""Planning: one row for each lesson of a series. Only cells that are empty are filled and only rows that are missing
are added: nothing she wrote is ever changed."""

from __future__ import annotations

import datetime
import random
from collections import deque
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Any

from studio.errors import Problem, UnusableInput
from studio.series.library import Library
from studio.series.routine import Value
from studio.series.settings import MOST_LESSONS, Settings
from studio.series.situations import situations_for
from studio.series.table import NUMBER, SEGMENTS, Plan, Row, call_text, is_nothing, parse_call, parse_whole

WARM_UP = "partners warm up"
DAY_SMALL, DAY_LARGE = "number of the day", "number of the day to 99"


@dataclass
class _Recent:
    """What was used within a stretch of lessons."""

    stretch: int
    _last: deque[Any] = field(default_factory=deque)

    def __contains__(self, item: Any) -> bool:
        return item in self._last

    def add(self, item: Any) -> None:
        self._last.append(item)
        while len(self._last) > self.stretch:
            self._last.popleft()


def complete_plan(plan: Plan, settings: Settings, library: Library) -> Plan:
    """The plan with a row for each lesson and no empty cell; what she wrote stays as it is.

    The same settings give the same plan. Raises UnusableInput where what is asked for cannot be.
    """
    _possible(settings)
    rows = {row.lesson: row for row in plan.rows}
    count = max([settings.lessons, *rows])
    if count > max(MOST_LESSONS, len(rows)):
        count = settings.lessons
    chooser = _Chooser(settings, library)
    day = settings.first_day - datetime.timedelta(days=1)
    result = []
    for number in sorted({*range(1, count + 1), *rows}):
        row = rows.get(number, Row({"lesson": str(number)}))
        cells = dict(row.cells)
        if row.day is not None:
            day = max(day, row.day)
        else:
            day = _next_day(day, settings)
            cells["date"] = day.isoformat()
        share = min(1.0, (number - 1) / max(1, settings.lessons - 1))
        chooser.fill(cells, number, share)
        result.append(replace(row, cells=cells))
    return replace(plan, rows=tuple(result))


def _possible(settings: Settings) -> None:
    first, last = settings.wholes
    pairs = sum(whole - 1 for whole in range(first, last + 1))
    if pairs <= settings.stretch:
        raise UnusableInput(
            f"the wholes {first} to {last} have {pairs} pairs of parts; a stretch of {settings.stretch} lessons "
            "without a pair again is not possible. Make the stretch shorter or the wholes more.",
            "series.yaml",
        )


def _next_day(day: datetime.date, settings: Settings) -> datetime.date:
    for _ in range(3 * 366):
        try:
            day += datetime.timedelta(days=1)
        except OverflowError:
            break
        if settings.is_school_day(day):
            return day
    raise UnusableInput("the holidays leave no school day for three years.", "series.yaml")


class _Chooser:
    """Chooses what is empty, lesson by lesson; what she wrote counts for the stretch too."""

    def __init__(self, settings: Settings, library: Library) -> None:
        self.settings = settings
        self.library = library
        self.pairs = _Recent(settings.stretch)
        self.stories = _Recent(settings.stretch)
        self.story_numbers = _Recent(settings.stretch)
        self.situations = situations_for(settings.grade)
        self.told: dict[str, int] = {}  # when each situation was last told
        self._fillings: dict[str, list[dict[str, Value]]] = {}

    def fill(self, cells: dict[str, str], number: int, share: float) -> None:
        chance = random.Random(f"{self.settings.title}, lesson {number}")
        written = cells.get("warm-up", "").strip()
        if not written:
            cells["warm-up"] = self._warm_up(share, chance)
        self.pairs.add(cells["warm-up"].strip())
        if not cells.get("number of the day", "").strip():
            cells["number of the day"] = str(self._number(number))
        if not cells.get("story", "").strip():
            cells["story"] = self._story(share, chance, number)
        self._remember_story(cells["story"].strip(), number)

    def _warm_up(self, share: float, chance: random.Random) -> str:
        first, last = self.settings.wholes
        top = first + round(share * (last - first))
        while True:
            calls = [
                call_text(WARM_UP, {"whole": whole, "part": part})
                for whole in range(max(first, top - 2), top + 1)
                for part in range(1, whole)
            ]
            free = [call for call in calls if call not in self.pairs]
            newest = [call for call in free if f"whole {top}," in call]
            if newest or free:
                return chance.choice(newest or free)
            top += 1

    def _number(self, lesson: int) -> int:
        """In order through the range, and then again."""
        first, last = self.settings.numbers
        return first + (lesson - 1) % (last - first + 1)

    def _story(self, share: float, chance: random.Random, number: int) -> str:
        # A new situation every so often, all of them by four fifths of the year; in between the ones that are known, the
        # one told longest ago first.
        known = self.situations[: 1 + int(min(1.0, share / 0.8) * (len(self.situations) - 1))]
        fresh = [situation for situation in known if situation.routine not in self.told]
        # Those that this grade is to master come twice as often as those it knows from the year before.
        weight = {s.routine: 2 if s.grade == self.settings.grade else 1 for s in known}
        order = fresh or sorted(known, key=lambda s: -(number - self.told[s.routine]) * weight[s.routine])
        for situation in [*order, *self.situations]:
            fillings = self._fillings_of(situation.routine)
            free = [f for f in fillings if self._key(situation.routine, f) not in self.stories]
            for filling in chance.sample(free, min(len(free), 40)):
                if self._numbers(filling) not in self.story_numbers:
                    return call_text(situation.routine, filling)
        situation = order[0]
        fillings = self._fillings_of(situation.routine)
        if not fillings:
            raise UnusableInput(f"the routine '{situation.routine}' has no numbers that fit its conditions.")
        return call_text(situation.routine, chance.choice(fillings))

    def _remember_story(self, cell: str, number: int) -> None:
        if is_nothing(cell):
            return
        name, values = parse_call(cell)
        self.told[name] = number
        self.story_numbers.add(self._numbers(values))
        self.stories.add(self._key(name, values))

    def _fillings_of(self, routine: str) -> list[dict[str, Value]]:
        if routine not in self._fillings:
            self._fillings[routine] = list(self.library.get(routine).fillings(3_000))
        return self._fillings[routine]

    @staticmethod
    def _key(routine: str, values: dict[str, Value]) -> tuple[str, str]:
        return routine, call_text("", values)

    @staticmethod
    def _numbers(values: dict[str, Value]) -> tuple[int, ...]:
        return tuple(sorted(value for value in values.values() if isinstance(value, int)))


def segments_of(row: Row) -> list[tuple[str, dict[str, Value]]]:
    """The routines of a row with their numbers, in the order of the lesson."""
    calls: list[tuple[str, dict[str, Value]]] = []
    for column in SEGMENTS:
        cell = row.cell(column)
        if not cell or is_nothing(cell):
            continue
        number = parse_whole(cell) if column == NUMBER else None
        if number is not None:
            calls.append((DAY_SMALL if number <= 20 else DAY_LARGE, {"n": number}))
        else:
            calls.append(parse_call(cell))
    return calls


def check_plan(plan: Plan, library: Library) -> None:
    """Raises UnusableInput with every row whose routine is not there or whose numbers do not fit."""
    problems: list[Problem] = []
    for row in plan.rows:
        for name, values in segments_of(row):
            try:
                library.get(name).check(values)
            except UnusableInput as error:
                problems.extend(Problem(f"Lesson {row.lesson}: {p.message}", row.line) for p in error.problems)
    if problems:
        raise UnusableInput(problems, str(plan.path or "the plan"))


def dates_out_of_order(rows: Iterable[Row]) -> list[int]:
    """The lessons whose date is not after that of the lesson before."""
    wrong: list[int] = []
    before: datetime.date | None = None
    for row in sorted(rows, key=lambda row: row.lesson):
        if row.day is None:
            continue
        if before is not None and row.day <= before:
            wrong.append(row.lesson)
        before = row.day
    return wrong
