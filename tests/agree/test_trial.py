"""A doubted number is tried: what stands around it is read once more with the number that was rather to be expected."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from studio.agree import check
from studio.agree.case import Case
from studio.agree.check import rules_findings
from studio.agree.expect import retold
from studio.agree.expect.place import Place
from studio.agree.expect.retold import Span, part, said
from studio.agree.expect.shown.slots import renumbered, slots
from studio.agree.expect.suspicion import Suspect
from studio.agree.expect.trial import NAMES, SHOWN_NAMES, tried, tried_as_shown
from studio.agree.reading import case_of
from studio.agree.rules import unexpected, unexpected_shown
from studio.agree.rules.unexpected import doubtful, is_loose
from studio.script.model import Lesson
from studio.script.reader import read

LESSON = (Path(__file__).parents[2] / "benchmarks" / "unlearned" / "14616-tens-plus-tens.lesson.md").read_text(
    encoding="utf-8"
)
RIGHT, WRONG = "Remaining now? [wait 5 s] 40. Record", "Remaining now? [wait 5 s] 20. Record"


def tried_at(text: str, line: int) -> dict[str, float]:
    """The trial of the only doubted number in a line."""
    case = judged(text)
    ((suspect, doubt),) = [(one, doubt) for one, doubt in doubtful(case, 0.5) if one.place.number.line == line]
    told = tried(case, suspect, doubt, is_loose(case, suspect.place))
    assert told is not None
    return dict(zip(NAMES, told, strict=True))


def judged(text: str) -> Case:
    case = case_of(read(text))
    rules_findings(case)
    return case


def test_with_the_expected_number_a_slip_is_gone() -> None:
    assert RIGHT in LESSON
    line = LESSON[: LESSON.index(RIGHT)].count("\n") + 1
    told = tried_at(LESSON.replace(RIGHT, WRONG), line)
    assert told["surprise of the expected"] < 1 < told["surprise as it is told here"]
    assert told["how much less the others surprise"] > 0


def test_only_the_number_is_another_in_what_is_read_once_more() -> None:
    lesson = read(LESSON)
    segment = lesson.segments[2]
    first, end = segment.words[0].index, segment.words[-1].index + 1
    number = next(number for number in case_of(lesson).counted if first <= number.start < end)
    same, other = (part(lesson, (first, end), changed) for changed in ({}, {number.start: number.value + 1}))
    assert [word.text for word in same.words] == [word.text for word in segment.words]
    assert [word.index for word in same.words] == [*range(len(segment.words))]
    assert len(same.directions) == len(segment.directions)
    differing = [(one.text, two.text) for one, two in zip(same.words, other.words, strict=True) if one.text != two.text]
    assert len(differing) == 1
    found, wanted = ([one.value for one in case_of(part).counted] for part in (same, other))
    assert wanted == [number.value + 1, *found[1:]]


@pytest.mark.parametrize(
    ("text", "value", "other"),
    [("Seven.", 12, "Twelve."), ("“seven,”", 12, "“twelve,”"), ("7!", 12, "12!"), ("twenty-one", 30, "thirty")],
)
def test_another_number_is_said_in_the_same_form(text: str, value: int, other: str) -> None:
    (word,) = read(f"---\ntitle: T\n---\n{text}\n").words
    assert said(word, value).text == other


def test_of_a_long_segment_only_what_is_near_is_read_once_more(monkeypatch: pytest.MonkeyPatch) -> None:
    lesson = "---\ntitle: Long\n---\n# Long\n" + "Five and three make eight frogs on the log.\n\n" * 400
    slip = (
        lesson
        + "Five and four make nine. Nine otters swim. Now there are two otters. Nine otters rest.\n\n"
        + "See.\n" * 900
    )
    read_again: list[int] = []

    def counting(lesson: Lesson, span: Span, *other: Any) -> Lesson:
        read_again.append(span[1] - span[0])
        return part(lesson, span, *other)

    monkeypatch.setattr(retold, "part", counting)
    check(read(slip))
    assert read_again
    assert max(read_again) <= 2 * retold.WIDE


def test_a_number_of_several_words_is_judged_by_its_doubt() -> None:
    text = LESSON.replace(RIGHT, RIGHT.replace("40", "one hundred and seven"))
    line = LESSON[: LESSON.index(RIGHT)].count("\n") + 1
    case = judged(text)
    ((suspect, doubt),) = [(one, doubt) for one, doubt in doubtful(case, 0.5) if one.place.number.line == line]
    assert tried(case, suspect, doubt, False) is None
    levels = {f.level for f in check(read(text)).findings if f.rule == unexpected.NAME and f.line == line}
    assert levels == {"error" if doubt > unexpected.CERTAIN else "note"}


def test_where_numbers_are_doubted_all_over_none_is_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    """A trial takes as long as a few dozen other numbers."""
    asked: list[int] = []

    def counting(case: Case, suspect: Suspect[Place], doubt: float, loose: bool) -> None:
        asked.append(suspect.place.number.line)

    monkeypatch.setattr(unexpected, "tried", counting)
    odd = "---\ntitle: Odd\n---\n" + "Three frogs. Four more come. Three and four is eight. " * 60
    assert len([*doubtful(judged(odd), unexpected.LIKELY)]) > 16
    check(read(odd))
    assert asked == []
    check(read(LESSON.replace(RIGHT, WRONG)))
    assert asked != []


def test_of_a_direction_only_the_number_that_is_tried_is_another() -> None:
    """For all numbers of the directions of some hundred lessons."""
    tried_kinds: set[str] = set()
    for path in sorted((Path(__file__).parents[2] / "benchmarks" / "unlearned").glob("*.lesson.md"))[::20]:
        lesson = read(path.read_text(encoding="utf-8"))
        for group in slots(lesson):
            for index, slot in enumerate(group):
                other = renumbered(slot.direction, index, 107)
                if other is None:
                    assert slot.kind in ("text", "word")
                    continue
                assert (other.place, other.at, other.text) == (
                    slot.direction.place,
                    slot.direction.at,
                    slot.direction.text,
                )
                segment = replace(lesson.segments[0], directions=(other,))
                (again,) = slots(replace(lesson, segments=(segment,)))
                assert [one.value for one in again] == [
                    107 if at == index else one.value for at, one in enumerate(group)
                ]
                tried_kinds.add(slot.name)
    assert {"dots", "crosses", "whole", "part 1", "mark", "end", "hop to", "ring", "item 2", "amount"} <= tried_kinds


SHOWN = """---
title: Nine frogs
---
# The number nine

[show ten frame: 9 dots as frame] Nine frogs sit in the frame, and a box is left for one more.
[clear] [show dice: {} and 4 as dice] Two dice show five and four. Five and four are nine.
[clear] [show tally: 9 as marks] A bundle of five and four marks: nine.
[clear] [show number bond: 9 is 6 and 3 as bond] Six frogs are green and three are brown. Nine frogs in all.
"""


def test_a_number_of_a_direction_is_tried_as_well() -> None:
    case = judged(SHOWN.format(2))
    ((suspect, doubt),) = [
        (one, doubt) for one, doubt in unexpected_shown.doubtful(case, 1.5) if one.place.slot.kind == "dice"
    ]
    told = tried_as_shown(case, suspect, doubt, unexpected_shown.is_loose(suspect))
    assert told is not None
    trial = dict(zip(SHOWN_NAMES, told, strict=True))
    assert trial["surprise of the expected"] < 1 < trial["surprise as it is told here"]
    found = [(f.rule, f.level) for f in check(read(SHOWN.format(2))).findings if f.line == 7]
    assert (unexpected_shown.NAME, "error") in found
    assert [f for f in check(read(SHOWN.format(5))).findings if f.level != "note"] == []
