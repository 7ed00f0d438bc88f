"""Directions for a script that has only words.

The flow: each proposer (`counting`, `facts`, `stories` ...) looks at one segment and gives ideas: a picture, when it comes
on and how it changes. `composing` turns them into directions and keeps the screen tidy; `waits` adds time to think. Last, the
directions are put in and checked, and every idea that the check has a finding for is taken back (`verifying`). A new
proposer is a new file with `propose(part)` and a line in `PROPOSERS`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from pathlib import Path

from studio.agree.reading import listen_to
from studio.script.model import Clear, Hide, Lesson, Place, Show
from studio.script.write import insert
from studio.suggest import (
    amounts,
    bridging,
    chains,
    comparing,
    counting,
    doubles,
    facts,
    hops,
    neighbours,
    stories,
    tens,
    waits,
)
from studio.suggest.composing import MOST, Line, compose
from studio.suggest.ideas import Idea, Part, parts_of
from studio.suggest.verifying import Choice, Key, place_of, verified, whole
from studio.talk.model import Number

__all__ = ["MOST", "Suggestion", "apply", "directions_of", "ideas_of", "suggest", "suggest_file"]

PROPOSERS = (
    stories.propose,
    bridging.propose,
    counting.propose,
    hops.propose,
    comparing.propose,
    neighbours.propose,
    doubles.propose,
    tens.propose,
    facts.propose,
    chains.propose,
    amounts.propose,
)


_CARDS = 4
_LARGEST_CARD = 120


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A direction to put before the word with index `word`, which stands at `place`; `reason` says what it is for."""

    place: Place
    word: int
    direction: str
    reason: str


def suggest(lesson: Lesson) -> tuple[Suggestion, ...]:
    """Directions for every segment that shows no picture yet, in order; with them the check finds nothing new at level
    error or warning."""
    talk = listen_to(lesson.words)
    kept = {part.segment.index: _segment(lesson, part) for part in parts_of(lesson, talk) if not _has_pictures(part)}

    def every(dropped: AbstractSet[Key], without: AbstractSet[int]) -> list[Line]:
        of = {index: segment for index, segment in kept.items() if index not in without}
        return list(_lines(lesson, kept.keys(), {index: segment(dropped) for index, segment in of.items()}))

    lines = whole(lesson, talk, every)
    return tuple(Suggestion(place_of(lesson, line.word), line.word, line.text, line.reason) for line in lines)


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


def _segment(lesson: Lesson, part: Part) -> Callable[[AbstractSet[Key]], Sequence[Line]]:
    """The directions of one segment that pass the check by themselves; without some more of its ideas, if asked."""
    ideas = ideas_of(part)
    pauses = [Line(pause.word, pause.text, "time to think", -1) for pause in waits.propose(part)]

    def trial(choice: Choice) -> list[Line]:
        return directions_of(part, ideas, pauses, choice)

    choice = verified(lesson, part, trial)
    found = trial(choice)

    def without(dropped: AbstractSet[Key]) -> Sequence[Line]:
        mine = {number for segment, number in dropped if segment == part.segment.index}
        instead = {number + len(ideas) for number in mine if number < len(ideas)}
        return trial(choice.without(mine | instead)) if mine else found

    return without


def directions_of(part: Part, ideas: Sequence[Idea], pauses: Sequence[Line], choice: Choice) -> list[Line]:
    """The directions of a segment in the order of their words. An idea goes by its number; what takes its place, and a
    card for a number that no idea shows, go by numbers behind those."""
    kept = [*_kept(ideas, choice), *_cards(part, 2 * len(ideas), choice)]
    return sorted([*pauses, *compose(kept, choice.clears)], key=lambda line: line.word)


def _kept(ideas: Sequence[Idea], choice: Choice) -> Iterator[tuple[int, Idea]]:
    for number, idea in enumerate(ideas):
        if number not in choice.dropped:
            yield number, idea
        elif idea.instead is not None and number + len(ideas) not in choice.dropped:
            yield number + len(ideas), idea.instead


def _cards(part: Part, first: int, choice: Choice) -> Iterator[tuple[int, Idea]]:
    """Cards for the numbers that are to be shown, with the others of their sentences."""
    by_sentence: dict[int, list[Number]] = {}
    for word in sorted(choice.shown):
        if first + word not in choice.dropped:
            by_sentence.setdefault(part.sentence_index(word), []).extend(part.numbers_in(word, word + 1))
    for index, numbers in by_sentence.items():
        sentence = part.sentences[index]
        values = list(dict.fromkeys(sentence.values))
        if len(values) > _CARDS or max(values) > _LARGEST_CARD:
            values = list(dict.fromkeys(number.value for number in numbers))
        yield (
            first + numbers[0].start,
            Idea(
                sentence.start,
                "cards",
                ", ".join(map(str, values)),
                (),
                sentence.end,
                frozenset(values),
                "the number is said",
            ),
        )


def ideas_of(part: Part) -> list[Idea]:
    """The ideas of all proposers; a count that one of them draws is not drawn again."""
    found: list[Idea] = []
    drawn: set[int] = set()
    for propose in PROPOSERS:
        for idea in propose(part):
            counts = {change.until for change in idea.changes if change.until > change.word}
            if counts and counts <= drawn:
                continue
            drawn |= counts
            found.append(idea)
    return found


def _lines(lesson: Lesson, bare: AbstractSet[int], chosen: Mapping[int, Sequence[Line]]) -> Iterator[Line]:
    """The directions of all segments; what is on when one of the `bare` segments begins is cleared first."""
    showing = False
    for segment in lesson.segments:
        lines = chosen.get(segment.index, ())
        first = segment.words[0].index if segment.words else -1
        clears = any(isinstance(direction, Clear) and direction.at <= first for direction in segment.directions)
        if showing and segment.words and not clears and segment.index in bare:
            yield Line(first, "clear", "a new segment begins", -1)
        if segment.words:
            showing = showing and segment.index not in bare and not clears
        yield from lines
        for direction in segment.directions:
            showing = isinstance(direction, Show) or (showing and not isinstance(direction, Clear | Hide))
        showing = showing or any(line.text.startswith("show ") for line in lines)
