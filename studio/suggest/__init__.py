"""Directions for a script that has only words.

The flow: each proposer (`counting`, `sums`, `amounts`, `stories`) looks at one segment and gives ideas: a picture, when
it comes on and how it changes. `composing` turns them into directions and keeps the screen tidy. Last, the directions
are put in and checked, and every idea that the check has a finding for is taken back. A new proposer is a new file with
`propose(part)` and a line in `PROPOSERS`.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from studio.agree import check
from studio.errors import UnusableInput
from studio.findings import Finding
from studio.script.model import Clear, Direction, Lesson, Place, Show
from studio.script.reader import read
from studio.script.write import insert
from studio.suggest import amounts, counting, stories, sums
from studio.suggest.composing import Line, compose
from studio.suggest.ideas import Idea, Part, parts_of

PROPOSERS = (stories.propose, counting.propose, sums.propose, amounts.propose)
_ROUNDS = 12


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A direction to put before the word with index `word`, which stands at `place`; `reason` says what it is for."""

    place: Place
    word: int
    direction: str
    reason: str


def suggest(lesson: Lesson) -> tuple[Suggestion, ...]:
    """Directions for every segment that shows no picture yet, in order; with them the check finds nothing new."""
    parts = [part for part in parts_of(lesson) if not _has_pictures(part)]
    ideas = [(part, list(enumerate(_ideas(part)))) for part in parts]
    known = _troubles(check(lesson).findings)
    for _ in range(_ROUNDS):
        lines = list(_lines(lesson, ideas))
        if not lines:
            return ()
        bad = _to_take_back(lesson, lines, known)
        if not bad:
            return tuple(_suggestion(lesson, line) for _, line in lines)
        ideas = [(part, [(g, idea) for g, idea in here if (part.segment.index, g) not in bad]) for part, here in ideas]
    return ()


def apply(text: str, suggestions: Iterable[Suggestion]) -> str:
    """The script with the directions put in; nothing else is touched."""
    return insert(text, [(suggestion.place, suggestion.direction) for suggestion in suggestions])


def suggest_file(path: str | Path) -> str:
    """The script in a file with the directions put in. Raises UnusableInput."""
    from studio.script.files import load

    lesson = load(Path(path))
    return apply(lesson.text, suggest(lesson))


def _has_pictures(part: Part) -> bool:
    return any(isinstance(direction, Show) for direction in part.segment.directions)


def _ideas(part: Part) -> list[Idea]:
    found: list[Idea] = []
    told = [(start, end) for _, start, end in stories.windows(part)]
    for propose in PROPOSERS:
        for idea in propose(part):
            if propose is not stories.propose and _is_told(idea, found, told):
                continue
            found.append(idea)
    return found


def _is_told(idea: Idea, found: Sequence[Idea], windows: Sequence[tuple[int, int]]) -> bool:
    """Whether a story's own pictures show it already."""
    if not any(start <= idea.word < end for start, end in windows):
        return False
    return any(
        other.weight >= 4
        and other.word <= idea.word
        and (
            (other.kind == idea.kind and idea.topic <= other.topic)
            or any(change in other.changes for change in idea.changes)
            or (idea.changes and any(change.word == mine.word and change.text == mine.text
                                     for change in other.changes for mine in idea.changes))
            or (idea.weight == 3 and any(change.word == idea.changes[0].word for change in other.changes))
            or (idea.weight == 2 and idea.topic <= other.topic and other.kind == "number sentence")
        )
        for other in found
    )  # fmt: skip


def _lines(lesson: Lesson, ideas: Sequence[tuple[Part, list[tuple[int, Idea]]]]) -> Iterable[tuple[int, Line]]:
    """The directions with their segments; what is on when a segment begins is cleared first."""
    showing = False
    chosen = {part.segment.index: here for part, here in ideas}
    for segment in lesson.segments:
        if segment.index not in chosen:
            for direction in segment.directions:
                showing = isinstance(direction, Show) or (showing and not isinstance(direction, Clear))
            continue
        lines = sorted(compose(chosen[segment.index]), key=lambda line: line.word)
        if showing and segment.words and not any(isinstance(d, Clear) for d in segment.directions):
            yield segment.index, Line(segment.words[0].index, "clear", "a new segment begins", -1)
            showing = False
        for line in lines:
            showing = True
            yield segment.index, line


def _suggestion(lesson: Lesson, line: Line) -> Suggestion:
    words = lesson.words
    place = words[line.word].place if line.word < len(words) else Place(lesson.text.count("\n") + 2, 1)
    return Suggestion(place, line.word, line.text, line.reason)


def _troubles(findings: Iterable[Finding]) -> set[tuple[str, str]]:
    return {(finding.rule, finding.said) for finding in findings if finding.level != "note" and not finding.shown}


def _to_take_back(
    lesson: Lesson, lines: Sequence[tuple[int, Line]], known: set[tuple[str, str]]
) -> set[tuple[int, int]]:
    """The ideas (segment, group) that the check has something against."""
    text = apply(lesson.text, [_suggestion(lesson, line) for _, line in lines])
    try:
        with_them = read(text)
    except UnusableInput:
        return {(segment, line.group) for segment, line in lines}
    troubles = [f for f in check(with_them).findings if f.level != "note" and (f.rule, f.said) not in known]
    if not troubles:
        return set()
    at = _by_place(with_them, lines)
    bad: set[tuple[int, int]] = set()
    starts = [(word.place.line, word.place.column) for word in with_them.words]
    for finding in troubles:
        hit = at.get((finding.line, finding.column)) or at.get((finding.line, 0))
        if hit is None:
            word = max(0, bisect_right(starts, (finding.line, max(finding.column, 1))) - 1)
            segment = with_them.words[word].segment
            near = [(abs(line.word - word), segment, line.group) for s, line in lines if s == segment]
            near = [item for item in near if item[2] >= 0]
            hit = {min(near)[1:]} if near else {(s, line.group) for s, line in lines}
        bad |= hit
    return bad


def _by_place(
    with_them: Lesson, lines: Sequence[tuple[int, Line]]
) -> dict[tuple[int, int], set[tuple[int, int]]]:
    """From the place of each direction that was put in to its idea; (line, 0) stands for the whole line."""
    waiting: dict[tuple[int, str], list[tuple[int, int]]] = {}
    for segment, line in lines:
        waiting.setdefault((line.word, line.text), []).append((segment, line.group))
    found: dict[tuple[int, int], set[tuple[int, int]]] = {}
    for direction in with_them.directions:
        groups = waiting.get((direction.at, _bare(direction)))
        if groups:
            group = groups.pop(0) if len(groups) > 1 else groups[0]
            found.setdefault((direction.place.line, direction.place.column), set()).add(group)
            found.setdefault((direction.place.line, 0), set()).add(group)
    return found


def _bare(direction: Direction) -> str:
    return direction.text.strip()
