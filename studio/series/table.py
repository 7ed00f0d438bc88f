"""The table of a plan: read from the file that she edits, and written back so that what she wrote stays as it is.

`plan.csv` (also as spreadsheet programs save it) or `plan.yaml` (a list of rows; its comments stay) has the columns of
`COLUMNS`; her own columns, with a heading or without, and her empty rows stay where they are. A cell names a routine with its numbers, "teen numbers (n 14)"; `-` means that
the lesson goes without.
"""

from __future__ import annotations

import csv
import datetime
import io
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from studio.errors import Problem, UnusableInput
from studio.pictures.base import is_or_are
from studio.script.files import load_text
from studio.script.nearest import did_you_mean
from studio.series.routine import Value, parse_value
from studio.series.settings import parse_day

COLUMNS = ("lesson", "date", "title", "warm-up", "number of the day", "story", "notes")
NUMBER = "number of the day"
SEGMENTS = ("warm-up", NUMBER, "story")
NOTHING = "-"
_DASHES = (NOTHING, "–", "—")
PLANS = ("plan.csv", "plan.yaml", "plan.yml")
_CALL = re.compile(r"(?P<name>[^()]+?)\s*(?:\((?P<values>[^()]*)\))?\s*\Z")
_DELIMITERS = (",", ";", "\t")
_NUMBERS_DAY = re.compile(r"(?P<a>\d{1,2})(?P<mark>[./])(?P<b>\d{1,2})[./](?P<year>\d{4})\Z")


@dataclass(frozen=True, slots=True)
class Row:
    """One lesson of the plan: its cells as they are written, by column, the line of the file (0: new), and the day that
    is written (None: none is)."""

    cells: dict[str, str]
    line: int = 0
    day: datetime.date | None = None

    @property
    def lesson(self) -> int:
        return int(self.cells["lesson"])

    def cell(self, column: str) -> str:
        return self.cells.get(column, "").strip()


@dataclass(frozen=True)
class Plan:
    """The rows in order, the columns of the table, and the file with its text as it was read ("": there is none)."""

    rows: tuple[Row, ...]
    columns: tuple[str, ...] = COLUMNS
    path: Path | None = None
    text: str = ""

    def row(self, lesson: int) -> Row | None:
        """The row of a lesson, by its number."""
        return next((row for row in self.rows if row.lesson == lesson), None)


def is_nothing(cell: str) -> bool:
    """Whether a cell says that the lesson goes without."""
    return cell.strip() in _DASHES


def parse_whole(cell: str) -> int | None:
    """A whole number as it is written here, "fourteen", or as a spreadsheet program has changed it: "14.0", "14,0";
    None where it is none. 1,000 is no 1."""
    value = parse_value(re.sub(r"(?<=\d)[.,]0{1,2}\Z", "", cell.strip()))
    return value if isinstance(value, int) else None


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


def plans_ignored(folder: Path) -> str:
    """What is told where a second plan lies beside the one that is read; "" where none does."""
    read, *others = [name for name in PLANS if (folder / name).is_file()] or [""]
    if not others:
        return ""
    return f"{' and '.join(others)} {is_or_are(len(others))} not read, because {read} is there; keep one of them."


def load_plan(folder: Path) -> Plan:
    """The plan of a series (no rows where there is no file). Raises UnusableInput with every mistake."""
    path = find_plan(folder)
    if not path.is_file():
        return Plan((), COLUMNS, path)
    text = load_text(path)
    plain = text.removeprefix("\ufeff")
    if path.suffix == ".csv":
        table = _csv_table(plain, str(path))
        columns = _keys(table[0].cells if table else [], str(path))
        # Cells beyond the last heading belong to no column; they only stay.
        rows = [Row(dict(zip(columns, line.cells, strict=False)), line.number) for line in table[1:] if line.is_lesson]
    else:
        rows = list(_yaml_rows(plain, str(path)))
        columns = tuple(dict.fromkeys(column for row in rows for column in row.cells))
    days = _check_rows(rows, columns, str(path))
    rows = [replace(row, day=days.get(row.line)) for row in rows]
    columns = tuple(dict.fromkeys((*columns, *(c for c in COLUMNS if c not in columns))))
    return Plan(tuple(rows), columns, path, text)


