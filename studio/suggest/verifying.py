"""Taking back what the check has something against.

Each segment is checked by itself first: that is quick, so several ideas can be tried. What the whole script then still has
against a direction takes its segment's ideas back, and where nothing else helps all of them: a script with suggested
directions never has a finding at level error or warning that it did not have without them.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from functools import cached_property, partial
from typing import Generic, TypeVar

from studio.agree import check
from studio.agree.case import Case, Talk
from studio.agree.check import every_finding
from studio.agree.reading import listen_to
from studio.errors import UnusableInput
from studio.findings import Finding
from studio.script.directions import Mistake, parse_direction
from studio.script.model import Direction, Lesson, Place, Segment
from studio.script.reader import read
from studio.script.write import insert
from studio.stage.staging import stage
from studio.suggest.composing import Line
from studio.suggest.ideas import Part

Sort = tuple[str, str]

_NUMBER_OF_LINE = re.compile(r"[Ll]ine \d+")
_WORK = 25_000  # words that are looked at in trials, for each segment
_FEWEST = 12  # trials
_NEAR = 40  # words
_TOGETHER = 6  # ideas
_WHOLE = 20  # checks of the whole script
_NEAREST = 8  # ideas


def sort_of(finding: Finding) -> Sort:
    """What a finding says, wherever it stands."""
    return finding.rule, _NUMBER_OF_LINE.sub("line", finding.message)


def troubles(findings: Iterable[Finding], known: Counter[Sort]) -> list[Finding]:
    """The errors and warnings that were not there as often before."""
    left = known.copy()
    found = []
    for finding in findings:
        if finding.level == "note":
            continue
        sort = sort_of(finding)
        if left[sort] > 0:
            left[sort] -= 1
        else:
            found.append(finding)
    return found


def counted(findings: Iterable[Finding]) -> Counter[Sort]:
    """How often each error and warning is there."""
    return Counter(sort_of(finding) for finding in findings if finding.level != "note")


@dataclass(frozen=True, slots=True)
class Choice:
    """What is made of the ideas of a segment: those `dropped` by their numbers, the words at which the screen `clears`,
    and the words of numbers that are `shown` on a card because no idea shows them."""

    dropped: frozenset[int] = frozenset()
    clears: frozenset[int] = frozenset()
    shown: frozenset[int] = frozenset()

    def without(self, groups: Iterable[int]) -> Choice:
        """The same with more ideas dropped."""
        return replace(self, dropped=self.dropped | set(groups))


Compose = Callable[[Choice], Sequence[Line]]
"""The directions of a segment for a choice."""


class Trial:
    """Some segments, one after the other, as a lesson of their own to be checked with directions. Nothing is written and
    read again, and what is said is found once."""

    def __init__(self, lesson: Lesson, segments: Sequence[Segment], talk: Talk | None = None) -> None:
        self.first = first = segments[0].words[0].index if segments[0].words else 0
        base = segments[0].index
        self._segments = tuple(
            replace(
                segment,
                index=segment.index - base,
                words=tuple(replace(w, index=w.index - first, segment=w.segment - base) for w in segment.words),
                directions=tuple(replace(d, at=d.at - first, segment=d.segment - base) for d in segment.directions),
            )
            for segment in segments
        )
        self._bare = Lesson(lesson.header, self._segments, lesson.source, "")
        self._talk = talk or listen_to(self._bare.words)

    @property
    def size(self) -> int:
        """How many words the segment has."""
        return len(self._talk.words)

    @cached_property
    def known(self) -> Counter[Sort]:
        """What the check finds without new directions."""
        return counted(_errors(_case_of(self._bare, self._talk)))

    @cached_property
    def _places(self) -> list[tuple[int, int]]:
        return [(word.place.line, word.place.column) for word in self._talk.words]

    def troubles(self, lines: Sequence[Line]) -> list[tuple[Finding, int | None]]:
        """The new findings with the idea whose direction they stand at (None: they stand at words)."""
        words = self._talk.words
        groups: dict[tuple[int, int], int] = {}
        added: dict[int, list[Direction]] = {}
        for number, line in enumerate(lines):
            read_ = parse_direction(line.text)
            if isinstance(read_, Mistake):
                continue
            at = line.word - self.first
            word = words[min(at, len(words) - 1)]
            place = Place(word.place.line + (at >= len(words)), 100_000 + number)  # behind every word of the line
            groups[(place.line, place.column)] = line.group
            added.setdefault(word.segment, []).append(read_(place=place, at=at, segment=word.segment, text=line.text))
        segments = tuple(
            replace(
                segment,
                directions=tuple(sorted((*segment.directions, *added[segment.index]), key=lambda d: d.at)),
            )
            if segment.index in added
            else segment
            for segment in self._segments
        )
        found = _errors(_case_of(replace(self._bare, segments=segments), self._talk))
        return [(f, groups.get((f.line, f.column))) for f in troubles(found, self.known)]

    def word_at(self, finding: Finding) -> int:
        """The word of the whole lesson at which a finding stands."""
        return self.first + max(0, bisect_right(self._places, (finding.line, max(finding.column, 1))) - 1)


_ANOTHER = re.compile(
    r"(?:(?:ok|okay|and|now|here is|here's|let us (?:do|try)|let's (?:do|try)|try|time for|ready for) )*"
    r"(?:another (?:one|example|go)|(?:the |our |one )?(?:next|last|new) (?:one|example))"
)


def announced(part: Part) -> frozenset[int]:
    """The words with which another example begins ("Here is another one."): a sentence for itself at the start of a paragraph."""
    words = part.words
    return frozenset(
        sentence.start
        for sentence in part.sentences
        if _ANOTHER.fullmatch(part.text(sentence.start, sentence.end))
        and (sentence.start == 0 or words[sentence.start - 1].paragraph != words[sentence.start].paragraph)
    )


def verified(lesson: Lesson, part: Part, compose: Compose) -> Choice:
    """What is to be dropped and added so that the check finds nothing new in a segment. It is checked so often at most
    that the time stays in proportion to the length."""
    trial = Trial(lesson, [part.segment])
    choice = Choice(clears=announced(part))
    left = max(_FEWEST, _WORK // max(1, trial.size))
    while left > 0:
        left -= 1
        lines = compose(choice)
        found = trial.troubles(lines)
        if not found:
            return choice
        own = {group for _, group in found if group is not None and group >= 0} - choice.dropped
        if own:
            choice = choice.without(own)
            continue
        words = [trial.word_at(finding) for finding, _ in found]
        better = None
        for other in _otherwise(part, choice, words):
            left -= 1
            if len(trial.troubles(compose(other))) < len(found):
                better = other
                break
        if better is not None:
            choice = better
            continue
        helps: _Trials[int] = _Trials(partial(_is_better, trial, compose, choice, len(found)), left)
        culprits = _culprits(helps, _nearest(lines, words[0]))
        left = helps.left
        choice = choice.without(culprits or _around(lines, words[:1], _NEAR))
    near = _NEAR
    while found := trial.troubles(lines := compose(choice)):
        groups = _around(lines, [trial.word_at(finding) for finding, _ in found], near)
        if not groups and near > trial.size:
            return Choice(choice.dropped)
        choice = choice.without(groups)
        near *= 3
    return choice


def _otherwise(part: Part, choice: Choice, words: Sequence[int]) -> Iterator[Choice]:
    """What may help where numbers are said that the pictures do not show: these are done with and go, or the number is
    shown too."""
    elsewhere = {part.sentence_of(word).start for word in words} - choice.clears
    if elsewhere:
        yield replace(choice, clears=choice.clears | elsewhere)
    numbers = {word for word in words if part.numbers_in(word, word + 1)} - choice.shown
    if numbers:
        yield replace(choice, shown=choice.shown | numbers)


def _is_better(trial: Trial, compose: Compose, choice: Choice, before: int, without: set[int]) -> bool:
    return len(trial.troubles(compose(choice.without(without)))) < before


def _around(lines: Sequence[Line], words: Sequence[int], near: int) -> set[int]:
    """The ideas with a direction near one of some words."""
    return {line.group for line in lines if line.group >= 0 and any(abs(line.word - word) <= near for word in words)}


K = TypeVar("K")


class _Trials(Generic[K]):
    """A question that may be asked so many times."""

    def __init__(self, ask: Callable[[set[K]], bool], left: int) -> None:
        self._ask = ask
        self.left = left

    def __call__(self, without: set[K]) -> bool:
        self.left -= 1
        return self.left >= 0 and self._ask(without)


def _culprits(helps: _Trials[K], ordered: Sequence[K]) -> set[K]:
    """The idea without which it is better, else as few of the first ones together as will do; none where that cannot be
    found."""
    for key in ordered:
        if helps({key}):
            return {key}
    for many in range(2, min(_TOGETHER, len(ordered)) + 1):
        if helps(set(ordered[:many])):
            needed = set(ordered[:many])
            for key in ordered[: many - 1]:
                if helps(needed - {key}):
                    needed.discard(key)
            return needed
    return set()


def _nearest(lines: Sequence[Line], word: int) -> list[int]:
    """The ideas by how near one of their directions is to a word."""
    found: dict[int, int] = {}
    for line in lines:
        if line.group >= 0:
            found[line.group] = min(found.get(line.group, abs(line.word - word)), abs(line.word - word))
    return sorted(found, key=lambda group: found[group])


Key = tuple[int, int]
"""An idea: its segment and its number there."""


def whole(
    lesson: Lesson, talk: Talk, lines: Callable[[AbstractSet[Key], AbstractSet[int]], Sequence[Line]]
) -> Sequence[Line]:
    """The directions of the whole script with which the check finds nothing new; none where that cannot be had. `lines`
    gives them without some ideas and without all of some segments."""
    known: Counter[Sort] | None = None
    trial: Trial | None = None
    dropped: set[Key] = set()
    without: set[int] = set()
    left = min(_WHOLE, _WORK // max(1, len(lesson.words)))
    every = {segment.index for segment in lesson.segments}
    while True:
        put = lines(dropped, without)
        with_them = _put_in(lesson, put) if put else None
        if with_them is None:
            return ()
        known = counted(check(lesson).findings) if known is None else known
        found = troubles(check(with_them).findings, known)
        if not found:
            return put
        trial = trial or Trial(lesson, lesson.segments, talk)
        now = len(trial.troubles(put))
        rest = partial(_rest, lines, frozenset(dropped), frozenset(without))
        if now:
            helps: _Trials[Key] = _Trials(partial(_is_cleaner, trial, rest, now), left)
        else:  # only the check of the whole, which asks twice, has something against it
            helps = _Trials(partial(_passes_better, lesson, rest, known, len(found)), left)
        culprits = _culprits(helps, _near(with_them, found[0], put))
        left = helps.left
        if culprits:
            dropped |= culprits
            continue
        if every <= without:
            return ()
        segment = _segment_of(with_them, found[0])
        more = [index for index in (segment, segment + 1, segment - 1) if index in every - without][:1]
        without |= set(more) or every


def _case_of(lesson: Lesson, talk: Talk) -> Case:
    return Case(talk, lesson, stage(lesson, talk.numbers))


def _errors(case: Case) -> list[Finding]:
    """The errors and warnings in a case, none of it asked about twice."""
    return [finding for finding in every_finding(case) if finding.level != "note" and finding.line not in case.excused]


def _rest(
    lines: Callable[[AbstractSet[Key], AbstractSet[int]], Sequence[Line]],
    dropped: frozenset[Key],
    without: frozenset[int],
    more: set[Key],
) -> Sequence[Line]:
    """What is left of the directions when more ideas are dropped."""
    return lines(dropped | more, without)


def _is_cleaner(trial: Trial, rest: Callable[[set[Key]], Sequence[Line]], before: int, more: set[Key]) -> bool:
    return len(trial.troubles(rest(more))) < before


def _passes_better(
    lesson: Lesson, rest: Callable[[set[Key]], Sequence[Line]], known: Counter[Sort], before: int, more: set[Key]
) -> bool:
    """As `_is_cleaner`, by the check of the whole script."""
    put = _put_in(lesson, rest(more))
    return put is not None and len(troubles(check(put).findings, known)) < before


def _near(with_them: Lesson, finding: Finding, lines: Sequence[Line]) -> list[Key]:
    """The ideas whose directions are nearest to a finding, in whatever segment."""
    places = [(word.place.line, word.place.column) for word in with_them.words]
    word = max(0, bisect_right(places, (finding.line, max(finding.column, 1))) - 1)
    words = with_them.words
    found: dict[Key, int] = {}
    for line in lines:
        if line.group >= 0:
            key = (words[min(line.word, len(words) - 1)].segment, line.group)
            found[key] = min(found.get(key, len(words)), abs(line.word - word))
    return sorted(found, key=lambda key: found[key])[:_NEAREST]


def _segment_of(lesson: Lesson, finding: Finding) -> int:
    """The segment in which a finding stands."""
    titles = [segment.place.line for segment in lesson.segments]
    return lesson.segments[max(0, bisect_right(titles, finding.line) - 1)].index


def _put_in(lesson: Lesson, lines: Sequence[Line]) -> Lesson | None:
    try:
        return read(insert(lesson.text, [(place_of(lesson, line.word), line.text) for line in lines]), lesson.source)
    except UnusableInput:
        return None


def place_of(lesson: Lesson, word: int) -> Place:
    """Where a word stands; behind the last line for the end of the lesson."""
    words = lesson.words
    return words[word].place if word < len(words) else Place(lesson.text.count("\n") + 2, 1)
