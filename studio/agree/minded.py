"""What the rules mind by themselves, before anything is doubted: a number that was hardly to be expected and that a rule minds,
too, is the likelier a slip."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from studio.agree.case import Case
from studio.findings import Finding

NAMES = (
    "minded here",
    "minded here by what is shown",
    "minded near",
    "minded near by what is shown",
    "story minded near",
)
NEAR, STORY_NEAR = 2, 6
"""Lines within which what is minded and what is doubted belong together; a story is told over many."""
_MOST = 4


def mind(case: Case, findings: Iterable[Finding]) -> None:
    """Keep what the rules mind in a lesson; before it is called nothing is minded."""
    found: dict[int, list[Finding]] = {}
    for finding in findings:
        if finding.level == "error" and finding.line and finding.line not in case.excused:
            found.setdefault(finding.line, []).append(finding)
    case.__dict__["_minded"] = found


def minded(case: Case, line: int, column: int = 0, text: str = "") -> tuple[float, ...]:
    """What is minded at a number, as counts in the order of `NAMES`: errors that name the number itself (a number in a
    direction has no column: its line), by talk alone and by what is shown; errors within two lines, likewise; errors about
    stories within six."""
    found: dict[int, list[Finding]] = case.__dict__.get("_minded", {})
    if not found:
        return 0, 0, 0, 0, 0
    here = [one for one in found.get(line, ()) if not column or _covers(one, column, text)]
    near = [one for at in range(line - NEAR, line + NEAR + 1) for one in found.get(at, ())]
    told = [
        one
        for at in range(line - STORY_NEAR, line + STORY_NEAR + 1)
        for one in found.get(at, ())
        if "story" in one.rule
    ]
    return *_by_sort(here), *_by_sort(near), min(len(told), _MOST)


def _covers(finding: Finding, column: int, text: str) -> bool:
    """Whether a finding names the number at a column."""
    return finding.column < column + len(text) and column < finding.column + max(1, len(finding.said))


def _by_sort(findings: Sequence[Finding]) -> tuple[int, int]:
    """How many come from talk alone and how many from what is shown."""
    shown = sum(bool(finding.shown) for finding in findings)
    return min(len(findings) - shown, _MOST), min(shown, _MOST)
