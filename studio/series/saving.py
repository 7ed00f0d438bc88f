"""Saving a picture or a segment as a part under a name, to be used in any lesson of the series."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from itertools import islice
from pathlib import Path

from studio.errors import Problem, UnusableInput
from studio.files import write_text
from studio.script.files import load_text
from studio.script.header import unix_text
from studio.script.nearest import did_you_mean
from studio.script.reader import read, read_picture
from studio.series.library import PARTS, Library, body_of, part_as_lesson
from studio.series.routine import Routine, Value, read_routine

_NAME = re.compile(r"[a-z0-9](?:[a-z0-9 -]*[a-z0-9])?\Z")


def save_picture(folder: Path, name: str, picture: str, blanks: Mapping[str, str]) -> Path:
    """Save `KIND: DETAILS as NAME`, which may have blanks, as the part `name`: "ten frame: {{ n }} dots" with
    {"n": "0 to 10"}. Used as `[show {{ use("NAME", n=7) }}]`. Raises UnusableInput."""
    body = " ".join(picture.split()) + "\n"
    try:
        first = next(read_routine(_header("", blanks) + body, name).fillings(), {})
        given = "".join(
            f", {blank}={value if isinstance(value, int) else repr(value)}" for blank, value in first.items()
        )
        text = _header(f"A picture. Use it as [show {{{{ use({name!r}{given}) }}}}].", blanks) + body
        routine = read_routine(text, name)
        for values in islice(routine.fillings(), 200):
            read_picture(body_of(routine.fill(values)))
        # Each range to its end, the others at their least: whether all can be at their end together, only she knows.
        for values in (first, *(first | {blank.name: blank.choices[-1]} for blank in routine.blanks)):
            _draw(routine, values)
    except UnusableInput as error:  # she wrote no lines, so none are told
        raise UnusableInput([_of_a_picture(problem) for problem in error.problems]) from None
    return _write(folder, name, text)


def _draw(routine: Routine, values: Mapping[str, Value]) -> None:
    from studio.pictures.draw import picture_of

    try:
        picture_of(body_of(routine.fill(values)))
    except UnusableInput as error:
        given = ", ".join(f"{name} = {value}" for name, value in values.items())
        message = error.problems[0].message
        raise UnusableInput(f"With {given}: {message[:1].upper()}{message[1:]}" if given else message) from None


def _of_a_picture(problem: Problem) -> Problem:
    missing = re.match(r"There is no blank '(\w+)'\.", problem.message)
    return Problem(problem.message + (f' Give its range: --blank "{missing[1]}=0 to 10".' if missing else ""))


def save_segment(folder: Path, name: str, lesson: Path, title: str) -> Path:
    """Save a segment of a lesson, by its title, as the part `name`, word for word. Raises UnusableInput."""
    source = unix_text(load_text(lesson))
    segments = read(source, str(lesson)).segments
    wanted = [segment for segment in segments if segment.title.lower() == title.strip().lower()]
    if not wanted:
        near = did_you_mean(title, [segment.title for segment in segments])
        raise UnusableInput(f"there is no segment '{title[:60]}'.{near}", str(lesson))
    lines = source.split("\n")
    start = wanted[0].place.line - 1
    after = [segment.place.line - 1 for segment in segments if segment.place.line - 1 > start]
    body = "\n".join(lines[start : min(after, default=len(lines))]).strip("\n")
    header = _header("A segment, saved from a lesson.", {})
    text = header + body + "\n"
    try:
        part = read_routine(text, name)
    except UnusableInput as error:
        down = start - header.count("\n")
        raise UnusableInput([replace(told, line=told.line + down) for told in error.problems], str(lesson)) from None
    # A part is read as a lesson of its own, so that a mistake is told when it is saved and not when it is used.
    read(part_as_lesson(part, {}, Library.of(folder)), name)
    return _write(folder, name, text)


def _header(about: str, blanks: Mapping[str, str]) -> str:
    quoted = about.replace("\\", "\\\\").replace('"', "'")
    given = "".join(f'\n  {blank}: "{written}"' for blank, written in blanks.items())
    return f'---\nabout: "{quoted}"\n' + (f"blanks:{given}\n" if given else "") + "---\n"


def _write(folder: Path, name: str, text: str) -> Path:
    plain = " ".join(name.lower().split())
    if not _NAME.match(plain):
        raise UnusableInput(f"a part cannot be called '{name[:40]}'; use letters, digits, spaces and hyphens.")
    if plain in Library((folder / PARTS,)).names():
        raise UnusableInput(f"there is a part '{plain}' already; nothing was overwritten. Choose another name.")
    path = folder / PARTS / (plain.replace(" ", "-") + ".part.md")
    write_text(path, text)
    return path
