"""Some rules compare what is said in one place with what is said in another, and cannot be certain that both speak of the
same thing. Their errors are asked a second time: where every number near by was to be expected, there is no slip to be
seen, and the error becomes a note."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from studio.agree.case import Case
from studio.agree.expect.suspects import doubtful_lines
from studio.agree.rules import echoes, goals, story_answer, story_possible
from studio.findings import Finding

_ASKED_TWICE = frozenset((echoes.NAME, goals.NAME, story_answer.NAME, story_possible.NAME))
_REACH = 6  # lines
_DOUBT = 0.5
"""The least doubt (log-odds) with which a number near by supports an error."""


def asked_twice(case: Case, findings: Iterable[Finding]) -> Iterator[Finding]:
    """The findings, with errors that no doubtful number supports as notes. Where only words were heard, as they are."""
    for finding in findings:
        plain = "answer" in finding.said.lower()  # "The answer is seven": nothing else can be meant
        if finding.rule in _ASKED_TWICE and finding.level == "error" and case.pictures and finding.line and not plain:
            near = range(finding.line - _REACH, finding.line + _REACH + 1)
            if all(doubt <= _DOUBT or line not in near for line, doubt in doubtful_lines(case)):
                finding = replace(finding, level="note")
        yield finding
