"""A routine: a script with blanks, the ranges of the blanks, and the conditions between them."""

from __future__ import annotations

import itertools
import random
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import prod

from studio.errors import Problem, UnusableInput
from studio.script.header import KEYS, Entry, find_header, read_entries, unix_text
from studio.script.nearest import did_you_mean
from studio.script.numberwords import to_number
from studio.series.sandbox import Script, compile_condition, compile_script, fill_script

Value = int | str
ROUTINE_KEYS = ("blanks", "conditions", "about")
MOST_FILLINGS = 10_000
_LARGEST = 9_999
_MOST_CHOICES = 2_000
_NAME = re.compile(r"[a-z][a-z0-9_]*\Z")
_RANGE = re.compile(r"(?P<first>.+?)\s+to\s+(?P<last>.+?)(?:\s+by\s+(?P<step>.+))?\Z", re.IGNORECASE)
_FILLED = re.compile(r"\{\{.*?\}\}|\{%.*?%\}")


@dataclass(frozen=True, slots=True)
class Blank:
    """A blank and what may stand in it; `line` is where its range is written."""

    name: str
    choices: tuple[Value, ...]
    line: int

    @property
    def range(self) -> str:
        """The choices as a teacher reads them: "11 to 19", "frog, duck or otter"."""
        first, last = self.choices[0], self.choices[-1]
        if len(self.choices) > 2 and isinstance(first, int) and isinstance(last, int):
            step = (last - first) // (len(self.choices) - 1)
            if self.choices == tuple(range(first, last + step, step)) if step > 0 else False:
                return f"{first} to {last}" + (f" by {step}" if step > 1 else "")
        shown = [str(choice) for choice in self.choices]
        return shown[0] if len(shown) == 1 else ", ".join(shown[:-1]) + f" or {shown[-1]}"


@dataclass(frozen=True)
class Condition:
    """What must be true of the blanks together, as it is written and as a function."""

    text: str
    line: int
    holds: Callable[..., bool]


@dataclass(frozen=True)
class Routine:
    """A script with blanks. `text` is the whole file, `about` one line on what it is for."""

    name: str
    about: str
    blanks: tuple[Blank, ...]
    conditions: tuple[Condition, ...]
    text: str
    source: str

    @cached_property
    def script(self) -> Script:
        """The routine without its own header keys, every line in its place, ready to be filled."""
        return compile_script(_without_own_keys(self.text), self.source, frozenset(blank.name for blank in self.blanks))

    def check(self, values: Mapping[str, Value]) -> None:
        """Raises UnusableInput where a value is missing, out of its range or against a condition: all at once."""
        problems = []
        blanks = {blank.name: blank for blank in self.blanks}
        for name in values:
            if name not in blanks:
                known = f" Its blanks are: {', '.join(blanks)}." if blanks else " It has none."
                problems.append(Problem(f"'{self.name}' has no blank '{name}'.{did_you_mean(name, blanks) or known}"))
        for name, blank in blanks.items():
            if name not in values:
                problems.append(Problem(f"'{self.name}' needs '{name}': {blank.range}."))
            elif values[name] not in blank.choices:
                problems.append(Problem(f"'{name}' is {blank.range} in '{self.name}', not {str(values[name])[:40]}."))
        if not problems:
            for condition in self.conditions:
                if not condition.holds(**values):
                    given = ", ".join(f"{name} = {value}" for name, value in values.items())
                    problems.append(Problem(f"'{self.name}' needs {condition.text}; with {given} it is not so."))
        if problems:
            raise UnusableInput(problems)

    def fill(self, values: Mapping[str, Value], use: Callable[..., str] | None = None) -> str:
        """The script with its blanks filled. Raises UnusableInput."""
        self.check(values)
        return fill_script(self.script, values, use)

    def fillings(self, most: int = MOST_FILLINGS) -> Iterator[dict[str, Value]]:
        """Every combination of values in range that meets the conditions; where there are more than `most`
        combinations, `most` of them drawn at random (the same ones each time)."""
        names = [blank.name for blank in self.blanks]
        choices = [blank.choices for blank in self.blanks]
        if self.combinations <= most:
            drawn: Iterator[Sequence[Value]] = itertools.product(*choices)
        else:
            chance = random.Random(self.name)
            drawn = ([chance.choice(choice) for choice in choices] for _ in range(most))
        for values in drawn:
            filling = dict(zip(names, values, strict=True))
            if all(condition.holds(**filling) for condition in self.conditions):
                yield filling

    @property
    def combinations(self) -> int:
        """How many combinations of values there are before the conditions."""
        return prod(len(blank.choices) for blank in self.blanks)


def is_routine(text: str) -> bool:
    """Whether a script has blanks in its header."""
    lines = unix_text(text).split("\n")
    block = find_header(lines)
    return not isinstance(block, Problem) and any(
        re.match(r"blanks\s*:", line) for line in lines[block.first : block.last]
    )


