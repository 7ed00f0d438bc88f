"""The settings of a series, `series.yaml`: what every lesson has in common, and what the plan is made from."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

from studio.captions.model import Numerals
from studio.errors import Problem, UnusableInput
from studio.handout.make import Paper
from studio.script.files import load_text
from studio.script.header import FASTEST, SLOWEST, Block, Entry, read_entries, unix_text
from studio.script.model import Grade
from studio.script.nearest import did_you_mean
from studio.series.routine import parse_value

SETTINGS = "series.yaml"
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
MOST_LESSONS = 1_000
T = TypeVar("T", bound=str)
_PAPERS: tuple[Paper, ...] = ("letter", "a4")
_NUMERALS: tuple[Numerals, ...] = ("as said", "words to ten", "digits")
_SPAN = re.compile(r"(?P<first>\S+)\s+to\s+(?P<last>\S+)\Z")


@dataclass(frozen=True, slots=True)
class Settings:
    """`numbers` are the numbers of the day and `wholes` those of the warm-up, first and last.

    Within `stretch` lessons no story and no pair of parts comes twice. `linked`: lessons use the routines by name
    instead of having their words. `theme`, `paper` and `numerals` are those of its kits.
    """

    title: str
    grade: Grade = "K"
    first_day: datetime.date = datetime.date(2026, 9, 1)
    lessons: int = 180
    days: tuple[int, ...] = (0, 1, 2, 3, 4)
    holidays: tuple[tuple[datetime.date, datetime.date], ...] = ()
    numbers: tuple[int, int] = (1, 20)
    wholes: tuple[int, int] = (3, 10)
    stretch: int = 10
    pace: float = 110.0
    linked: bool = False
    theme: str = "warm paper"
    paper: Paper = "letter"
    numerals: Numerals = "as said"

    def is_school_day(self, day: datetime.date) -> bool:
        """Whether there is a lesson on that day."""
        return day.weekday() in self.days and not any(first <= day <= last for first, last in self.holidays)


def load_settings(folder: Path, *, theme: bool = True) -> Settings:
    """The settings of the series in `folder`. Raises UnusableInput with every mistake; one in the theme does not count
    where no `theme` is wanted."""
    path = folder / SETTINGS
    if not folder.is_dir():
        raise UnusableInput("there is no such folder; make a series with 'studio series new'.", str(folder))
    if not path.is_file():
        raise UnusableInput("this is not there, so here is no series; make one with 'studio series new'.", str(path))
    return read_settings(load_text(path), str(path), folder, theme=theme)


def read_settings(text: str, source: str = "", folder: Path | None = None, *, theme: bool = True) -> Settings:
    """Read the settings; a theme's file is looked for in `folder` first, and not at all where no `theme` is wanted.
    Raises UnusableInput with every mistake."""
    lines = unix_text(text).split("\n")
    problems: list[Problem] = []
    values: dict[str, Any] = {}
    for entry in read_entries(lines, Block(0, len(lines), len(lines)), problems):
        reader = _READERS.get(entry.key)
        if reader is None:
            meant = did_you_mean(entry.key, _READERS) or f" The settings are: {', '.join(_READERS)}."
            problems.append(Problem(f"There is no setting '{entry.key[:40]}'.{meant}", entry.line, entry.column))
            continue
        try:
            value = reader(entry)
            values[entry.key.replace("-", "_")] = _theme(value, folder) if entry.key == "theme" and theme else value
        except ValueError as error:
            problems.append(Problem(str(error), entry.line, entry.column))
    if "title" not in values and not problems:
        problems.append(Problem("The series has no title. Add a line 'title: ...'.", 1, 1))
    if problems:
        raise UnusableInput(problems, source)
    return Settings(**values)


def settings_text(settings: Settings) -> str:
    """The settings as a file that she can edit."""
    first, last = settings.numbers
    holidays = "".join(f"\n  - {_day_span(a, b)}" for a, b in settings.holidays) or " []"
    quoted = settings.title.replace("\\", "\\\\").replace('"', '\\"')
    return (
        f'title: "{quoted}"\n'
        f'grade: "{settings.grade}"\n'
        f"pace: {settings.pace:g}          # words a minute\n"
        f"first-day: {settings.first_day.isoformat()}\n"
        f"lessons: {settings.lessons}\n"
        f"days: [{', '.join(DAYS[day] for day in settings.days)}]\n"
        f"holidays:{holidays}\n"
        f"numbers: {first} to {last}      # numbers of the day\n"
        f"wholes: {settings.wholes[0]} to {settings.wholes[1]}      # wholes of the warm-up\n"
        f"stretch: {settings.stretch}        # lessons without the same story or pair again\n"
        f"linked: {'yes' if settings.linked else 'no'}         # yes: lessons use the routines by name\n"
        f"theme: {settings.theme}\n"
        f"paper: {settings.paper}      # letter or a4\n"
        f"numerals: {settings.numerals}  # in captions: {', '.join(_NUMERALS)}\n"
    )


def _day_span(first: datetime.date, last: datetime.date) -> str:
    return first.isoformat() if first == last else f"{first.isoformat()} to {last.isoformat()}"


def parse_day(text: str) -> datetime.date:
    """A date written 2026-09-01. Raises ValueError with a sentence."""
    try:
        return datetime.date.fromisoformat(text.strip())
    except ValueError:
        raise ValueError(f"'{text.strip()[:40]}' is no date; write it like 2026-09-01.") from None


def parse_days(text: str) -> tuple[datetime.date, datetime.date]:
    """One day, or "2026-12-21 to 2027-01-01". Raises ValueError with a sentence."""
    found = _SPAN.match(" ".join(text.split()))
    first, last = (parse_day(found["first"]), parse_day(found["last"])) if found else (parse_day(text),) * 2
    if first > last:
        raise ValueError(f"'{text.strip()[:40]}' ends before it begins.")
    return first, last


def _one(entry: Entry) -> str:
    if not isinstance(entry.value, str) or not entry.value.strip():
        raise ValueError(f"'{entry.key}' needs one value.")
    return " ".join(entry.value.split())


def _many(entry: Entry) -> tuple[str, ...]:
    if isinstance(entry.value, dict):
        raise ValueError(f"'{entry.key}' is a list.")
    items = entry.value.split(",") if isinstance(entry.value, str) else entry.value
    return tuple(item.strip() for item in items if item.strip())


def _between(least: int, most: int) -> Callable[[Entry], int]:
    def read(entry: Entry) -> int:
        value = parse_value(_one(entry))
        if not isinstance(value, int) or not least <= value <= most:
            raise ValueError(f"'{entry.key}' is a whole number from {least} to {most:,}, not '{_one(entry)[:40]}'.")
        return value

    return read


def _range(least: int, most: int) -> Callable[[Entry], tuple[int, int]]:
    def read(entry: Entry) -> tuple[int, int]:
        found = _SPAN.match(_one(entry))
        ends = [parse_value(found["first"]), parse_value(found["last"])] if found else []
        first, last = ends if ends else (None, None)
        if not isinstance(first, int) or not isinstance(last, int) or not least <= first <= last <= most:
            raise ValueError(f"'{entry.key}' goes from {least} to {most} at most, like '{least} to {most}'.")
        return first, last

    return read


def _grade(entry: Entry) -> Grade:
    grades: dict[str, Grade] = {"k": "K", "1": "1", "2": "2"}
    if _one(entry).lower() not in grades:
        raise ValueError(f"'grade' is K, 1 or 2, not '{_one(entry)[:40]}'.")
    return grades[_one(entry).lower()]


def _choice(choices: Sequence[T]) -> Callable[[Entry], T]:
    def read(entry: Entry) -> T:
        found = next((choice for choice in choices if choice == _one(entry).lower()), None)
        if found is None:
            raise ValueError(f"'{entry.key}' is {', '.join(choices[:-1])} or {choices[-1]}, not '{_one(entry)[:40]}'.")
        return found

    return read


def _pace(entry: Entry) -> float:
    try:
        pace = float(_one(entry))
    except ValueError:
        pace = 0.0
    if not SLOWEST <= pace <= FASTEST:
        raise ValueError(f"'pace' is in words a minute, from {SLOWEST:.0f} to {FASTEST:.0f}.")
    return pace


def _weekdays(entry: Entry) -> tuple[int, ...]:
    """Days in a row or with commas between, and from one to another: "Mon to Thu", "Mon-Wed, Fri", "Tue Thu"."""
    found: set[int] = set()
    for item in _many(entry):
        days = re.sub(r"\s*(?:\b(?:to|until|through)\b|[-–—])\s*", "–", item.lower())
        for part in re.split(r"\s+and\s+|\s+", days):
            first, *rest = [_weekday(day, item) for day in part.split("–")]
            if len(rest) > 1:
                raise ValueError(f"'{item[:40]}' cannot be read; write the days like 'Mon to Fri' or 'Mon, Wed, Fri'.")
            last = rest[0] if rest else first
            found.update((first + step) % 7 for step in range((last - first) % 7 + 1))
    if not found:
        raise ValueError("'days' needs at least one day of the week.")
    return tuple(sorted(found))


def _weekday(text: str, item: str) -> int:
    # "Mo", "Mon", "Mon.", "Mondays"; but no more letters than the day has.
    day = text.removesuffix(".")
    found = [place for place, name in enumerate(_WEEKDAYS) if len(day) > 1 and f"{name}s".startswith(day)]
    if len(found) != 1:
        raise ValueError(f"'{item[:40]}' is no day of the week; write {', '.join(DAYS)}, or 'Mon to Fri'.")
    return found[0]


def _theme(name: str, folder: Path | None) -> str:
    """The theme as a build takes it. A mistake in it is told here, once, and not by each lesson."""
    from studio.pictures.themes import load_theme

    if folder is not None and name.endswith(".toml") and (folder / name).is_file():
        name = str((folder / name).resolve())
    try:
        load_theme(name)
    except UnusableInput as error:
        told = " ".join(error.sentences())
        raise ValueError(told[:1].upper() + told[1:]) from None
    return name


def _yes(entry: Entry) -> bool:
    text = _one(entry).lower()
    if text not in ("yes", "no", "true", "false"):
        raise ValueError(f"'{entry.key}' is yes or no.")
    return text in ("yes", "true")


_READERS: dict[str, Callable[[Entry], Any]] = {
    "title": _one,
    "grade": _grade,
    "pace": _pace,
    "first-day": lambda entry: parse_day(_one(entry)),
    "lessons": _between(1, MOST_LESSONS),
    "days": _weekdays,
    "holidays": lambda entry: tuple(parse_days(item) for item in _many(entry)),
    "numbers": _range(1, 99),
    "wholes": _range(3, 10),
    "stretch": _between(0, 60),
    "linked": _yes,
    "theme": _one,
    "paper": _choice(_PAPERS),
    "numerals": _choice(_NUMERALS),
}
