"""Where numbers are said one after the other and each is marked right after it is said, each is marked that is said ("On the line I find
seven, [line: mark 7] then eleven, [line: mark 11] and still further fourteen. [line: mark 14]")."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from studio.agree.case import Case
from studio.agree.wording import of_number, spelled
from studio.findings import Finding
from studio.script.model import ChangePicture, MarkNumber

NAME = "marks in turn"
_FEWEST = 3  # marks of a segment
_BEFORE = 20  # words


def find(case: Case) -> Iterator[Finding]:
    if case.lesson is None:
        return
    ends = {number.end: number for number in case.counted}
    for _, group in groupby(case.lesson.directions, key=lambda direction: direction.segment):
        marks = [
            (direction, ends.get(direction.at), direction.change.value)
            for direction in group
            if isinstance(direction, ChangePicture) and isinstance(direction.change, MarkNumber)
        ]
        wrong = [mark for mark in marks if mark[1] is None or mark[1].value != mark[2]]
        if len(marks) < _FEWEST or len(wrong) != 1:
            continue
        direction, number, value = wrong[0]
        if number is None or value in {one.value for one in case.numbers_between(direction.at - _BEFORE, number.start)}:
            continue  # "You are heading for 17. From 15 it is two. [path: mark 17]"
        if direction.place.line not in case.excused and not case.is_excused(number.start, number.end):
            yield of_number(
                NAME, number, direction.text,
                f"Line {number.line} says {number.value}, and then [{direction.text}] marks {value}; the other marks of the segment are on the "
                "numbers that are said.", f"Say {spelled(value)}, or mark {number.value}.",
            )  # fmt: skip
