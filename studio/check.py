"""The verb `check`: is every number that is shown the number that is said, and is what is said true?"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from studio.findings import Finding

if TYPE_CHECKING:
    from studio.series.proof import Proof


@dataclass(frozen=True)
class Checked:
    """What the check of one script found. `value` is the value of `check --json`; `summary` one plain line."""

    path: Path
    findings: tuple[Finding, ...]
    value: dict[str, Any]
    summary: str

    @property
    def has_errors(self) -> bool:
        return any(finding.level == "error" for finding in self.findings)

    def as_json(self) -> dict[str, Any]:
        return self.value

    def lines(self) -> list[str]:
        """What is printed for a person."""
        return [f"{self.path}: {self.summary}", *finding_lines(self.findings)]


def check_file(path: Path) -> Checked | Proof:
    """Check a lesson script, with the parts it uses; a routine is proved for all its numbers. Raises UnusableInput."""
    from studio.agree import check
    from studio.series.api import is_routine_file, prove_routine
    from studio.series.library import load_lesson

    if is_routine_file(path):
        return prove_routine(path)
    agreement = check(load_lesson(path))
    count = len(agreement.statements)
    summary = f"{count} statement{'s' if count != 1 else ''} and {len(agreement.shown)} picture steps checked; "
    return Checked(path, agreement.findings, agreement.as_json(), summary + told(agreement.findings))


def told(findings: tuple[Finding, ...]) -> str:
    """How many findings there are of each level, in words."""
    count = {level: sum(f.level == level for f in findings) for level in ("error", "warning", "note")}
    parts = [f"{n} {level}{'s' if n != 1 else ''}" for level, n in count.items() if n]
    if not parts:
        return "nothing to mend."
    return ", ".join(parts) + "." if count["error"] else "nothing is wrong (" + ", ".join(parts) + ")."


def finding_lines(findings: tuple[Finding, ...]) -> list[str]:
    """The findings for a person: what is wrong first, each with where it is and what to do."""
    order = {"error": 0, "warning": 1, "note": 2}
    lines = []
    for finding in sorted(findings, key=lambda f: (order[f.level], f.line, f.column)):
        where = f"line {finding.line}" if finding.line else ""
        if finding.time is not None:
            where += (", " if where else "") + clock(finding.time)
        lines.append(f"  {finding.level:<8}{where + ': ' if where else ''}{finding.message}")
        if finding.help:
            lines.append(f"          {finding.help}")
    return lines


def clock(seconds: float) -> str:
    """Minutes and seconds, as a player shows them."""
    whole = int(seconds)
    return f"{whole // 60}:{whole % 60:02d}"
