"""The marks of a list. What is done one after the other is often written "1. ... 2. ...", and nobody says these numbers;
a script in which they were spoken would count where nothing is counted."""

from __future__ import annotations

import re
from collections.abc import Sequence

_BULLET = re.compile(r"\s*(?:[-*•>]\s+(?=(?:\[[^\[\]]*\]\s*)*(?:[^\W\d_]|[\"“‘'*]|\Z))|[*•>]\s+(?=\d))")
_MARK = re.compile(r"\s*(?:(?P<number>\d{1,2})[.)]|(?P<letter>[a-z])\))\s+(?=(?P<digits>\d+)(?P<more>[.,…]+\s*\d)?|\S)")
_COUNTED = re.compile(r"\bcount(?:ing)?(?:\s+by\s+\S+)?\s*\]\s*\Z", re.IGNORECASE)


def list_marks(lines: Sequence[str], start: int) -> dict[int, int]:
    """The rows of `lines[start:]` that begin with the mark of a list, each with the column (from 0) where its text begins.

    A bullet or a `>` is one. A number or a small letter is one where the next line that begins so goes on by one, from
    "1." or "a)" on; but not where it begins behind a direction that counts: there the numbers are what is said."""
    marks: dict[int, int] = {}
    run: dict[int, int] = {}  # rows of a list so far
    last: tuple[str, int] | None = None  # its form, and where it has got to
    before = ""
    for row in range(start, len(lines)):
        line = lines[row]
        if (bullet := _BULLET.match(line)) is not None:
            marks[row] = bullet.end()
        elif (found := _MARK.match(line)) is not None and not _goes_on_itself(found):
            form, place = _form(found), _place(found)
            begins = place == 1 and not _COUNTED.search(before)
            if begins:
                run = {}
            if begins or last == (form, place - 1):
                run[row] = found.end()
                last = form, place
                if len(run) > 1:
                    marks |= run
        if line.strip():
            before = line
    return marks


def _goes_on_itself(mark: re.Match[str]) -> bool:
    """Whether digits go on from it as in a count ("1. 2. 3. Go", "1. 3. 5.")."""
    if mark["digits"] is None:
        return False
    step = int(mark["digits"]) - _place(mark)
    return step == 1 or (step == 2 and _place(mark) == 1 and mark["more"] is not None)


def _form(mark: re.Match[str]) -> str:
    return "letters" if mark["letter"] else "numbers"


def _place(mark: re.Match[str]) -> int:
    """Its place in the list, from 1."""
    return ord(mark["letter"]) - ord("a") + 1 if mark["letter"] else int(mark["number"])
