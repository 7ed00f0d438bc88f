"""What the command line and other programs call: routines and series as plain functions with typed results."""

from __future__ import annotations

import datetime
import re
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from string import capwords
from typing import TYPE_CHECKING, Any

from studio.errors import UnusableInput
from studio.files import write_text
from studio.pictures.base import several
from studio.progress import Progress, silent
from studio.script.files import load_text
from studio.script.model import Grade
from studio.script.reader import read
from studio.series.library import ENDINGS, PARTS, Library, fill_routine_text, series_of
from studio.series.routine import MOST_FILLINGS, Routine, Value, is_routine, parse_value
from studio.series.settings import SETTINGS, Settings, load_settings, parse_days, settings_text

if TYPE_CHECKING:
    from studio.build import BuildOptions
    from studio.series.building import SeriesBuild
    from studio.series.index import Hit
    from studio.series.proof import Proof
    from studio.series.status import SeriesStatus

_MOST_LINES = 200  # places that are printed
_MOST_UNREAD = 20  # lessons that cannot be read


# --- routines -------------------------------------------------------------------------------------------------------


def find_routine(routine: str | Path) -> tuple[Routine, Library]:
    """A routine by its file, or by its name among the parts of the series in this folder or on the shelf."""
    path = Path(routine)
    if path.suffix == ".md" or path.is_file():
        library = Library.of(series_of(path))
        return library.load(path), library
    library = Library.of(series_of(Path.cwd() / SETTINGS))
    return library.get(str(routine)), library


def is_routine_file(path: Path) -> bool:
    """Whether a script is a routine or a saved part, so that it is to be proved and not checked. Raises UnusableInput."""
    text = load_text(path)
    return path.name.endswith(ENDINGS) or is_routine(text)


def fill_routine(routine: str | Path, values: Sequence[str] | Mapping[str, Value], out: Path | None = None) -> str:
    """A lesson's script from a routine. `values` are "NAME=VALUE" or a mapping; with `out` the lesson is written there,
    unless another file stands there. Raises UnusableInput."""
    found, library = find_routine(routine)
    text = fill_routine_text(found, values if isinstance(values, Mapping) else _pairs(values), library)
    read(text, found.source)
    if out is not None:
        write_new(out, text)
    return text


def prove_routine(routine: str | Path, most: int = MOST_FILLINGS, progress: Progress = silent) -> Proof:
    """Fill a routine with every combination of its numbers and check each lesson. Raises UnusableInput."""
    from studio.series.proof import prove

    found, library = find_routine(routine)
    return prove(found, library, most, progress)


def shelf(folder: Path | None = None) -> list[Routine]:
    """Every routine and part that a lesson in `folder` (None: in no series) can use, by name."""
    library = Library.of(folder)
    return [library.get(name) for name in sorted(library.names())]


def write_new(path: Path, text: str) -> None:
    """Write a file that is not there yet; the same text again is fine. Raises UnusableInput rather than overwrite."""
    try:
        same = path.read_bytes() == text.encode()
    except FileNotFoundError:
        write_text(path, text)
        return
    except OSError:
        same = False
    if not same:
        raise UnusableInput(
            "this is there already and nothing you wrote is overwritten; choose another name.", str(path)
        )


def _pairs(values: Sequence[str]) -> dict[str, Value]:
    pairs: dict[str, Value] = {}
    for pair in values:
        name, equals, value = pair.partition("=")
        if not equals or not name.strip():
            raise UnusableInput(f"'{pair[:60]}' cannot be read; write it like --set n=14.")
        pairs[name.strip().lower()] = parse_value(value)
    return pairs


# --- series ---------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Planned:
    """The plan as it stands after planning: its file, how many lessons it has, how many rows or cells were new, and what
    is told of another plan that is not read ("")."""

    path: Path
    lessons: int
    added: int
    ignored: str = ""

    def lines(self) -> list[str]:
        """What is printed for a person."""
        new = f"filled in: {several(self.added, 'cell')}" if self.added else "nothing was empty"
        return [
            *filter(None, [self.ignored]),
            f"The plan is {self.path}: {several(self.lessons, 'lesson')}; {new}. What you write into it stays.",
            "'studio series fill' writes the lessons; one that is written stays as it is, whatever the plan says then.",
        ]


