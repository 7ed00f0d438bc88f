"""Some rules compare what is said in one place with what is said or shown in another, or read freely spoken arithmetic, and
cannot be certain that they have understood. Their errors are asked a second time: where every number near by was to be
expected, there is no slip to be seen, and the error becomes a note."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

from studio.agree.case import Case
from studio.agree.expect import suspects
from studio.agree.expect.shown import suspects as shown_suspects
from studio.agree.minded import NEAR, STORY_NEAR
from studio.agree.rules import (
    asked_otherwise,
    change_told,
    closing,
    compared,
    count_ends,
    counts,
    echoes,
    false_arithmetic,
    found_said,
    goals,
    groups_counted,
    hop_ends,
    hop_lengths,
    how_many,
    mark_said,
    neighbours,
    pairs_shown,
    parts_told,
    pieces,
    ranges,
    relative,
    riddles,
    row_shown,
    said_of_picture,
    shown_is_said,
    story_answer,
    story_bond,
    story_drawing,
    story_possible,
    story_sentence,
    topic,
    whole_said,
    whole_told,
    worked_as_told,
    written_said,
)
from studio.agree.rules.unexpected import FEWEST
from studio.findings import Finding

_PLACES = (
    asked_otherwise, change_told, closing, compared, count_ends, counts, echoes, false_arithmetic, found_said, goals, groups_counted, hop_ends,
    hop_lengths, how_many, mark_said, neighbours, pairs_shown, parts_told, pieces, ranges, relative, riddles,
    row_shown, said_of_picture, shown_is_said, topic, whole_said, whole_told, worked_as_told, written_said,
)  # fmt: skip
_STORIES = (story_answer, story_bond, story_drawing, story_possible, story_sentence)
_REACH = {
    **{rule.NAME: NEAR for rule in _PLACES},
    false_arithmetic.ANSWER: NEAR,
    **{rule.NAME: STORY_NEAR for rule in _STORIES},
}
"""The rules that are asked twice, and how many lines away a doubtful number supports them."""
_IN_SIGNS = re.compile(r"[=+×]| (?:plus|minus|equals?|take away) ")
_BROKEN = re.compile(r"[.;:?!] ")
_SUM = re.compile(r"[\w'’-]+ and [\w'’-]+ (?:make|makes|made|is|are|equal|equals) [\w'’-]+", re.IGNORECASE)
_DOUBT = 2.5
"""The least doubt (log-odds) with which a number near by supports an error."""
_OTHER_DOUBT = {
    false_arithmetic.NAME: 4.0, shown_is_said.NAME: 5.0, written_said.NAME: 3.5, found_said.NAME: 1.0,
    story_drawing.NAME: 2.0, story_possible.NAME: 2.0, worked_as_told.NAME: 2.0, row_shown.NAME: 2.0, compared.NAME: 2.0,
}  # fmt: skip
"""The same for rules that mind odd manners of talk more often than others, or less often. In 480 right lessons of
sixteen hands, and in the same with one number changed, the alarms that a greater doubt takes away stand against changed numbers that nothing
else finds: 10 against 22 of 337, 15 against 14, and 1 against 1. That a smaller one brings back stand, in 1,776 lessons of others, 1 against 5
of 733. Those of the second line stand, in 1,132 right lessons and 792 changed numbers that nothing else found, none against 6."""


def asked_twice(case: Case, findings: Iterable[Finding]) -> Iterator[Finding]:
    """The findings, with errors that no doubtful number supports as notes. Where only words were heard, and where there are
    too few numbers to tell, as they are."""
    if case.lesson is None or len(case.counted) < FEWEST:
        yield from findings
        return
    for finding in findings:
        if finding.rule in _REACH and finding.level == "error" and finding.line and not _is_plain(finding):
            reach = _REACH[finding.rule]
            near = range(finding.line - reach, finding.line + reach + 1)
            least = _OTHER_DOUBT.get(finding.rule, _DOUBT)
            if all(doubt <= least or line not in near for line, doubt in _doubtful_lines(case)):
                finding = replace(finding, level="note")
        yield finding


def _is_plain(finding: Finding) -> bool:
    """Whether nothing else can be meant ("The answer is seven", "5 + 2 = 8", "Five and two make eight"). What goes on in
    another sentence ("24 + 9. 34. 33.") may be told step by step."""
    if "answer" in finding.said.lower():
        return True
    if finding.rule != false_arithmetic.NAME or _BROKEN.search(finding.said):
        return False
    return _IN_SIGNS.search(finding.said) is not None or _SUM.fullmatch(finding.said) is not None


def _doubtful_lines(case: Case) -> Iterator[tuple[int, float]]:
    """The lines of all suspects with their doubts."""
    for suspect, doubt in suspects.judged(case):
        yield suspect.place.number.line, doubt
    for shown, doubt in shown_suspects.judged(case):
        yield shown.place.slot.direction.place.line, doubt