def plan_text(plan: Plan) -> str:
    """The plan as the text of its file; what stands there already keeps its form."""
    if plan.path is not None and plan.path.suffix != ".csv":
        return _yaml_text(plan)
    return _csv_text(plan)


def _csv_text(plan: Plan) -> str:
    """Only what is empty is filled: every cell and row of hers stays at its place. A column that is missing comes after
    the widest row, a new lesson under the lesson before it."""
    plain = plan.text.removeprefix("\ufeff")
    table = _csv_table(plain, str(plan.path or "")) or [_Line([])]
    header = table[0].cells
    keys = list(_keys(header, str(plan.path or "")))
    missing = [column for column in plan.columns if column not in keys]
    if missing:
        width = max(len(line.cells) for line in table)
        header += [""] * (width - len(header)) + missing
        keys = list(_keys(header, str(plan.path or "")))
    places = {line.number: line for line in table[1:] if line.is_lesson}
    at = 1  # where the next new lesson goes
    for row in sorted(plan.rows, key=lambda row: row.lesson):
        line = places.get(row.line)
        if line is None:
            line = _Line([])
            table.insert(at, line)
        at = next(i for i, other in enumerate(table) if other is line) + 1
        for place, column in enumerate(keys):
            if (cell := row.cells.get(column, "")) and not "".join(line.cells[place : place + 1]).strip():
                line.cells += [""] * (place + 1 - len(line.cells))
                line.cells[place] = cell
    for line in table:
        if line.is_lesson:
            line.cells += [""] * (len(header) - len(line.cells))
    ends = "\r\n" if "\r\n" in plan.text else "\n"
    written = "".join(_written(line.cells, _delimiter(plain)) + ends for line in table)
    return ("\ufeff" if plan.text.startswith("\ufeff") else "") + written


def _written(cells: Sequence[str], delimiter: str) -> str:
    out = io.StringIO()
    # The writer quotes a line break in a cell only where it is one of these.
    csv.writer(out, delimiter=delimiter, lineterminator="\r\n").writerow(cells)
    return out.getvalue().removesuffix("\r\n")


def _yaml_text(plan: Plan) -> str:
    """Only what is new is put in: comments, quotes and the order of her rows stay."""
    from ruamel.yaml import YAML
    from ruamel.yaml.comments import CommentedMap, CommentedSeq
    from ruamel.yaml.error import YAMLError

    yaml = YAML()
    yaml.preserve_quotes = True
    yaml.width = 1000
    try:
        written = yaml.load(plan.text)
    except YAMLError as error:  # PyYAML read it
        raise UnusableInput("the plan cannot be completed; write it more simply.", str(plan.path)) from error
    empty = plan.text if not written else ""  # comments alone
    written = written or CommentedSeq()
    standing = {str(parse_whole(str(row.get("lesson", "")))): row for row in written}
    for row in plan.rows:
        cells = standing.get(row.cells["lesson"])
        if cells is None:
            cells = CommentedMap(lesson=row.lesson)
            written.append(cells)
        for column in plan.columns:
            cell = row.cell(column)
            if cell and not str(cells.get(column) or "").strip():
                cells[column] = int(cell) if cell.isdecimal() else cell
    out = io.StringIO()
    yaml.dump(written, out)
    return (empty and empty.rstrip() + "\n") + out.getvalue()


def _delimiter(text: str) -> str:
    """What parts the cells: a comma, or what a spreadsheet program of another country writes."""
    header = text.split("\n", 1)[0]
    return max(_DELIMITERS, key=header.count)


@dataclass
class _Line:
    """A row of the table as it stands in the file, and the number of its (last) line (0: it is new)."""

    cells: list[str]
    number: int = 0

    @property
    def is_lesson(self) -> bool:
        return any(cell.strip() for cell in self.cells)


def _csv_table(text: str, source: str) -> list[_Line]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text), strict=True)
    try:
        return [_Line(cells, reader.line_num) for cells in reader]
    except csv.Error as error:
        raise UnusableInput(Problem(f"The table cannot be read here ({error}).", reader.line_num), source) from None


