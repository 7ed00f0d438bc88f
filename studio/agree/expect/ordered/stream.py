"""A segment as it is read in order: its words, what ends a sentence, what its directions show, and for every number only that there is
one. Which numbers they are stands beside it: nothing that is read tells a number."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from studio.agree.expect.shown.slots import Slot, slots
from studio.script.model import ChangePicture, Equation, FillIn, Lesson, Parts, Place, Segment, Show, Wait, Word
from studio.talk.numbers import find_numbers, words_of

NUMBER = "#"
_UNKNOWN = "??"
_STOP = re.compile(r"[.!?…:;,—–](?=[\"”’)*_]*$)")
_ENDS = {"?": "?", ",": ",", ";": ",", "—": ",", "–": ","}
_END = 40
"""Tokens of the segment before that are read, too."""
_LONG = 4
"""Numbers of a count ("four, five, six, seven") of which only the first two and the last are read."""


@dataclass(frozen=True, slots=True)
class Mention:
    """A number of a stream: what it is, its token, and the word that says it or the place and the index in it of the direction that
    shows it (a title has neither)."""

    value: int
    token: int
    word: int = -1
    place: Place | None = None
    index: int = -1


@dataclass(frozen=True, slots=True)
class Stream:
    """The tokens of a segment and its numbers, after the title of the lesson, the end of the segment before, and its own title. The first
    `first` numbers stand before those of the segment; `titles` are the indices of those in titles."""

    tokens: tuple[str, ...]
    mentions: tuple[Mention, ...]
    first: int
    titles: tuple[int, ...]


class Streams:
    """The segments of a lesson that say something, each read when it is asked for."""

    def __init__(self, lesson: Lesson) -> None:
        self._lesson = lesson
        self._groups: dict[Place, Sequence[Slot]] = {group[0].direction.place: group for group in slots(lesson)}
        self._kinds = {direction.name: direction.kind for direction in lesson.directions if isinstance(direction, Show)}
        self._told: dict[int, _Maker] = {}

    def __iter__(self) -> Iterator[Stream]:
        return (self.of(segment.index) for segment in self._lesson.segments if segment.words)

    def of(self, index: int) -> Stream:
        """The stream of a segment with words."""
        segments = self._lesson.segments
        before = next((at for at in reversed(range(index)) if segments[at].words), None)
        made = _Maker()
        made.say("<lesson>")
        made.read(words_of(self._lesson.header.title), -1)
        titles = len(made.mentions)
        made.say("<before>")
        if before is not None:
            ended_with = self._of_itself(segments[before])
            made.add(ended_with, max(0, len(ended_with.tokens) - _END))
        ended = len(made.mentions)
        made.say("<segment>")
        made.read(words_of(segments[index].title), -1)
        first = len(made.mentions)
        made.add(self._of_itself(segments[index]), 0)
        return Stream(tuple(made.tokens), tuple(made.mentions), first, (*range(titles), *range(ended, first)))

    def _of_itself(self, segment: Segment) -> _Maker:
        """What is said and shown in a segment."""
        if segment.index in self._told:
            return self._told[segment.index]
        made = self._told[segment.index] = _Maker()
        at = 0
        offset = segment.words[0].index
        for direction in segment.directions:
            now = max(at, min(direction.at - offset, len(segment.words)))
            made.read(segment.words[at:now], offset + at)
            at = now
            if isinstance(direction, Wait):
                made.say("<wait>")
            elif isinstance(direction, Show | ChangePicture):
                made.show(direction, self._groups.get(direction.place, ()), self._kinds)
            else:
                made.say(f"<{type(direction).__name__.lower()}>")
        made.read(segment.words[at:], offset + at)
        return made


class _Maker:
    def __init__(self) -> None:
        self.tokens: list[str] = []
        self.mentions: list[Mention] = []

    def add(self, other: _Maker, start: int) -> None:
        """What another has made, from a token on."""
        by = len(self.tokens) - start
        self.tokens += other.tokens[start:]
        self.mentions += [replace(one, token=one.token + by) for one in other.mentions if one.token >= start]

    def say(self, *tokens: str) -> None:
        self.tokens += tokens

    def number(self, value: int, word: int = -1, place: Place | None = None, index: int = -1) -> None:
        self.mentions.append(Mention(value, len(self.tokens), word, place, index))
        self.tokens.append(NUMBER)

    def read(self, words: Sequence[Word], offset: int) -> None:
        """Words, of which the first is word `offset` of the lesson."""
        numbers = {n.start: n for n in find_numbers(words) if n.form in ("word", "digits")}
        inner = _inner_of_counts([(n.start, n.end, n.value) for n in numbers.values()])
        end = 0
        for at, word in enumerate(words):
            if at < end:
                continue
            number = numbers.get(at)
            end = at + 1
            if number is not None:
                end = number.end
                if at in inner:
                    continue
                self.number(number.value, offset + at if offset >= 0 else -1)
            elif word.plain:
                self.tokens.append(word.plain)
            stop = _STOP.search(words[end - 1].text)
            if stop is not None:
                self.tokens.append(_ENDS.get(stop[0], "."))

    def show(self, direction: Show | ChangePicture, group: Sequence[Slot], kinds: dict[str, str]) -> None:
        if isinstance(direction, Show):
            self.say(f"<show {direction.kind}>")
        else:
            self.say(f"<{type(direction.change).__name__.lower()} {kinds.get(direction.name, '')}>")
            if isinstance(direction.change, FillIn):
                self.say(f"<fill {kinds.get(direction.name, '')}>")
        slots_left = iter(enumerate(group))
        if isinstance(direction, Show):
            match direction.details:
                case Parts(whole, parts):
                    for name, value in (("<whole>", whole), *(("<part>", part) for part in parts)):
                        self.say(name)
                        self._known(value, direction.place, slots_left)
                    self.say("<shown>")
                    return
                case Equation(sides):
                    for at, side in enumerate(sides):
                        if at:
                            self.say("<=>")
                        for first, term in enumerate(side):
                            if first:
                                self.say(f"<{term.sign}>")
                            self._known(term.value, direction.place, slots_left)
                    self.say("<shown>")
                    return
        for index, slot in slots_left:
            self.say(f"<{slot.name}>")
            self.number(slot.value, -1, direction.place, index)
        self.say("<shown>")

    def _known(self, value: int | None, place: Place, slots_left: Iterator[tuple[int, Slot]]) -> None:
        if value is None:
            self.say(_UNKNOWN)
        else:
            index, slot = next(slots_left)
            self.number(slot.value, -1, place, index)


def _inner_of_counts(numbers: Iterable[tuple[int, int, int]]) -> set[int]:
    """The starts of numbers within counts: those that follow each other at once by equal steps, but for the first two and the last."""
    found = list(numbers)
    inner: set[int] = set()
    first = 0
    for at in range(1, len(found) + 1):
        goes_on = at < len(found) and found[at][0] == found[at - 1][1]
        if goes_on and at - first >= 2:
            goes_on = found[at][2] - found[at - 1][2] == found[first + 1][2] - found[first][2]
        if not goes_on:
            if at - first >= _LONG:
                inner.update(start for start, _, _ in found[first + 2 : at - 1])
                first = at
            else:
                first = at if at == len(found) or found[at][0] != found[at - 1][1] else at - 1
    return inner
