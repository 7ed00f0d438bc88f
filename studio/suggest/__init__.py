"""Directions for a script that has only words.

The flow: each proposer (`counting`, `sums`, `amounts`, `stories`) looks at one segment and gives ideas: a picture, when
it comes on and how it changes. `composing` turns them into directions and keeps the screen tidy. Last, the directions
are put in and checked, and every idea that the check has a finding for is taken back. A new proposer is a new file with
`propose(part)` and a line in `PROPOSERS`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from pathlib import Path

from studio.script.model import Clear, Lesson, Place, Show
from studio.script.write import insert
from studio.suggest import amounts, counting, stories, sums
from studio.suggest.composing import MOST, Line, compose
from studio.suggest.ideas import Idea, Part, parts_of
from studio.suggest.verifying import Key, verified

__all__ = ["MOST", "Suggestion", "apply", "suggest", "suggest_file"]

PROPOSERS = (stories.propose, counting.propose, sums.propose, amounts.propose)

Chosen = tuple[Part, list[tuple[int, Idea]]]
"""A segment with the ideas that are kept for it, each with its number."""


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
    lines = verified(lesson, lambda dropped: list(_lines(lesson, _without(ideas, dropped))))
    return tuple(_suggestion(lesson, line) for _, line in lines)


def _without(ideas: Sequence[tuple[Part, list[tuple[int, Idea]]]], dropped: AbstractSet[Key]) -> list[Chosen]:
    return [(part, [(g, idea) for g, idea in here if (part.segment.index, g) not in dropped]) for part, here in ideas]


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
