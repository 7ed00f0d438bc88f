"""Lessons from the plan: one script for each row that has none yet."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from studio.errors import UnusableInput
from studio.files import write_text
from studio.script.header import Block, find_header, read_entries, unix_text
from studio.script.model import Clear, Hide, Lesson, Show
from studio.script.reader import read
from studio.series.library import Library, body_of, fill_routine_text
from studio.series.plan import segments_of
from studio.series.routine import Value
from studio.series.settings import Settings
from studio.series.table import Plan, Row

LESSONS = "lessons"
ENDING = ".lesson.md"


@dataclass(frozen=True, slots=True)
class Filled:
    """The files that were written, the lessons that were there already, and for each lesson that could not be written
    the sentence that says which file stands in its way."""

    written: tuple[Path, ...]
    kept: tuple[Path, ...]
    in_the_way: tuple[str, ...] = ()


def lesson_files(folder: Path) -> list[Path]:
    """The scripts of a series in the order of their names."""
    lessons = folder / LESSONS
    return (
        sorted(path for path in lessons.glob(f"*{ENDING}") if not path.name.startswith(".")) if lessons.is_dir() else []
    )


def stem_of(path: Path) -> str:
    """ "pond-009.lesson.md" → "pond-009"."""
    return path.name.removesuffix(ENDING)


def number_of(path: Path) -> int | None:
    """The number in the header of a script, as far as there is one; the whole script is not read."""
    try:
        text = path.read_bytes()[:20_000].decode("utf-8", "replace")
    except OSError:
        return None
    lines = unix_text(text).split("\n")
    block = find_header(lines)
    if not isinstance(block, Block):
        return None
    for entry in read_entries(lines, block, [], nested=("blanks",)):
        if entry.key == "number" and isinstance(entry.value, str) and entry.value.isdecimal():
            return int(entry.value)
    return None


def file_name(settings: Settings, lesson: int) -> str:
    """The name of a lesson's file: "pond-numbers-009.lesson.md"."""
    slug = re.sub(r"[^a-z0-9]+", "-", settings.title.lower()).strip("-")[:40] or "lesson"
    return f"{slug}-{lesson:03d}{ENDING}"


def fill_lessons(
    folder: Path, plan: Plan, settings: Settings, library: Library, only: set[int] | None = None
) -> Filled:
    """Write the lessons of the plan that are not there yet (`only`: those of these numbers). Raises UnusableInput.

    A lesson is there when a script has its number in the header, whatever the file is called. A file of another number
    that has the name it would get is left alone and told: only she knows which of the two it is to be.
    """
    there = {number_of(path): path for path in lesson_files(folder)}
    written, kept, in_the_way = [], [], []
    for row in plan.rows:
        if only is not None and row.lesson not in only:
            continue
        path = folder / LESSONS / file_name(settings, row.lesson)
        if row.lesson in there:
            kept.append(there[row.lesson])
            continue
        if told := in_the_way_of(path, row.lesson):
            in_the_way.append(told)
            continue
        text = lesson_text(row, settings, library)
        if not settings.linked:
            read(text, path.name)
        write_text(path, text)
        written.append(path)
    return Filled(tuple(written), tuple(kept), tuple(in_the_way))


def in_the_way_of(path: Path, lesson: int) -> str:
    """Why a lesson that no script has the number of cannot be written at `path`, and what to do; "" where it can."""
    if not path.exists():
        return ""
    number = number_of(path)
    has = "no number" if number is None else f"the number {number}"
    return (
        f"Lesson {lesson} cannot be written: {path.name} stands in its place and has {has}. Write 'number: {lesson}' into "
        "its header if it is this lesson, or give the file another name."
    )


def lesson_text(row: Row, settings: Settings, library: Library) -> str:
    """The script of one row. Raises UnusableInput."""
    calls = segments_of(row)
    if not calls:
        raise UnusableInput(f"lesson {row.lesson} of the plan has no segment; write one into its row.")
    bodies: list[str] = []
    standards: list[str] = []
    needs: list[str] = []
    clear = False
    for name, values in calls:
        try:
            filled = fill_routine_text(library.get(name), values, library)
        except UnusableInput as error:
            told = [type(problem)(f"Lesson {row.lesson}: {problem.message}") for problem in error.problems]
            raise UnusableInput(told, "the plan") from None
        lesson = read(filled, name)
        standards.extend(lesson.header.standards)
        needs.extend(lesson.header.needs)
        # Each segment begins with an empty screen.
        body = use_text(name, values) if settings.linked else body_of(filled)
        bodies.append(("[clear]\n\n" if clear else "") + body)
        clear = _leaves_pictures(lesson)
    title = row.cell("title") or _title(row.lesson, calls)
    lines = [
        "---",
        f"title: {_quoted(title)}",
        f"number: {row.lesson}",
        f'grade: "{settings.grade}"',
        f"series: {_quoted(settings.title)}",
        f"pace: {settings.pace:g}",
        f"needs: [{', '.join(_quoted(need) for need in dict.fromkeys(needs))}]",
        f"standards: [{', '.join(_quoted(standard) for standard in dict.fromkeys(standards))}]",
        "---",
    ]
    end = "[clear]\n" if clear else ""
    return "\n".join(lines) + "\n" + "\n\n".join(bodies) + f"\n\n{end}[camera full]\n{_GOODBYE}"


_GOODBYE = "That is all for today. See you at the pond!\n"


def _leaves_pictures(lesson: Lesson) -> bool:
    on: set[str] = set()
    for direction in lesson.directions:
        match direction:
            case Show():
                on.add(direction.name)
            case Hide():
                on.discard(direction.name)
            case Clear():
                on.clear()
            case _:
                pass
    return bool(on)


def use_text(name: str, values: dict[str, Value]) -> str:
    """How a lesson uses a part: `{{ use("teen numbers", n=14) }}`."""
    given = "".join(
        f", {key}={value}" if isinstance(value, int) else f', {key}="{value}"' for key, value in values.items()
    )
    return f'{{{{ use("{name}"{given}) }}}}'


def _title(lesson: int, calls: list[tuple[str, dict[str, Value]]]) -> str:
    day = next((values["n"] for name, values in calls if name.startswith("number of the day") and "n" in values), None)
    return f"The Number {day}" if day is not None else f"Lesson {lesson}"


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
