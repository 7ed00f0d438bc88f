"""The check: from a lesson to what is said, what is shown, and where they differ."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from studio.agree.case import Case
from studio.agree.minded import mind
from studio.agree.reading import case_of, listen_to
from studio.agree.rules import DOUBTING, RULES, unexpected
from studio.agree.second_opinion import asked_twice
from studio.findings import Finding
from studio.script.model import Lesson, Word
from studio.stage.model import Stage
from studio.talk.model import Statement, Story

LEVELS = {"error": 0, "warning": 1, "note": 2}


@dataclass(frozen=True, slots=True)
class Shown:
    """A picture step as it is told to programs: the line of its direction and the numbers a child can read off."""

    line: int
    picture: str
    kind: str
    numbers: tuple[int, ...]


@dataclass(frozen=True)
class Agreement:
    """Everything that the check found in a lesson; `findings` in order of line, errors first within a line."""

    lesson: Lesson
    statements: tuple[Statement, ...]
    shown: tuple[Shown, ...]
    stories: tuple[Story, ...]
    findings: tuple[Finding, ...]

    @property
    def errors(self) -> tuple[Finding, ...]:
        return tuple(finding for finding in self.findings if finding.level == "error")

    def as_json(self) -> dict[str, Any]:
        """The keys of `check --json`."""
        header = self.lesson.header
        return {
            "lesson": {
                "title": header.title,
                "number": header.number,
                "grade": header.grade,
                "series": header.series,
                "source": self.lesson.source,
                "segments": [segment.title for segment in self.lesson.segments],
                "words": len(self.lesson.words),
            },
            "statements": [
                {
                    "line": statement.line,
                    "said": statement.said,
                    "kind": statement.kind,
                    "values": list(statement.values),
                    "holds": statement.holds,
                }
                for statement in self.statements
            ],
            "shown": [
                {"line": shown.line, "picture": shown.picture, "kind": shown.kind, "numbers": list(shown.numbers)}
                for shown in self.shown
            ],
            "stories": [
                {
                    "line": story.line,
                    "situation": story.situation,
                    "sentence": story.sentence,
                    "unknown": story.unknown,
                    "answer": story.answer,
                }
                for story in self.stories
            ],
            "findings": [finding.as_json() for finding in self.findings],
        }


def check(lesson: Lesson) -> Agreement:
    """Lay what is said against what is shown. Pure; the time grows with the number of words."""
    case = case_of(lesson)
    shown = tuple(
        Shown(appearance.moment.direction.place.line, appearance.moment.name, appearance.picture.kind,
              appearance.picture.numbers)
        for appearance in case.pictures
    )  # fmt: skip
    findings = _in_order(case, _found(case))
    return Agreement(lesson, case.talk.statements, shown, case.talk.stories, findings)


def check_talk(words: Sequence[Word]) -> tuple[tuple[Statement, ...], tuple[Finding, ...]]:
    """The statements in words without directions (heard words, say), and what the rules about talk alone find."""
    talk = listen_to(words)
    case = Case(talk, None, Stage((), ()))
    return talk.statements, _in_order(case, _found(case))


def _found(case: Case) -> Iterable[Finding]:
    return _with_causes(list(asked_twice(case, every_finding(case))))


def rules_findings(case: Case) -> list[Finding]:
    """What the stage and the rules that doubt nothing find. The case keeps it for those that do."""
    found = [*case.stage.findings, *(finding for rule in RULES for finding in rule(case))]
    mind(case, found)
    return found


def every_finding(case: Case) -> list[Finding]:
    """What the stage and all rules find, none of it asked about twice."""
    return [*rules_findings(case), *(finding for rule in DOUBTING for finding in rule(case))]


def _with_causes(findings: list[Finding]) -> Iterator[Finding]:
    """Without "that does not fit" where another error tells why: one slip is told once."""
    told = {
        (finding.line, column)
        for finding in findings
        if finding.level == "error" and finding.rule != unexpected.NAME
        for column in range(finding.column, finding.column + max(1, len(finding.said)))
    }
    for finding in findings:
        if finding.rule != unexpected.NAME or (finding.line, finding.column) not in told:
            yield finding


def _in_order(case: Case, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Without those that a note "on purpose" excuses, and each thing told once."""
    kept: dict[tuple[str, int, int, str], Finding] = {}
    for finding in findings:
        if finding.line in case.excused and finding.level != "note":
            continue
        kept.setdefault((finding.rule, finding.line, finding.column, finding.message), finding)
    return tuple(
        sorted(kept.values(), key=lambda finding: (finding.line, finding.column, LEVELS[finding.level], finding.rule))
    )
