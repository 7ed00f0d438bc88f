"""What the proposers hand to the composer: pictures worth showing, with their changes, each tied to spoken words."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from studio.agree.case import Case, Sentence
from studio.agree.check import listen_to
from studio.script.model import Lesson, Segment, Word
from studio.stage.model import Stage
from studio.talk.model import Number, Statement, Story


@dataclass(frozen=True, slots=True)
class Change:
    """A change of the picture from word `word` on, as it is written ("add 3 crosses, counting")."""

    word: int
    text: str


@dataclass(frozen=True, slots=True)
class Idea:
    """A picture that comes on with word `word` ("ten frame", "5 dots") and what happens to it.

    `state` says what it looks like when it comes on and `after` when its changes are done: a picture that already looks
    like that is not shown again. `until` is the last word that it is needed for; pictures of one `topic` may stand
    beside each other. `weight` decides when two want the same place (the greater one stays). A `fresh`
    one begins with a clean screen.
    """

    word: int
    kind: str
    details: str
    changes: tuple[Change, ...]
    until: int
    topic: frozenset[int]
    reason: str
    state: str = ""
    after: str = ""
    weight: int = 0
    fresh: bool = False


@dataclass(frozen=True)
class Part:
    """One segment with what is said in it."""

    segment: Segment
    words: Sequence[Word]
    numbers: tuple[Number, ...]
    statements: tuple[Statement, ...]
    stories: tuple[Story, ...]
    sentences: tuple[Sentence, ...]
    starts: list[int] = field(default_factory=list)

    @property
    def end(self) -> int:
        """The word behind the segment's last one."""
        return self.sentences[-1].end if self.sentences else 0

    def sentence_index(self, word: int) -> int:
        """Which of `sentences` holds a word."""
        return max(0, bisect_right(self.starts, word) - 1)

    def sentence_of(self, word: int) -> Sentence:
        return self.sentences[self.sentence_index(word)]

    def numbers_in(self, start: int, end: int) -> tuple[Number, ...]:
        """The numbers said from word `start` to before word `end`."""
        at = [number.start for number in self.numbers]
        return self.numbers[bisect_left(at, start) : bisect_left(at, end)]

    def plain(self, start: int, end: int) -> frozenset[str]:
        """The words from `start` to before `end`, without punctuation and in lower case."""
        return frozenset(word.plain for word in self.words[start:end])

    def earliest(self, word: int, value: int, allowed: frozenset[int], reach: int = 3, since: int = 0) -> int:
        """The start of the earliest of the last `reach` sentences before `word` that says `value` and no number that is
        not `allowed`; else of the sentence of `word`. Nothing before `since` is looked at."""
        index = self.sentence_index(word)
        found = self.sentences[index].start
        for back in range(index - 1, max(-1, index - 1 - reach), -1):
            sentence = self.sentences[back]
            if sentence.start < since:
                break
            values = set(sentence.values)
            if values - allowed:
                break
            if value in values:
                found = sentence.start
        return found


def parts_of(lesson: Lesson) -> Iterator[Part]:
    """The segments with their talk; the positions of words are those of the whole lesson."""
    talk = listen_to(lesson.words)
    case = Case(talk, lesson, Stage((), ()))
    for segment in lesson.segments:
        if not segment.words:
            continue
        start, end = segment.words[0].index, segment.words[-1].index + 1
        sentences = tuple(sentence for sentence in case.sentences if start <= sentence.start < end)
        yield Part(
            segment,
            lesson.words,
            tuple(number for number in case.counted if start <= number.start < end),
            tuple(statement for statement in talk.statements if start <= statement.start < end),
            tuple(story for story in talk.stories if start <= story.start < end),
            sentences,
            [sentence.start for sentence in sentences],
        )