def read_routine(text: str, name: str, source: str = "") -> Routine:
    """Read a routine. Raises UnusableInput with every mistake that can be told without filling it."""
    text = unix_text(text)
    lines = text.split("\n")
    block = find_header(lines)
    if isinstance(block, Problem):
        raise UnusableInput(block, source)
    problems: list[Problem] = []
    blanks: list[Blank] = []
    conditions: list[tuple[str, int]] = []
    about = ""
    for entry in read_entries(_masked(lines), block, problems, nested=("blanks",)):
        if entry.key == "blanks":
            blanks.extend(_read_blanks(entry, lines, problems))
        elif entry.key == "conditions":
            given = (entry.value,) if isinstance(entry.value, str) else tuple(entry.value)
            conditions.extend((condition, entry.line) for condition in given if condition.strip())
        elif entry.key == "about":
            about = entry.value if isinstance(entry.value, str) else ""
        elif entry.key not in KEYS:
            keys = (*KEYS, *ROUTINE_KEYS)
            meant = did_you_mean(entry.key, keys) or f" The keys are: {', '.join(keys)}."
            problems.append(Problem(f"There is no header key '{entry.key[:40]}'.{meant}", entry.line, entry.column))
    known = frozenset(blank.name for blank in blanks)
    made = []
    for condition, line in conditions:
        try:
            made.append(Condition(condition, line, compile_condition(condition, source, line, known)))
        except UnusableInput as error:
            problems.extend(error.problems)
    if total := prod(len(blank.choices) for blank in blanks) > 10**12:
        problems.append(Problem(f"The blanks have {total} combinations; make their ranges smaller.", block.first + 1))
    routine = Routine(name, about, tuple(blanks), tuple(made), text, source)
    try:
        routine.script  # noqa: B018 (compiled now, so that its mistakes are told with the others)
    except UnusableInput as error:
        problems.extend(error.problems)
    if problems:
        raise UnusableInput(sorted(problems, key=lambda problem: (problem.line, problem.column)), source)
    return routine


def parse_value(text: str) -> Value:
    """A value as it is given on the command line or in a plan: a number in digits or words, or a word."""
    text = " ".join(text.split())
    try:
        return to_number(text) if len(text) <= 80 else text
    except ValueError:
        return text


def _masked(lines: list[str]) -> list[str]:
    """What is to be filled is no YAML: the header is read with letters in its place."""
    return [_FILLED.sub(lambda found: "x" * len(found[0]), line) for line in lines]


def _read_blanks(entry: Entry, lines: list[str], problems: list[Problem]) -> Iterator[Blank]:
    if not isinstance(entry.value, dict):
        problems.append(
            Problem("Write the blanks with their ranges: 'blanks: {n: 11 to 19}'.", entry.line, entry.column)
        )
        return
    for name, written in entry.value.items():
        line = next(
            (
                i
                for i in range(entry.line, min(entry.line + 60, len(lines)) + 1)
                if re.search(rf"\b{re.escape(name)}\s*:", lines[i - 1])
            ),
            entry.line,
        )
        if not _NAME.match(name) or name in (
            "range",
            "use",
            "loop",
            "true",
            "false",
            "none",
            "and",
            "or",
            "not",
            "if",
            "in",
        ):
            problems.append(Problem(f"A blank cannot be called '{name[:40]}'. Use small letters, like 'whole'.", line))
            continue
        try:
            yield Blank(name, _choices(written), line)
        except ValueError as error:
            problems.append(Problem(f"The range of '{name}' {error}", line))


def _choices(written: str) -> tuple[Value, ...]:
    found = _RANGE.match(" ".join(written.split()))
    if found is not None:
        try:
            first, last = to_number(found["first"]), to_number(found["last"])
            step = to_number(found["step"]) if found["step"] else 1
        except ValueError:
            raise ValueError(f"cannot be read: '{written[:40]}'. Write it like '11 to 19' or '3, 5, 8'.") from None
        if step < 1 or first > last:
            raise ValueError(f"is empty: '{written[:40]}'. Write the smaller number first.")
        if last > _LARGEST or (last - first) // step >= _MOST_CHOICES:
            raise ValueError(f"is too large: at most {_MOST_CHOICES:,} numbers, up to {_LARGEST:,}.")
        return tuple(range(first, last + 1, step))
    choices = tuple(parse_value(item) for item in written.split(",") if item.strip())
    if not choices:
        raise ValueError("is empty. Write it like '11 to 19' or '3, 5, 8'.")
    if len(choices) > _MOST_CHOICES or any(isinstance(choice, int) and choice > _LARGEST for choice in choices):
        raise ValueError(f"is too large: at most {_MOST_CHOICES:,} values, up to {_LARGEST:,}.")
    return tuple(dict.fromkeys(choices))


def _without_own_keys(text: str) -> str:
    """The text without the header keys that belong to the routine itself, with empty lines in their place, so that
    lines keep their numbers until the lesson is written (`tidy_header` takes them out)."""
    lines = text.split("\n")
    block = find_header(lines)
    if isinstance(block, Problem):
        return text
    own = False
    for i in range(block.first, block.last):
        if lines[i][:1].strip() and not lines[i].startswith("#"):
            own = bool(re.match(rf"(?:{'|'.join(ROUTINE_KEYS)})\s*:", lines[i]))
        if own:
            lines[i] = ""
    return "\n".join(lines)


def tidy_header(text: str) -> str:
    """A filled script without the empty lines in its header."""
    lines = text.split("\n")
    block = find_header(lines)
    if isinstance(block, Problem):
        return text
    header = [line for line in lines[block.first : block.last] if line.strip()]
    return "\n".join([*lines[: block.first], *header, *lines[block.last :]])
