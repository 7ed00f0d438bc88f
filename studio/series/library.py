"""Where routines and parts are found, and how lessons use them.

A **part** is a routine, a saved segment or a saved picture: a script with blanks, looked for by name in the `parts`
folder of the series and then on the shelf that is shipped. A lesson uses one with `{{ use("teen numbers", n=14) }}` on
a line of its own, or, a picture, inside a direction: `[show {{ use("pond frame", dots=7) }}]`. What is used is put in
each time the lesson is read, so a change to the part changes every lesson that uses it.
"""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from studio.errors import Problem, UnusableInput
from studio.files import shared_dir
from studio.script.files import load_text
from studio.script.header import find_header, unix_text
from studio.script.model import Lesson, Place
from studio.script.nearest import did_you_mean
from studio.script.reader import LARGEST, read
from studio.series.routine import Routine, Value, parse_value, read_routine, tidy_header
from studio.series.sandbox import compile_script, fill_script
from studio.store import content_key

PARTS = "parts"
ENDINGS = (".routine.md", ".part.md")
_DEEPEST = 8  # parts within parts
_EMPTY_LINES = re.compile(r"\n{3,}")  # left where a part of the routine does not apply


@dataclass(frozen=True, slots=True)
class Use:
    """A part as it is used: its name, its numbers, the key of its content and the line of the lesson."""

    name: str
    values: Mapping[str, Value]
    key: str
    line: int


@dataclass(frozen=True, slots=True)
class Expanded:
    """A script with its parts put in. `lines[i]` is the line of the file that line i + 1 of `text` comes from."""

    text: str
    lines: tuple[int, ...]
    uses: tuple[Use, ...]


@dataclass
class Library:
    """Routines and parts by name. `folders` are looked through in order."""

    folders: tuple[Path, ...]
    _read: dict[Path, tuple[tuple[int, int], Routine]] = field(default_factory=dict)

    @classmethod
    def of(cls, series: Path | None = None) -> Library:
        """The parts of a series folder (None: of no series) and the shelf."""
        shelf = shared_dir() / "routines"
        return cls((series / PARTS, shelf) if series is not None else (shelf,))

    def names(self) -> dict[str, Path]:
        """Every name with its file; a part of the series hides one of the same name on the shelf."""
        found: dict[str, Path] = {}
        for folder in self.folders:
            if folder.is_dir():
                for path in sorted(folder.iterdir()):
                    if path.name.endswith(ENDINGS) and not path.name.startswith("."):
                        found.setdefault(name_of(path), path)
        return found

    def get(self, name: str) -> Routine:
        """The routine or part of that name. Raises UnusableInput."""
        wanted = _plain_name(name)
        for folder in self.folders:
            for ending in ENDINGS:
                path = folder / (wanted.replace(" ", "-") + ending)
                if path.is_file():
                    return self.load(path)
        names = self.names()
        if wanted in names:
            return self.load(names[wanted])
        near = did_you_mean(wanted, names) or " 'studio series routines' lists those that there are."
        raise UnusableInput(f"there is no routine or part '{name[:60]}'.{near}")

    def load(self, path: Path) -> Routine:
        """The routine in a file; read again only when the file has changed. Raises UnusableInput."""
        try:
            status = path.stat()
            stamp = (status.st_mtime_ns, status.st_size)
        except OSError:
            stamp = (0, 0)
        known = self._read.get(path)
        if known is None or known[0] != stamp:
            known = (stamp, read_routine(load_text(path), name_of(path), str(path)))
            self._read[path] = known
        return known[1]


def name_of(path: Path) -> str:
    """ "teen-numbers.routine.md" → "teen numbers"."""
    name = path.name
    for ending in (*ENDINGS, ".lesson.md", ".md"):
        if name.endswith(ending):
            return _plain_name(name.removesuffix(ending))
    return _plain_name(path.stem)


def _plain_name(name: str) -> str:
    return " ".join(name.lower().replace("-", " ").replace("_", " ").split())


class _User:
    """What `use(...)` calls while something is filled: finds the part, fills it, notes that it was used."""

    def __init__(self, library: Library, line: int = 0) -> None:
        self.library = library
        self.line = line
        self.uses: list[Use] = []
        self.stack: list[str] = []
        self.size = 0

    def __call__(self, *names: Any, **values: Any) -> str:
        if len(names) != 1 or not isinstance(names[0], str):
            raise ValueError('Write use("NAME", blank=number).')
        routine = self.library.get(names[0])
        if routine.name in self.stack:
            raise UnusableInput(f"'{routine.name}' uses itself: {' → '.join([*self.stack, routine.name])}.")
        if len(self.stack) >= _DEEPEST:
            raise UnusableInput(f"parts are used within parts more than {_DEEPEST} deep.")
        given = {name: value if isinstance(value, int) else parse_value(str(value)) for name, value in values.items()}
        self.uses.append(Use(routine.name, given, content_key(routine.text), self.line))
        self.stack.append(routine.name)
        try:
            text = body_of(routine.fill(given, self))
        finally:
            self.stack.pop()
        self.size += len(text)
        if self.size > LARGEST:
            raise ValueError("The parts of this lesson become too long.")
        return text


