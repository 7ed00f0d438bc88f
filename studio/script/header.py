"""The header of a script: YAML between two lines `---`."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import yaml

from studio.errors import Problem
from studio.script.model import Grade, Header
from studio.script.nearest import did_you_mean
from studio.script.numberwords import to_number

KEYS = ("title", "number", "grade", "series", "pace", "needs", "standards")
SLOWEST, FASTEST = 40.0, 250.0  # words a minute
_LONGEST = 500  # letters in one value
_LINES = 200  # lines in a header
_FENCE = re.compile(r"---\s*\Z")
_NAMED = re.compile(r"(?P<key>(?:title|series):[ \t]+)(?P<value>[^\s\"'|>\[{&*!%@`].*)\Z")
_SIGNS = re.compile(r"\A#|\s#|:\s|:\Z|\A“")
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True)
class Block:
    """Where the header stands: lines `first` to `last` (from 0, half-open); the body begins at `body`."""

    first: int
    last: int
    body: int


@dataclass(frozen=True, slots=True)
class Entry:
    """One key of a header: a scalar as it is written, or a list of scalars, or a mapping of scalars (routines)."""

    key: str
    line: int
    column: int
    value: str | tuple[str, ...] | dict[str, str]


def unix_text(text: str) -> str:
    """The text of a file as it is read: no byte order mark, Unix line ends."""
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")


def find_header(lines: list[str]) -> Block | Problem:
    """Where the header is in the lines of a script. Empty lines may stand before it."""
    first = next((i for i, line in enumerate(lines) if line.strip()), None)
    if first is None:
        return Problem("The script is empty. Begin with a header: a line '---', a line 'title: ...', a line '---'.")
    if not _FENCE.match(lines[first]):
        message = "The script must begin with a header: a line '---', a line 'title: ...', a line '---'."
        return Problem(message, first + 1, 1)
    for i in range(first + 1, min(len(lines), first + _LINES)):
        if _FENCE.match(lines[i]):
            return Block(first + 1, i, i + 1)
    return Problem("The header is not closed. Put a line '---' after its last line.", first + 1, 1)


def read_entries(lines: list[str], block: Block, problems: list[Problem], nested: tuple[str, ...] = ()) -> list[Entry]:
    """The keys of a header with their places; what cannot be read is added to `problems`.

    A mapping is only allowed as the value of the keys in `nested`.
    """
    text = "\n".join(_quoted(line) for line in lines[block.first : block.last])
    try:
        root = yaml.compose(text, Loader=_LOADER)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line = block.first + 1 + (min(mark.line, block.last - block.first - 1) if mark else 0)
        written = lines[line - 1] if 0 < line <= len(lines) else ""
        problems.append(Problem(_yaml_sentence(error, written), max(line, 1), mark.column + 1 if mark else 0))
        return []
    except (yaml.YAMLError, UnicodeError, ValueError, RecursionError):
        problems.append(Problem("The header cannot be read. Write one 'key: value' on each line.", block.first + 1))
        return []
    if root is None:
        return []
    if not isinstance(root, yaml.MappingNode):
        problems.append(Problem("The header cannot be read. Write one 'key: value' on each line.", block.first + 1, 1))
        return []
    entries = []
    for key, value in root.value:
        line, column = block.first + 1 + key.start_mark.line, key.start_mark.column + 1
        name = key.value if isinstance(key, yaml.ScalarNode) else ""
        content = _content(value, nested=name in nested)
        if content is None:
            message = f"The value of '{_short(name)}' cannot be read. Write a word, a number or a list."
            problems.append(Problem(message, line, column))
        else:
            entries.append(Entry(name, line, column, content))
    return entries


def _quoted(line: str) -> str:
    """A line with a title or a series, in quotation marks where it has signs that are no words of YAML but may well be words of a
    title ("Number of the Day # 14", "Nine: a number", “Nine”)."""
    match = _NAMED.match(line)
    if match is None or not _SIGNS.search(match["value"]):
        return line
    value = match["value"].strip()
    if value[0] == "“" and value[-1] == "”" and value.count("“") == 1:
        value = value[1:-1]  # as an office program writes the marks
    quoted = value.replace("'", "''")
    return f"{match['key']}'{quoted}'"


def read_header(lines: list[str], block: Block, problems: list[Problem]) -> Header:
    """The header of a lesson; every mistake is added to `problems`."""
    values: dict[str, Any] = {}
    places: dict[str, int] = {}
    for entry in read_entries(lines, block, problems, nested=("blanks",)):
        key = entry.key
        if key == "blanks":
            message = "This is a routine with blanks. Fill it first: studio fill ROUTINE --set NAME=NUMBER."
            problems.append(Problem(message, entry.line, entry.column))
        elif key not in KEYS:
            meant = did_you_mean(key, KEYS) or f" The keys are: {', '.join(KEYS)}."
            problems.append(Problem(f"There is no header key '{_short(key)}'.{meant}", entry.line, entry.column))
            if (known := key.lower()) in KEYS:
                places[known] = entry.line
        elif key in places:
            problems.append(
                Problem(
                    f"'{key}' stands twice in the header (first on line {places[key]}); keep one.",
                    entry.line,
                    entry.column,
                )
            )
        else:
            places[key] = entry.line
            try:
                values[key] = _READERS[key](entry.value)
            except ValueError as error:
                problems.append(Problem(str(error), entry.line, entry.column))
    if "title" not in places and not any(p.line > block.first and p.line <= block.last for p in problems):
        problems.append(Problem("The header has no title. Add a line 'title: ...'.", block.first, 1))
    return Header(**{"title": "", **values}, lines=places)


def _content(node: Any, nested: bool) -> str | tuple[str, ...] | dict[str, str] | None:
    if isinstance(node, yaml.ScalarNode):
        return str(node.value)
    if isinstance(node, yaml.SequenceNode):
        items = [_item(item) for item in node.value]
        return None if None in items else tuple(item for item in items if item is not None)
    if nested and isinstance(node, yaml.MappingNode):
        pairs = node.value
        if all(isinstance(part, yaml.ScalarNode) for pair in pairs for part in pair):
            return {str(key.value): str(value.value) for key, value in pairs}
    return None


def _item(node: Any) -> str | None:
    """An item of a list; a colon in it makes no mapping ("scissors: with a grown-up")."""
    if isinstance(node, yaml.MappingNode) and len(node.value) == 1:
        parts = [_item(part) for part in node.value[0]]
        return None if None in parts else ": ".join(str(part) for part in parts)
    return str(node.value) if isinstance(node, yaml.ScalarNode) else None


def _yaml_sentence(error: yaml.MarkedYAMLError, line: str) -> str:
    problem = error.problem or ""
    if "mapping values are not allowed" in problem:
        return 'A value with a colon in it needs quotation marks: title: "Nine: a number".'
    if "\t" in line[: len(line) - len(line.lstrip())]:
        return "The header may not be indented with tabs. Use spaces."
    if "quoted scalar" in (error.context or ""):
        return "A quotation mark is not closed here."
    return (
        "The header cannot be read from here. Write one 'key: value' on each line, with quotation marks where a "
        "value has signs such as : # [ ] { } in it."
    )


def _line(key: str, value: Any) -> str:
    if not isinstance(value, str):
        raise ValueError(f"'{key}' is one line of words, not a list.")
    line = " ".join(value.split())
    if not line:
        raise ValueError(f"'{key}' is empty. Write it after the colon.")
    if len(line) > _LONGEST:
        raise ValueError(f"'{key}' is longer than {_LONGEST} letters.")
    return line


def _title(value: Any) -> str:
    return _line("title", value)


def _series(value: Any) -> str:
    return _line("series", value)


def _lesson_number(value: Any) -> int:
    text = _line("number", value)
    try:
        number = to_number(text) if len(text) < 80 else -1
    except ValueError:
        number = -1
    if not 0 <= number <= 9999:
        raise ValueError(f"'number' is a whole number from 0 to 9999, not '{_short(text)}'.")
    return number


def _grade(value: Any) -> Grade:
    text = _line("grade", value)
    grades: dict[str, Grade] = {"k": "K", "kindergarten": "K", "1": "1", "2": "2"}
    if text.lower() not in grades:
        raise ValueError(f"'grade' is K, 1 or 2, not '{_short(text)}'.")
    return grades[text.lower()]


def _pace(value: Any) -> float:
    text = _line("pace", value)
    try:
        pace = float(text)
    except ValueError:
        pace = 0.0
    if not SLOWEST <= pace <= FASTEST:
        raise ValueError(f"'pace' is in words a minute, from {SLOWEST:.0f} to {FASTEST:.0f}, not '{_short(text)}'.")
    return pace


def _list(key: str) -> Callable[[Any], tuple[str, ...]]:
    """A list, or one line whose items are parted by commas or semicolons (semicolons alone where there are any)."""

    def read(value: Any) -> tuple[str, ...]:
        if isinstance(value, str):
            value = value.split(";" if ";" in value else ",")
        items = tuple(" ".join(item.split()) for item in value if item.strip())
        if any(len(item) > _LONGEST for item in items) or len(items) > 100:
            raise ValueError(f"'{key}' is too long: at most 100 items of {_LONGEST} letters.")
        return items

    return read


_READERS: dict[str, Callable[[Any], Any]] = {
    "title": _title,
    "number": _lesson_number,
    "grade": _grade,
    "series": _series,
    "pace": _pace,
    "needs": _list("needs"),
    "standards": _list("standards"),
}


def _short(text: str) -> str:
    text = " ".join(text.split())
    return text if len(text) <= 40 else text[:37].rstrip() + "..."
