"""The plan of a series: one row for each lesson, in a table that she can edit.

`plan.csv` (or `plan.yaml`, a list of rows) has the columns of `COLUMNS`; her own columns and rows stay. Planning fills
only cells that are empty and adds rows that are missing: nothing she wrote is ever changed. A cell names a routine with
its numbers, "teen numbers (n 14)"; `-` means that the lesson goes without.
"""

from __future__ import annotations

import csv
import datetime
import io
import random
import re
from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from studio.errors import Problem, UnusableInput
from studio.script.files import load_text
from studio.series.library import Library
from studio.series.routine import Value, parse_value
from studio.series.settings import MOST_LESSONS, Settings, parse_day
from studio.series.situations import situations_for

COLUMNS = ("lesson", "date", "title", "warm-up", "number of the day", "story", "notes")
SEGMENTS = ("warm-up", "number of the day", "story")
WARM_UP = "partners warm up"
DAY_SMALL, DAY_LARGE = "number of the day", "number of the day to 99"
NOTHING = "-"
PLANS = ("plan.csv", "plan.yaml", "plan.yml")
_CALL = re.compile(r"(?P<name>[^()]+?)\s*(?:\((?P<values>[^()]*)\))?\s*\Z")


@dataclass(frozen=True, slots=True)
class Row:
    """One lesson of the plan: its cells as they are written, by column, and the line of the file (0: new)."""

    cells: dict[str, str]
    line: int = 0

    @property
    def lesson(self) -> int:
        return int(self.cells["lesson"])

    def cell(self, column: str) -> str:
        return self.cells.get(column, "").strip()


@dataclass(frozen=True)
class Plan:
    """The rows in order, and the columns of the table as they stand in the file."""

    rows: tuple[Row, ...]
    columns: tuple[str, ...] = COLUMNS
    path: Path | None = None

    def row(self, lesson: int) -> Row | None:
        """The row of a lesson, by its number."""
        return next((row for row in self.rows if row.lesson == lesson), None)


def parse_call(cell: str) -> tuple[str, dict[str, Value]]:
    """ "teen numbers (n 14)" → ("teen numbers", {"n": 14}). Raises ValueError with a sentence."""
    found = _CALL.match(" ".join(cell.split()))
    if found is None:
        raise ValueError(f"'{cell[:60]}' cannot be read; write it like 'teen numbers (n 14)'.")
    values: dict[str, Value] = {}
    for pair in (found["values"] or "").split(","):
        words = pair.replace("=", " ").split(maxsplit=1)
        if not words:
            continue
        if len(words) < 2:
            raise ValueError(f"'{pair.strip()[:40]}' needs a value; write it like 'teen numbers (n 14)'.")
        values[words[0]] = parse_value(words[1])
    return found["name"].strip().lower(), values


def call_text(name: str, values: dict[str, Value]) -> str:
    """The cell for a routine with its numbers."""
    return f"{name} ({', '.join(f'{key} {value}' for key, value in values.items())})" if values else name


# --- reading and writing --------------------------------------------------------------------------------------------


def find_plan(folder: Path) -> Path:
    """The plan's file (where there is none yet: where it will be)."""
    return next((folder / name for name in PLANS if (folder / name).is_file()), folder / PLANS[0])


def load_plan(folder: Path) -> Plan:
    """The plan of a series (no rows where there is no file). Raises UnusableInput with every mistake."""
    path = find_plan(folder)
    if not path.is_file():
        return Plan((), COLUMNS, path)
    text = load_text(path).removeprefix("\ufeff")
    rows = list(_csv_rows(text, str(path))) if path.suffix == ".csv" else list(_yaml_rows(text, str(path)))
    columns = tuple(dict.fromkeys(column for row in rows for column in row.cells))
    if path.suffix == ".csv":
        header = next(csv.reader(io.StringIO(text)), [])
        columns = tuple(column.strip() for column in header)
    _check_rows(rows, columns, str(path))
    return Plan(tuple(rows), tuple(dict.fromkeys((*columns, *(c for c in COLUMNS if c not in columns)))), path)