def body_of(text: str) -> str:
    """What a part puts into a lesson: everything under its header."""
    lines = text.split("\n")
    block = find_header(lines)
    return "\n".join(lines if isinstance(block, Problem) else lines[block.body :]).strip("\n")


def fill_routine_text(routine: Routine, values: Mapping[str, Value], library: Library) -> str:
    """The script of a lesson from a routine, with what it uses put in. Raises UnusableInput."""
    return _EMPTY_LINES.sub("\n\n", tidy_header(routine.fill(values, _User(library))))


def part_as_lesson(routine: Routine, values: Mapping[str, Value], library: Library) -> str:
    """The script of a routine or part, filled, to be read by itself; every line stays in its place. A saved part, which
    has no title of its own, gets its name for one. Raises UnusableInput."""
    lines = routine.fill(values, _User(library)).split("\n")
    block = find_header(lines)
    if not isinstance(block, Problem):
        header = lines[block.first : block.last]
        if not any(line.startswith("title") for line in header) and "" in header:
            lines[block.first + header.index("")] = f'title: "{routine.name}"'
    return "\n".join(lines)


def expand(text: str, library: Library, source: str = "") -> Expanded:
    """Put the parts into a lesson's script. Raises UnusableInput with all that cannot be put in."""
    text = unix_text(text)
    written = text.split("\n")
    result: list[str] = []
    lines: list[int] = []
    uses: list[Use] = []
    problems: list[Problem] = []
    for number, line in enumerate(written, 1):
        if "{{" not in line:
            result.append(line)
            lines.append(number)
            continue
        user = _User(library, number)
        try:
            filled = fill_script(compile_script(line, source, frozenset()), {}, user).split("\n")
        except UnusableInput as error:
            problems.extend(_told_here(error, number, line.index("{{") + 1))
            filled = []
        uses.extend(user.uses)
        result.extend(filled)
        lines.extend([number] * len(filled))
    if problems:
        raise UnusableInput(problems, source)
    return Expanded("\n".join(result), tuple(lines), tuple(uses))


def load_lesson(path: Path | str, library: Library | None = None) -> Lesson:
    """Read a lesson with the parts that it uses. Raises UnusableInput.

    Places are those of the file itself; the words of a part stand where it is used. Without a library the parts are
    looked for beside the lesson or in the folder above, and on the shelf.
    """
    return read_expanded(path, library)[0]


def read_expanded(path: Path | str, library: Library | None = None) -> tuple[Lesson, Expanded]:
    """As `load_lesson`, with what it was read from."""
    path = Path(path)
    text = load_text(path)
    if "{{" not in text:
        lesson = read(text, str(path))
        return lesson, Expanded(lesson.text, (), ())
    expanded = expand(text, library or Library.of(series_of(path)), str(path))
    try:
        lesson = read(expanded.text, str(path))
    except UnusableInput as error:
        told = [
            replace(problem, line=expanded.lines[min(problem.line, len(expanded.lines)) - 1] if problem.line else 0)
            for problem in error.problems
        ]
        raise UnusableInput(told, str(path)) from None
    return _placed(lesson, expanded, text), expanded


def series_of(path: Path) -> Path | None:
    """The series folder that a file belongs to: its own folder or the one above that has a `parts` folder or a
    `series.yaml`; None where there is none."""
    real = Path(os.path.realpath(path))  # Path.resolve raises RuntimeError where links go round in a ring
    for folder in (real.parent, real.parent.parent):
        if (folder / "series.yaml").is_file() or (folder / PARTS).is_dir():
            return folder
    return None


def _placed(lesson: Lesson, expanded: Expanded, text: str) -> Lesson:
    if not expanded.uses:
        return lesson
    columns = {use.line: max(text.split("\n")[use.line - 1].find("{{"), 0) + 1 for use in expanded.uses}

    def place(old: Place) -> Place:
        line = expanded.lines[old.line - 1]
        return Place(line, columns.get(line, old.column))

    segments = []
    for segment in lesson.segments:
        segments.append(replace(
            segment,
            place=place(segment.place),
            words=tuple(replace(word, place=place(word.place)) for word in segment.words),
            directions=tuple(replace(direction, place=place(direction.place)) for direction in segment.directions),
        ))  # fmt: skip
    return replace(lesson, segments=tuple(segments))


def _told_here(error: UnusableInput, line: int, column: int) -> list[Problem]:
    told = []
    for problem in error.problems:
        where = (
            f"In {Path(error.source).name}, line {problem.line}: "
            if error.source and problem.line and _is_part(error)
            else ""
        )
        told.append(Problem(where + _capital(problem.message), line, column))
    return told


def _is_part(error: UnusableInput) -> bool:
    return error.source.endswith(ENDINGS)


def _capital(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]
