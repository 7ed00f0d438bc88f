"""Proving a routine: filled with every combination of its numbers, and each lesson checked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from studio.errors import UnusableInput
from studio.findings import Finding
from studio.progress import Progress, silent
from studio.script.reader import read
from studio.series.library import Library, fill_routine_text
from studio.series.routine import MOST_FILLINGS, Routine, Value


@dataclass(frozen=True, slots=True)
class Example:
    """Something that was found, with the first numbers it was found with and how many fillings have it. `finding` is
    None where the filled script cannot be read (`message` says why)."""

    values: Mapping[str, Value]
    count: int
    message: str
    finding: Finding | None


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
                {"values": dict(e.values), "count": e.count, "message": e.message,
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
        )
        found = "nothing to mend." if not self.examples else f"{len(self.examples)} to look at."
        lines = [f"{self.routine.source or self.routine.name}: {how}; {found}"]
        for example in self.examples:
            given = ", ".join(f"{name} = {value}" for name, value in example.values.items())
            level = example.finding.level if example.finding else "error"
            more = f", and {example.count - 1} more" if example.count > 1 else ""
            lines.append(f"  {level}: {example.message} (with {given}{more})")
        return lines


def prove(routine: Routine, library: Library, most: int = MOST_FILLINGS, progress: Progress = silent) -> Proof:
    """Fill a routine with every combination of its numbers that meets the conditions, and check each lesson.

    Where there are more than `most` combinations, that many are drawn at random. Raises UnusableInput where none meets
    the conditions.
    """
    from studio.agree import check

    sampled = routine.combinations > most
    expected = min(routine.combinations, most)
    found: dict[tuple[str, str, int], Example] = {}
    filled = 0
    for filled, values in enumerate(routine.fillings(most), 1):
        progress(filled / expected, f"trying {routine.name}")
        try:
            findings = check(read(fill_routine_text(routine, values, library), routine.source)).findings
        except UnusableInput as error:
            problem = error.problems[0]
            _add(found, ("unreadable", problem.message[:40], problem.line), values, problem.message, None)
            continue
        for finding in findings:
            _add(found, (finding.rule, finding.level, finding.line), values, finding.message, finding)
    if not filled:
        raise UnusableInput(
            "no numbers in the ranges of this routine meet its conditions.", routine.source or routine.name
        )
    return Proof(routine, filled, sampled, tuple(found.values()))


def _add(
    found: dict[tuple[str, str, int], Example],
    key: tuple[str, str, int],
    values: Mapping[str, Value],
    message: str,
    finding: Finding | None,
) -> None:
    known = found.get(key)
    found[key] = (
        Example(dict(values), 1, message, finding)
        if known is None
        else Example(known.values, known.count + 1, known.message, known.finding)
    )
