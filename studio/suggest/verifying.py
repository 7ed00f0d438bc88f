"""Taking back what the check has something against."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable, Sequence
from collections.abc import Set as AbstractSet

from studio.agree import check
from studio.errors import UnusableInput
from studio.findings import Finding
from studio.script.model import Lesson, Place
from studio.script.reader import read
from studio.script.write import insert
from studio.suggest.composing import Line

Key = tuple[int, int]
"""An idea: its segment and its number there."""

Lines = Sequence[tuple[int, Line]]
_TRIALS = 60
_NUMBER_OF_LINE = re.compile(r"[Ll]ine \d+")


def verified(lesson: Lesson, compose: Callable[[AbstractSet[Key]], Lines]) -> Lines:
    """The directions that are left when every idea is dropped that brings a finding at level error or warning.

    `compose` gives the directions without the ideas that are dropped. A finding at a direction is that direction's; for
    one at spoken words the ideas of the segment are left out one after the other, the nearest first, until it goes; one
    that stays without any of them is none of theirs.
    """
    known = {_sort(finding) for finding in check(lesson).findings if finding.level != "note"}
    dropped: set[Key] = set()
    trials = _TRIALS
    while True:
        lines = compose(dropped)
        if not lines:
            return []
        with_them = _put_in(lesson, lines)
        if with_them is None:
            return []
        troubles = _troubles(with_them, known)
        if not troubles:
            return lines
        at = _by_place(with_them, lines)
        own = {key for finding in troubles for key in at.get((finding.line, finding.column), ())} - dropped
        if own:
            dropped |= own
            continue
        finding = troubles[0]
        near = _near(with_them, finding, lines)
        others = [(of, line.group) for of, line in lines if line.group >= 0 and (of, line.group) not in near]
        candidates = [*near, *dict.fromkeys(others)]
        culprits: set[Key] = set()
        for key in candidates:
            if trials <= 0:
                break
            trials -= 1
            if not _stays(lesson, compose({*dropped, key}), finding, known):
                culprits = {key}
                break
        if not culprits:
            indices = dict.fromkeys(key[0] for key in candidates)
            segments = [{key for key in candidates if key[0] == index} for index in indices]
            for group in (*segments, set(candidates)):
                if group and not _stays(lesson, compose(dropped | group), finding, known):
                    culprits = group
                    break
        if culprits:
            dropped |= culprits
        else:
            known.add(_sort(finding))


def _put_in(lesson: Lesson, lines: Lines) -> Lesson | None:
    words = lesson.words
    end = Place(lesson.text.count("\n") + 2, 1)
    placed = [(words[line.word].place if line.word < len(words) else end, line.text) for _, line in lines]
    try:
        return read(insert(lesson.text, placed))
    except UnusableInput:
        return None


def _sort(finding: Finding) -> tuple[str, str]:
    """What a finding says, wherever it stands."""
    return finding.rule, _NUMBER_OF_LINE.sub("line", finding.message)


def _troubles(lesson: Lesson, known: AbstractSet[tuple[str, str]]) -> list[Finding]:
    return [finding for finding in check(lesson).findings if finding.level != "note" and _sort(finding) not in known]


def _stays(lesson: Lesson, lines: Lines, finding: Finding, known: AbstractSet[tuple[str, str]]) -> bool:
    with_them = _put_in(lesson, lines)
    return with_them is not None and _sort(finding) in {_sort(other) for other in _troubles(with_them, known)}


def _near(with_them: Lesson, finding: Finding, lines: Lines) -> list[Key]:
    """The ideas of the segment of a finding, the nearest first."""
    starts = [(word.place.line, word.place.column) for word in with_them.words]
    word = max(0, bisect_right(starts, (finding.line, max(finding.column, 1))) - 1)
    segment = with_them.words[word].segment
    found: dict[Key, int] = {}
    for of, line in lines:
        if of == segment and line.group >= 0:
            key = (of, line.group)
            found[key] = min(found.get(key, len(starts)), abs(line.word - word))
    return sorted(found, key=lambda key: found[key])


def _by_place(with_them: Lesson, lines: Lines) -> dict[tuple[int, int], set[Key]]:
    """From the place of each direction that was put in to the ideas that it belongs to."""
    waiting: dict[tuple[int, str], set[Key]] = {}
    for segment, line in lines:
        if line.group >= 0:
            waiting.setdefault((line.word, line.text), set()).add((segment, line.group))
    found: dict[tuple[int, int], set[Key]] = {}
    for direction in with_them.directions:
        keys = waiting.get((direction.at, direction.text.strip()))
        if keys:
            found.setdefault((direction.place.line, direction.place.column), set()).update(keys)
    return found