def plan_text(plan: Plan) -> str:
    """The plan as the text of its file."""
    if plan.path is not None and plan.path.suffix != ".csv":
        import yaml

        rows = [{column: row.cells[column] for column in plan.columns if row.cells.get(column)} for row in plan.rows]
        return str(yaml.safe_dump(rows, sort_keys=False, allow_unicode=True, width=1000))
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(plan.columns)
    for row in plan.rows:
        writer.writerow([row.cells.get(column, "") for column in plan.columns])
    return out.getvalue()


def _csv_rows(text: str, source: str) -> Iterator[Row]:
    try:
        reader = csv.reader(io.StringIO(text), strict=True)
        header = [column.strip() for column in next(reader, [])]
        for cells in reader:
            if any(cell.strip() for cell in cells):
                extra = {f"column {i + 1}": cell for i, cell in enumerate(cells) if i >= len(header) and cell.strip()}
                yield Row({**dict(zip(header, cells, strict=False)), **extra}, reader.line_num)
    except csv.Error as error:
        raise UnusableInput(Problem(f"The table cannot be read here ({error}).", reader.line_num), source) from None


def _yaml_rows(text: str, source: str) -> Iterator[Row]:
    import yaml

    try:
        root = yaml.compose(text, Loader=yaml.SafeLoader)
    except (yaml.YAMLError, ValueError, RecursionError) as error:
        mark = getattr(error, "problem_mark", None)
        raise UnusableInput(
            Problem("The plan cannot be read from here.", mark.line + 1 if mark else 0), source
        ) from None
    if root is None:
        return
    for node in root.value if isinstance(root, yaml.SequenceNode) else ():
        line = node.start_mark.line + 1
        if not isinstance(node, yaml.MappingNode) or not all(isinstance(v, yaml.ScalarNode) for _, v in node.value):
            raise UnusableInput(Problem("A lesson of the plan is a list of 'column: value'.", line), source)
        yield Row({str(key.value): str(value.value) for key, value in node.value}, line)


def _check_rows(rows: Sequence[Row], columns: Sequence[str], source: str) -> None:
    problems: list[Problem] = []
    if rows and "lesson" not in columns:
        raise UnusableInput(
            Problem(f"The plan has no column 'lesson'. Its columns are: {', '.join(COLUMNS)}.", 1), source
        )
    seen: dict[int, int] = {}
    for row in rows:
        number = parse_value(row.cell("lesson")) if row.cell("lesson") else ""
        if not isinstance(number, int) or not 1 <= number <= 9_999:
            problems.append(Problem(f"'lesson' is a number from 1, not '{row.cell('lesson')[:40]}'.", row.line))
            continue
        row.cells["lesson"] = str(number)
        if number in seen:
            problems.append(Problem(f"Lesson {number} stands twice (first on line {seen[number]}).", row.line))
        seen.setdefault(number, row.line)
        if row.cell("date"):
            try:
                parse_day(row.cell("date"))
            except ValueError as error:
                problems.append(Problem(str(error), row.line))
        for column in SEGMENTS:
            try:
                if row.cell(column) and not row.cell(column).isdecimal():
                    parse_call(row.cell(column))
            except ValueError as error:
                problems.append(Problem(str(error), row.line))
    if problems:
        raise UnusableInput(problems, source)


# --- planning -------------------------------------------------------------------------------------------------------


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
        if row.cell("date"):
            day = max(day, parse_day(row.cell("date")))
        else:
            day = _next_day(day, settings)
            cells["date"] = day.isoformat()
        share = min(1.0, (number - 1) / max(1, settings.lessons - 1))
        chooser.fill(cells, number, share)
        result.append(Row(cells, row.line))
    return Plan(tuple(result), plan.columns, plan.path)


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
        # A new situation every so often; in between the ones that are known, the one told longest ago first.
        known = self.situations[: 1 + int(share * 0.8 * len(self.situations) + 0.5)]
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
        if cell == NOTHING:
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
        if not cell or cell == NOTHING:
            continue
        if column == "number of the day" and cell.isdecimal():
            number = int(cell)
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
    for row in rows:
        if not row.cell("date"):
            continue
        day = parse_day(row.cell("date"))
        if before is not None and day <= before:
            wrong.append(row.lesson)
        before = day
    return wrong
