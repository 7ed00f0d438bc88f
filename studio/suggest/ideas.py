"""What the proposers hand to the composer: pictures worth showing, with their changes, each tied to spoken words."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise

from studio.agree.case import Case, Sentence, Talk
from studio.script.model import Lesson, Segment, Word
from studio.stage.model import Stage
from studio.talk.model import Number, Statement, Story

_LONGEST = 600
"""Words of a sentence that are looked at."""
MARKS = "marks"
"""The kind of an idea that goes on with whatever frame or dots are on."""


@dataclass(frozen=True, slots=True)
class Change:
    """A change of the picture from word `word` on, as it is written ("add 3 crosses, counting"); one that counts is
    done before word `until`."""

    word: int
    text: str
    until: int = -1

    @property
    def end(self) -> int:
        """The word before which it is done."""
        return max(self.word + 1, self.until)


@dataclass(frozen=True, slots=True)
class Idea:
    """A picture that comes on with word `word` ("ten frame", "5 dots") and what happens to it.

    `until` is the last word that it is needed for. Pictures of one `topic` may stand beside each other. `weight` decides
    which comes first where two begin with the same word. A `fresh` one begins with a clean screen; with `joins` it only
    goes on with a picture that is on already and looks like its details. What is told `again` is only shown where something else
    of its kind has come between. `instead` takes its place where the check has something against it.
    """

    word: int
    kind: str
    details: str
    changes: tuple[Change, ...]
    until: int
    topic: frozenset[int]
    reason: str
    weight: int = 0
    fresh: bool = False
    joins: bool = False
    again: bool = False
    instead: Idea | None = None

    @property
    def busy(self) -> int:
        """The word before which all its changes are done."""
        return max((change.end for change in self.changes), default=self.word + 1)


@dataclass(frozen=True)
class Part:
    """One segment with what is said in it; positions of words are those of the whole lesson."""

    segment: Segment
    words: Sequence[Word]
    numbers: tuple[Number, ...]
    statements: tuple[Statement, ...]
    stories: tuple[Story, ...]
    sentences: tuple[Sentence, ...]
    topics: frozenset[int] = frozenset()
    starts: list[int] = field(default_factory=list)

    @property
    def start(self) -> int:
        """The segment's first word."""
        return self.sentences[0].start if self.sentences else 0

    @property
    def end(self) -> int:
        """The word behind the segment's last one."""
        return self.sentences[-1].end if self.sentences else 0

    def sentence_index(self, word: int) -> int:
        """Which of `sentences` holds a word."""
        return max(0, bisect_right(self.starts, word) - 1)

    def sentence_of(self, word: int) -> Sentence:
        return self.sentences[self.sentence_index(word)]

    def begin(self, statement: Statement) -> int:
        """Where the picture of a statement comes on: with its sentence, or with its own first word where the sentence
        says other numbers first."""
        start = self.sentence_of(statement.start).start
        first = bisect_left(self._number_starts, start)
        said = first < len(self.numbers) and self.numbers[first].start < statement.start
        return statement.start if said else start

    def around(self, word: int, before: int, after: int = 0) -> frozenset[str]:
        """The words of the sentence of a word and of some sentences before and after it."""
        index = self.sentence_index(word)
        first = self.sentences[max(0, index - before)]
        last = self.sentences[min(len(self.sentences) - 1, index + after)]
        return self.plain(first.start, last.end)

    @cached_property
    def _rows(self) -> tuple[list[int], list[tuple[str, int, int, int]]]:
        """Where a path or line is named with its ends, and what it is."""
        places: list[int] = []
        rows: list[tuple[str, int, int, int]] = []
        for one, other in pairwise(self.numbers):
            if one.value >= other.value or self.text(one.end, other.start) not in ("to", "through"):
                continue
            named = (self.around(one.start, 0) & {"path", "line"}) or (self.around(one.start, 1) & {"path", "line"})
            if named:
                places.append(one.start)
                rows.append(("number path" if "path" in named else "number line", one.value, other.value, one.start))
        return places, rows

    def row_named(self, word: int) -> tuple[str, int, int, int] | None:
        """The path or line named last before a word, with its ends and the word where it is named."""
        places, rows = self._rows
        at = bisect_left(places, word)
        return rows[at - 1] if at else None

    @cached_property
    def _number_starts(self) -> list[int]:
        return [number.start for number in self.numbers]

    @cached_property
    def _statement_starts(self) -> list[int]:
        return [statement.start for statement in self.statements]

    @cached_property
    def _frames(self) -> tuple[list[int], list[str]]:
        """Where a frame is named with its size, and what stands before "frame"."""
        places = [
            at
            for sentence in self.sentences
            for at in range(sentence.start + 1, sentence.end)
            if self.words[at].plain in ("frame", "frames") and self.words[at - 1].plain in ("five", "ten", "double")
        ]
        return places, [self.words[at - 1].plain for at in places]

    def frame_named(self, word: int) -> str:
        """What the last frame named before a word is called ("five", "ten"); "" for none."""
        places, names = self._frames
        at = bisect_left(places, word)
        return names[at - 1] if at else ""

    @cached_property
    def heard(self) -> frozenset[str]:
        """All words of the segment."""
        return frozenset(word.plain for word in self.words[self.start : self.end])

    @cached_property
    def counted(self) -> frozenset[int]:
        """The words that stand in a count."""
        return frozenset(word for s in self.statements if s.kind.startswith("count") for word in range(s.start, s.end))

    def numbers_in(self, start: int, end: int) -> tuple[Number, ...]:
        """The numbers said from word `start` to before word `end`."""
        return self.numbers[bisect_left(self._number_starts, start) : bisect_left(self._number_starts, end)]

    def statements_in(self, start: int, end: int) -> tuple[Statement, ...]:
        """The statements that begin from word `start` to before word `end`."""
        return self.statements[bisect_left(self._statement_starts, start) : bisect_left(self._statement_starts, end)]

    def said(self, start: int, end: int, value: int) -> Number | None:
        """The first time that a number is said there, outside a count if possible."""
        found = [number for number in self.numbers_in(start, end) if number.value == value]
        return next((number for number in found if number.start not in self.counted), found[0] if found else None)

    def plain(self, start: int, end: int) -> frozenset[str]:
        """The words from `start` to before `end`, without punctuation and in lower case."""
        return frozenset(word.plain for word in self.words[start : min(end, start + _LONGEST)])

    def text(self, start: int, end: int) -> str:
        """The same words in order, with a space between."""
        return " ".join(word.plain for word in self.words[start : min(end, start + _LONGEST)])

    def asks(self, sentence: Sentence) -> bool:
        """Whether a sentence is a question."""
        return "?" in self.words[sentence.end - 1].text

    def led_to(self, word: int, allowed: frozenset[int], cue: frozenset[str], reach: int = 3) -> int:
        """The start of the earliest of the last `reach` sentences before a word, one after the other with no number that
        is not `allowed`, that has a word of `cue`; else of the sentence of the word."""
        index = self.sentence_index(word)
        found = self.sentences[index].start
        for back in range(index - 1, max(-1, index - 1 - reach), -1):
            sentence = self.sentences[back]
            if set(sentence.values) - allowed:
                break
            if self.plain(sentence.start, sentence.end) & cue:
                found = sentence.start
        return found

    def earliest(self, word: int, value: int, allowed: frozenset[int], reach: int = 3, since: int = 0) -> int:
        """The start of the earliest of the last `reach` sentences before `word` that says `value` and no number that is
        not `allowed`; else of the sentence of `word`. Nothing before `since` or the paragraph before is looked at."""
        index = self.sentence_index(word)
        found = self.sentences[index].start
        here = self.sentences[index].paragraph
        for back in range(index - 1, max(-1, index - 1 - reach), -1):
            sentence = self.sentences[back]
            if sentence.start < since or sentence.paragraph < here - 1:
                break
            values = set(sentence.values)
            if values - allowed:
                break
            if value in values:
                found = sentence.start
        return found


def parts_of(lesson: Lesson, talk: Talk) -> Iterator[Part]:
    """The segments with what is said in them."""
    case = Case(talk, lesson, Stage((), ()))
    sentences, numbers, statements, stories = case.sentences, case.counted, talk.statements, talk.stories
    for segment in lesson.segments:
        if not segment.words:
            continue
        start, end = segment.words[0].index, segment.words[-1].index + 1
        inside = sentences[bisect_left(sentences, start, key=_start) : bisect_left(sentences, end, key=_start)]
        yield Part(
            segment,
            lesson.words,
            numbers[bisect_left(numbers, start, key=_start) : bisect_left(numbers, end, key=_start)],
            statements[bisect_left(statements, start, key=_start) : bisect_left(statements, end, key=_start)],
            stories[bisect_left(stories, start, key=_start) : bisect_left(stories, end, key=_start)],
            inside,
            frozenset(case.topics.get(segment.index, ())),
            [sentence.start for sentence in inside],
        )


def _start(item: Number | Statement | Story | Sentence) -> int:
    return item.start