@dataclass(frozen=True)
class LessonsFilled:
    """The lessons that were written, how many were there already, and which files stand in the way of others (a
    sentence each)."""

    written: tuple[Path, ...]
    kept: int
    in_the_way: tuple[str, ...] = ()

    def lines(self) -> list[str]:
        """What is printed for a person."""
        where = f" in {self.written[0].parent}" if self.written else ""
        kept = f"; {several(self.kept, 'lesson')} stood there and stay as they are" if self.kept else ""
        return [*self.in_the_way, f"{several(len(self.written), 'lesson')} written{where}{kept}."]


@dataclass(frozen=True)
class Found:
    """Where something is said or shown; `unread` are the lessons that could not be searched, each with its mistake."""

    query: str
    hits: tuple[Hit, ...]
    unread: tuple[tuple[str, str], ...] = ()

    def as_json(self) -> list[dict[str, Any]]:
        return [asdict(hit) for hit in self.hits]

    def lines(self) -> list[str]:
        """What is printed for a person: each place, and for a picture the direction to use again."""
        lines = []
        for hit in self.hits[:_MOST_LINES]:
            number = f"lesson {hit.number}" if hit.number is not None else hit.title
            what = hit.direction or f"“{hit.text}”"
            lines.append(f"{hit.file}, line {hit.line} ({number}, {hit.segment}): {what}")
        if len(self.hits) > _MOST_LINES:
            lines.append(f"… and {len(self.hits) - _MOST_LINES} more places; --json gives all.")
        return [*lines, self.total, *self.not_searched()]

    def not_searched(self) -> list[str]:
        """What is told of the lessons that could not be searched."""
        if not self.unread:
            return []
        was = "was" if len(self.unread) == 1 else "were"
        told = [f"{file}: {mistake}" for file, mistake in self.unread[:_MOST_UNREAD]]
        more = [f"… and {len(self.unread) - _MOST_UNREAD} more."] if len(self.unread) > _MOST_UNREAD else []
        return [f"{several(len(self.unread), 'lesson')} could not be read and {was} not searched:", *told, *more]

    @property
    def total(self) -> str:
        """How often it was found, as a sentence."""
        said = sum(hit.kind == "said" for hit in self.hits)
        return f"'{self.query}' is said {_times(said)} and shown {_times(len(self.hits) - said)}."


def _times(count: int) -> str:
    return {0: "nowhere", 1: "once"}.get(count, f"{count} times")


def new_series(
    folder: Path,
    title: str = "",
    grade: Grade = "K",
    first_day: datetime.date | None = None,
    lessons: int | None = None,
    holidays: Sequence[str] = (),
) -> Planned:
    """Make a series folder with its settings and its plan. Without a title it is called after its folder: "pond-days"
    becomes "Pond Days". `holidays` are "2026-12-21" or "2026-12-21 to 2027-01-01".
    Raises UnusableInput where a series is there already."""
    if (folder / SETTINGS).exists():
        raise UnusableInput("there is a series in this folder already; nothing was changed.", str(folder / SETTINGS))
    given: dict[str, Any] = {"numbers": (1, 20) if grade == "K" else (1, 99)}
    if first_day is not None:
        given["first_day"] = first_day
    if lessons is not None:
        given["lessons"] = lessons
    try:
        given["holidays"] = tuple(parse_days(holiday) for holiday in holidays)
    except ValueError as error:
        raise UnusableInput(str(error)) from None
    title = " ".join(title.split()) or capwords(re.sub(r"[\s_-]+", " ", folder.resolve().name)).strip()
    text = settings_text(replace(Settings(title or "Our Lessons", grade), **given))
    from studio.series.settings import read_settings

    read_settings(text, SETTINGS)
    for name in (PARTS, "lessons", "kits"):
        try:
            (folder / name).mkdir(parents=True, exist_ok=True)
        except OSError as error:
            from studio.files import say_os_error

            raise say_os_error(error, folder / name) from error
    write_text(folder / SETTINGS, text)
    return plan_series(folder)


