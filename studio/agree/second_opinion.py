"""Some rules compare what is said in one place with what is said in another, and cannot be certain that both speak of the
same thing. Their errors are asked a second time: where every number near by was to be expected, there is no slip to be
seen, and the error becomes a note."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from studio.agree.case import Case
from studio.agree.expect import suspects
from studio.agree.expect.shown import suspects as shown_suspects
from studio.agree.rules import echoes, goals, said_of_picture, shown_is_said, story_answer, story_possible, topic
from studio.findings import Finding

_ASKED_TWICE = frozenset(
    rule.NAME for rule in (echoes, goals, said_of_picture, shown_is_said, story_answer, story_possible, topic)
)
_REACH = 6  # lines
_DOUBT = 0.5
"""The least doubt (log-odds) with which a number near by supports an error."""


def asked_twice(case: Case, findings: Iterable[Finding]) -> Iterator[Finding]:
    """The findings, with errors that no doubtful number supports as notes. Where only words were heard, as they are."""
    for finding in findings:
        # "The answer is seven": nothing else can be meant; and of titles nothing is learned
        plain = "answer" in finding.said.lower() or (finding.rule == topic.NAME and not finding.shown)
        if finding.rule in _ASKED_TWICE and finding.level == "error" and case.pictures and finding.line and not plain:
            near = range(finding.line - _REACH, finding.line + _REACH + 1)
            if all(doubt <= _DOUBT or line not in near for line, doubt in _doubtful_lines(case)):
                finding = replace(finding, level="note")
        yield finding


def _doubtful_lines(case: Case) -> Iterator[tuple[int, float]]:
    """The lines of all suspects with their doubts."""
    for suspect, doubt in suspects.judged(case):
        yield suspect.place.number.line, doubt
    for shown, doubt in shown_suspects.judged(case):
        yield shown.place.slot.direction.place.line, doubt