def _keys(header: Sequence[str], source: str) -> tuple[str, ...]:
    """A name for each column, none twice: its heading, or "column 9" where it has none or one that was there before.
    Raises UnusableInput where a heading that the plan reads stands twice: nobody could tell which is meant."""
    headings = [" ".join(heading.split()) for heading in header]
    keys: list[str] = []
    for place, heading in enumerate(headings, 1):
        if heading in keys and heading in COLUMNS and heading != "notes":
            raise UnusableInput(
                Problem(f"The heading '{heading}' stands twice. Give one of the two columns another name.", 1), source
            )
        key = heading if heading and heading not in keys else f"column {place}"
        while key in keys or (key != heading and key in headings):
            key += " (no heading)"
        keys.append(key)
    return tuple(keys)


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
    if not isinstance(root, yaml.SequenceNode):
        raise UnusableInput(Problem("The plan is a list of lessons, each beginning with '- lesson: 1'.", 1), source)
    for node in root.value:
        line = node.start_mark.line + 1
        pairs = node.value if isinstance(node, yaml.MappingNode) else []
        if not pairs or not all(isinstance(part, yaml.ScalarNode) for pair in pairs for part in pair):
            raise UnusableInput(Problem("A lesson of the plan is a list of 'column: value'.", line), source)
        cells: dict[str, str] = {}
        for key, value in pairs:
            if key.value in cells:
                place = key.start_mark.line + 1
                raise UnusableInput(Problem(f"'{key.value[:40]}' stands twice in this lesson.", place), source)
            cells[key.value] = value.value
        yield Row(cells, line)


def _check_rows(rows: Sequence[Row], columns: Sequence[str], source: str) -> dict[int, datetime.date]:
    """The days of the rows by their line. Raises UnusableInput with every mistake."""
    problems: list[Problem] = []
    if rows and "lesson" not in columns:
        raise UnusableInput(
            Problem(f"The plan has no column 'lesson'. Its columns are: {', '.join(COLUMNS)}.", 1), source
        )
    for column in columns:
        if column not in COLUMNS and (meant := did_you_mean(column, [c for c in COLUMNS if c not in columns])):
            problems.append(Problem(f"There is no column '{column[:40]}'.{meant}", 1))
    days: dict[int, datetime.date] = {}
    day_first = _day_first(rows)
    seen: dict[int, int] = {}
    for row in rows:
        number = parse_whole(row.cell("lesson"))
        if number is None or not 1 <= number <= 9_999:
            problems.append(Problem(f"'lesson' is a number from 1, not '{row.cell('lesson')[:40]}'.", row.line))
            continue
        row.cells["lesson"] = str(number)
        if number in seen:
            problems.append(Problem(f"Lesson {number} stands twice (first on line {seen[number]}).", row.line))
        seen.setdefault(number, row.line)
        if row.cell("date"):
            try:
                days[row.line] = _day(row.cell("date"), day_first)
            except ValueError as error:
                problems.append(Problem(str(error), row.line))
        for column in SEGMENTS:
            cell = row.cell(column)
            if not cell or is_nothing(cell) or (column == NUMBER and parse_whole(cell) is not None):
                continue
            if column == NUMBER and not cell[0].isalpha():
                told = f"'{column}' takes a whole number, like 14, or a routine with its numbers, not '{cell[:40]}'."
                problems.append(Problem(told, row.line))
                continue
            try:
                parse_call(cell)
            except ValueError as error:
                problems.append(Problem(str(error), row.line))
    if problems:
        raise UnusableInput(problems, source)
    return days


def _day_first(rows: Sequence[Row]) -> bool | None:
    """Whether 9/10/2026 is in October, as the other days of the table tell; None where none of them does."""
    found = [match for row in rows if (match := _NUMBERS_DAY.match(row.cell("date"))) and match["mark"] == "/"]
    if any(int(match["a"]) > 12 for match in found):
        return True
    return False if any(int(match["b"]) > 12 for match in found) else None


def _day(text: str, day_first: bool | None) -> datetime.date:
    """A day as it is written here, or as a spreadsheet program has changed it: 11/25/2026 (25/11/2026 with
    `day_first`), 25.11.2026. Raises ValueError with a sentence."""
    found = _NUMBERS_DAY.match(text)
    if found is None:
        return parse_day(text)
    if found["mark"] == "/" and day_first is None:
        raise ValueError(f"'{text}' can be read in two ways; write it like 2026-09-01.")
    month, day = (found["a"], found["b"]) if found["mark"] == "/" and not day_first else (found["b"], found["a"])
    try:
        return datetime.date(int(found["year"]), int(month), int(day))
    except ValueError:
        raise ValueError(f"'{text}' is no date; write it like 2026-09-01.") from None