def plan_series(folder: Path) -> Planned:
    """Complete the plan: rows that are missing, cells that are empty. Raises UnusableInput."""
    from studio.series.lock import only_one
    from studio.series.plan import check_plan, complete_plan
    from studio.series.table import find_plan, load_plan, plan_text, plans_ignored

    settings = load_settings(folder)
    library = Library.of(folder)
    with only_one(folder):
        before = load_plan(folder)
        after = complete_plan(before, settings, library)
        check_plan(after, library)
        old = {row.lesson: row.cells for row in before.rows}
        added = sum(
            1
            for row in after.rows
            for column, cell in row.cells.items()
            if column != "lesson" and cell.strip() and not old.get(row.lesson, {}).get(column, "").strip()
        )
        if added or not find_plan(folder).is_file():
            write_text(find_plan(folder), plan_text(after))
    return Planned(find_plan(folder), len(after.rows), added, plans_ignored(folder))


def fill_series(folder: Path, only: Sequence[int] = ()) -> LessonsFilled:
    """Write the lessons of the plan that are not there yet. Raises UnusableInput."""
    from studio.series.lessons import fill_lessons
    from studio.series.lock import only_one
    from studio.series.plan import check_plan
    from studio.series.table import find_plan, load_plan

    settings = load_settings(folder)
    library = Library.of(folder)
    with only_one(folder):
        plan = load_plan(folder)
        if not plan.rows:
            raise UnusableInput(
                "the plan has no lesson yet; make it with 'studio series plan'.", str(find_plan(folder))
            )
        unknown = [number for number in only if plan.row(number) is None]
        if unknown:
            raise UnusableInput(f"lesson {unknown[0]} is not in the plan.", str(find_plan(folder)))
        check_plan(plan, library)
        done = fill_lessons(folder, plan, settings, library, set(only) or None)
    return LessonsFilled(done.written, len(done.kept), done.in_the_way)


def build_series(
    folder: Path, only: Sequence[str] = (), options: BuildOptions | None = None, progress: Progress = silent
) -> SeriesBuild:
    """Build every lesson whose kit is not up to date, then the overview page. Raises UnusableInput."""
    from studio.series.building import build_series as build

    load_settings(folder)
    done = build(folder, only, options, progress)
    write_overview(folder)
    return done


def series_status(folder: Path, progress: Progress = silent) -> SeriesStatus:
    """Where each lesson stands. Raises UnusableInput."""
    from studio.series.index import open_index
    from studio.series.status import series_status as status
    from studio.series.table import load_plan

    settings = load_settings(folder)
    with open_index(folder, progress=progress) as index:
        return status(folder, settings, load_plan(folder), index)


def find_in_series(folder: Path, query: str, progress: Progress = silent) -> Found:
    """Every place where something is said or shown. Raises UnusableInput."""
    from studio.series.index import open_index

    load_settings(folder)
    with open_index(folder, progress=progress) as index:
        unread = tuple((entry.file, entry.mistake) for entry in index.entries() if entry.mistake)
        return Found(query, tuple(index.find(query)), unread)


def write_found(folder: Path, found: Found) -> Path:
    """Write the page of what was found, each picture drawn and ready to be used again. Raises UnusableInput."""
    from studio.series.found import PAGE, found_page

    write_text(folder / PAGE, found_page(found.query, found.hits, [found.total, *found.not_searched()]))
    return folder / PAGE


def write_overview(folder: Path, progress: Progress = silent) -> Path:
    """Write the overview page of a series. Raises UnusableInput."""
    from studio.series.overview import PAGE, overview_page

    write_text(folder / PAGE, overview_page(folder, series_status(folder, progress)))
    return folder / PAGE
