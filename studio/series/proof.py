"""Proving a routine: filled with every combination of its numbers, and each lesson checked."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from studio.errors import UnusableInput
from studio.findings import Finding
from studio.progress import Progress, silent
from studio.script.kinds import KINDS
from studio.script.nearest import nearest
from studio.script.reader import read
from studio.series.library import Library, body_of, part_as_lesson
from studio.series.routine import MOST_FILLINGS, Routine, Value

_PICTURE = re.compile(r"\s*(?P<kind>[a-z][a-z -]*):[^\n]*\Z", re.IGNORECASE)  # a segment has a heading or more lines
_SENTENCE = re.compile(r"\w[.!?…]+[\"'”’)]*\s*\Z")


@dataclass(frozen=True, slots=True)
class Example:
    """Something that was found, with the first numbers it was found with and how many fillings have it. `finding` is
    None where the filled script cannot be read (`message` says why); `line` is that of the file (0: not known)."""

    values: Mapping[str, Value]
    count: int
    message: str
    finding: Finding | None
    line: int = 0


@dataclass(frozen=True)
class Proof:
    """What the check of a routine found. `filled` lessons were checked; `sampled`: not all combinations, because there
    are more than can be tried."""

    routine: Routine
    filled: int
    sampled: bool
    examples: tuple[Example, ...]

    @property
    def has_errors(self) -> bool:
        return any(example.finding is None or example.finding.level == "error" for example in self.examples)

    def as_json(self) -> dict[str, Any]:
        return {
            "routine": {"name": self.routine.name, "source": self.routine.source, "about": self.routine.about,
                        "blanks": {blank.name: blank.range for blank in self.routine.blanks}},
            "filled": self.filled,
            "combinations": self.routine.combinations,
            "sampled": self.sampled,
            "findings": [
                {"values": dict(e.values), "count": e.count, "message": e.message, "line": e.line,
                 **({"finding": e.finding.as_json()} if e.finding else {})}
                for e in self.examples
            ],
        }  # fmt: skip

    def lines(self) -> list[str]:
        """What is printed for a person."""
        how = (
            f"tried with {self.filled:,} of its {self.routine.combinations:,} combinations of numbers, drawn at random"
            if self.sampled
            else f"tried with each of its {self.filled:,} combinations of numbers"
            if self.routine.blanks
            else "checked by itself"
        )
        found = "nothing to mend." if not self.examples else f"{len(self.examples)} to look at."
        lines = [f"{self.routine.source or self.routine.name}: {how}; {found}"]
        for example in self.examples:
            given = ", ".join(f"{name} = {value}" for name, value in example.values.items())
            level = example.finding.level if example.finding else "error"
            more = f", and {example.count - 1} more" if example.count > 1 else ""
            where = f"line {example.line}: " if example.line and not example.message.startswith("Line") else ""
            lines.append(f"  {level}: {where}{example.message}" + (f" (with {given}{more})" if given else ""))
        return lines


def prove(routine: Routine, library: Library, most: int = MOST_FILLINGS, progress: Progress = silent) -> Proof:
    """Fill a routine or part with every combination of its numbers that meets the conditions, and check each lesson.

    Where there are more than `most` combinations, that many are drawn at random. Raises UnusableInput where none meets
    the conditions.
    """
    sampled = routine.combinations > most
    expected = min(routine.combinations, most)
    found: dict[tuple[str, str, int], Example] = {}
    filled = 0
    for filled, values in enumerate(routine.fillings(most), 1):
        progress(filled / expected, f"trying {routine.name}")
        try:
            text = part_as_lesson(routine, values, library)
            # Where what is filled has other lines than the file, a line of the one says nothing of the other.
            same = text.count("\n") == routine.text.count("\n")
            findings = _findings(text, routine)
        except UnusableInput as error:
            problem = error.problems[0]
            example = Example(dict(values), 1, problem.message, None, problem.line if same else 0)
            _add(found, ("unreadable", re.sub(r"\d+", "0", problem.message)[:40], problem.line), example)
            continue
        for finding in findings:
            example = Example(dict(values), 1, finding.message, finding, finding.line if same else 0)
            _add(found, (finding.rule, finding.level, finding.line), example)
    if not filled:
        raise UnusableInput(
            "no numbers in the ranges of this routine meet its conditions.", routine.source or routine.name
        )
    return Proof(routine, filled, sampled, tuple(found.values()))


def _findings(text: str, routine: Routine) -> tuple[Finding, ...]:
    from studio.agree import check
    from studio.pictures.draw import picture_of

    if is_picture(routine):
        body = body_of(text)
        try:
            picture_of(body)
        except UnusableInput as error:
            line = text.count("\n", 0, text.rindex(body)) + 1
            raise UnusableInput([replace(problem, line=line) for problem in error.problems]) from None
        return ()
    return tuple(check(read(text, routine.source)).findings)


def is_picture(routine: Routine) -> bool:
    """Whether a part is a picture, `KIND: DETAILS as NAME` (the kind may be mistyped), and not words with directions,
    such as "Listen: five and two make seven."."""
    body = body_of(routine.text)
    found = _PICTURE.match(body)
    if found is None:
        return False
    kind = " ".join(found["kind"].lower().split())
    return kind in KINDS or (nearest(kind, KINDS) is not None and not _SENTENCE.search(body))


def _add(found: dict[tuple[str, str, int], Example], key: tuple[str, str, int], example: Example) -> None:
    known = found.get(key)
    found[key] = example if known is None else replace(known, count=known.count + 1)
