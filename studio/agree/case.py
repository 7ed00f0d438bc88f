"""What the rules look at: a lesson with everything that was found in it."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Container, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from studio.agree.looks import counts, essential
from studio.pictures.base import Picture
from studio.script.model import Add, ChangePicture, Count, Direction, Hop, Lesson, Note, Show, TakeAway, Wait, Word
from studio.stage.model import Moment, Stage
from studio.talk.model import Number, Statement, Story
from studio.talk.numbers import counting_numbers, words_of
from studio.talk.speech import Speech
from studio.talk.topics import topic_numbers, wholes

_BUCKET = 32
_SHORT = 3  # letters


@dataclass(frozen=True)
class Talk:
    """What was found in the words alone."""

    words: Sequence[Word]
    numbers: tuple[Number, ...]
    speech: Speech
    statements: tuple[Statement, ...]
    stories: tuple[Story, ...]


@dataclass(frozen=True)
class Sentence:
    """Positions of the words of one sentence (half-open) and the numbers said in it (ordinals and pronouns left out)."""

    start: int
    end: int
    segment: int
    paragraph: int
    numbers: tuple[Number, ...]

    @property
    def values(self) -> tuple[int, ...]:
        return tuple(number.value for number in self.numbers)


@dataclass(frozen=True)
class Case:
    """A lesson, its talk and its stage. `lesson` and `stage` are empty where only words were heard."""

    talk: Talk
    lesson: Lesson | None
    stage: Stage

    @cached_property
    def counted(self) -> tuple[Number, ...]:
        """The numbers that count something: no ordinals, no pronouns."""
        return tuple(number for number in self.talk.numbers if number.form in ("word", "digits"))

    @cached_property
    def sentences(self) -> tuple[Sentence, ...]:
        """All sentences in order."""
        found: list[Sentence] = []
        words = self.talk.words
        starts = self.number_starts
        start = 0
        for position in range(1, len(words) + 1):
            if position == len(words) or words[position].sentence != words[start].sentence:
                inside = self.counted[bisect_left(starts, start) : bisect_left(starts, position)]
                found.append(Sentence(start, position, words[start].segment, words[start].paragraph, inside))
                start = position
        return tuple(found)

    @cached_property
    def _sentence_starts(self) -> list[int]:
        return [sentence.start for sentence in self.sentences]

    def sentence_index(self, word: int) -> int:
        """The index of the sentence that holds word `word` (the last one for the end of the lesson)."""
        return max(0, min(bisect_right(self._sentence_starts, word) - 1, len(self.sentences) - 1))

    @cached_property
    def pictures(self) -> tuple[Appearance, ...]:
        """Every picture step with the picture before it and until when it stays."""
        moments = self.stage.moments
        end = len(self.talk.words)
        ends = [end] * len(moments)
        on: dict[str, int] = {}
        before: list[Picture | None] = [None] * len(moments)
        for index, moment in enumerate(moments):
            if (earlier := on.get(moment.name)) is not None:
                ends[earlier] = moment.word
                if not isinstance(moment.direction, Show):
                    before[index] = moments[earlier].picture
            if moment.picture is None:
                on.pop(moment.name, None)
            else:
                on[moment.name] = index
        return tuple(
            Appearance(moment, moment.picture, before[index], ends[index])
            for index, moment in enumerate(moments)
            if moment.picture is not None
        )

    @cached_property
    def number_starts(self) -> list[int]:
        """The first word of every number that counts something."""
        return [number.start for number in self.counted]

    @cached_property
    def waited(self) -> frozenset[int]:
        """The words before which there is a wait."""
        directions = () if self.lesson is None else self.lesson.directions
        return frozenset(direction.at for direction in directions if isinstance(direction, Wait))

    @cached_property
    def title_words(self) -> tuple[tuple[Word, ...], ...]:
        """The words in the title of every segment."""
        return () if self.lesson is None else tuple(words_of(segment.title) for segment in self.lesson.segments)

    @cached_property
    def title_numbers(self) -> tuple[tuple[Number, ...], ...]:
        """The numbers in the title of every segment that count something; `start` and `end` are positions in the title."""
        return tuple(map(counting_numbers, self.title_words))

    @cached_property
    def header_numbers(self) -> tuple[int, ...]:
        """The numbers in the title of the lesson that count something."""
        words = () if self.lesson is None else words_of(self.lesson.header.title)
        return tuple(number.value for number in counting_numbers(words))

    @cached_property
    def topic_numbers(self) -> dict[int, list[Number]]:
        """The numbers that a segment says it is about ("the number of the day is 14"), by segment."""
        return self._by_their_segment(topic_numbers(self.talk.speech))

    @cached_property
    def topics(self) -> dict[int, set[int]]:
        """The values of these numbers."""
        return {segment: {number.value for number in found} for segment, found in self.topic_numbers.items()}

    def _by_their_segment(self, numbers: Iterable[Number]) -> dict[int, list[Number]]:
        found: dict[int, list[Number]] = {}
        for number in numbers:
            found.setdefault(self.talk.words[number.start].segment, []).append(number)
        return found

    @cached_property
    def times_said(self) -> Counter[int]:
        """How often each number is said in the lesson."""
        return Counter(number.value for number in self.counted)

    @cached_property
    def topics_of_lesson(self) -> frozenset[int]:
        """The numbers that any segment says it is about."""
        return frozenset(value for values in self.topics.values() for value in values)

    @cached_property
    def growing(self) -> frozenset[int]:
        """The pictures (by identity) that something is added to or taken from after they came on: what they show at first
        is not yet what they are about."""
        shown: dict[str, Appearance] = {}
        found: set[int] = set()
        for appearance in self.pictures:
            if isinstance(appearance.moment.direction, Show):
                shown[appearance.moment.name] = appearance
            elif isinstance(appearance.change, Add | TakeAway) and appearance.moment.name in shown:
                found.add(id(shown[appearance.moment.name]))
        return frozenset(found)

    def pictures_of(self, segment: int) -> list[Appearance]:
        """The picture steps whose directions stand in a segment."""
        return self._by_segment.get(segment, [])

    @cached_property
    def _by_segment(self) -> dict[int, list[Appearance]]:
        found: dict[int, list[Appearance]] = {}
        for appearance in self.pictures:
            found.setdefault(appearance.moment.direction.segment, []).append(appearance)
        return found

    @cached_property
    def whole_numbers(self) -> dict[int, list[Number]]:
        """The wholes whose partners a segment looks for, by segment."""
        return self._by_their_segment(wholes(self.talk.speech))

    @cached_property
    def named_wholes(self) -> dict[int, set[int]]:
        """The values of these numbers."""
        return {segment: {number.value for number in found} for segment, found in self.whole_numbers.items()}

    @cached_property
    def covering(self) -> dict[int, list[Statement]]:
        """For the first word of each number, the statements it stands in."""
        found: dict[int, list[Statement]] = {}
        for statement in self.talk.statements:
            for number in self.numbers_between(statement.start, statement.end):
                found.setdefault(number.start, []).append(statement)
        return found

    @cached_property
    def bound_counts(self) -> tuple[BoundCount, ...]:
        """The counts that pictures follow, in order."""
        found: list[BoundCount] = []
        moments = [moment for moment in self.stage.moments if moment.counted and moment.number is not None]
        groups: dict[int, list[Moment]] = {}
        for moment in moments:
            groups.setdefault(id(moment.direction), []).append(moment)
        spoken = {number.start: number for number in self.counted}
        for group in groups.values():
            values = [moment.number for moment in group if moment.number is not None]
            words = [moment.word for moment, value in zip(group, values, strict=True)
                     if moment.word in spoken and spoken[moment.word].value == value]  # fmt: skip
            step = values[1] - values[0] if len(values) > 1 else _only_step(group[0])
            found.append(BoundCount(group[0].direction, values[0] - step, tuple(values), tuple(words), step))
        return tuple(found)

    def numbers_between(self, start: int, end: int) -> tuple[Number, ...]:
        """The numbers that count something whose first word lies from word `start` to before word `end`."""
        starts = self.number_starts
        return self.counted[bisect_left(starts, start) : bisect_left(starts, end)]

    def statements_between(self, start: int, end: int) -> tuple[Statement, ...]:
        """The statements whose first word lies from word `start` to before word `end`."""
        statements = self.talk.statements
        first = bisect_left(statements, start, key=lambda statement: statement.start)
        return statements[first : bisect_left(statements, end, key=lambda statement: statement.start)]

    def has_word(self, sentence: Sentence, words: Container[str]) -> bool:
        """Whether one of `words` is said in a sentence."""
        return self.says(sentence.start, sentence.end, words)

    def says(self, start: int, end: int, words: Container[str]) -> bool:
        """Whether one of `words` is said from word `start` to before word `end`."""
        return any(word.plain in words for word in self.talk.words[max(0, start) : end])

    def asks(self, sentence: Sentence) -> bool:
        """Whether a sentence ends as a question."""
        return "?" in self.talk.words[sentence.end - 1].text

    def question_before(self, index: int) -> Sentence | None:
        """The sentence before one in its segment, if it asks."""
        first, _ = self.sentences_around(index, 1, 0)
        before = self.sentences[first]
        return before if first < index and self.asks(before) else None

    def sentences_around(self, index: int, before: int, after: int) -> tuple[int, int]:
        """The first and the last of at most so many sentences before and after one, in its segment."""
        first, last = self._sentences_of[self.sentences[index].segment]
        return max(first, index - before), min(last, index + after)

    @cached_property
    def _sentences_of(self) -> dict[int, tuple[int, int]]:
        """The first and the last sentence of each segment."""
        found: dict[int, tuple[int, int]] = {}
        for at, sentence in enumerate(self.sentences):
            found[sentence.segment] = (found.get(sentence.segment, (at, at))[0], at)
        return found

    @cached_property
    def word_counts(self) -> Counter[str]:
        """How often each word is said, in small letters and without an s at its end."""
        return Counter(word.plain.removesuffix("s") for word in self.talk.words)

    @cached_property
    def own_words(self) -> tuple[tuple[int, int], ...]:
        """For each sentence how many of its longer words are said nowhere else in the lesson, and how many longer words it
        has: an aside ("my dog is twelve") has hardly any word in common with what the lesson is about."""
        numbers = {word for number in self.talk.numbers for word in range(number.start, number.end)}
        found = []
        for sentence in self.sentences:
            long = Counter(
                plain.removesuffix("s")
                for at in range(sentence.start, sentence.end)
                if len(plain := self.talk.words[at].plain) > _SHORT and at not in numbers
            )
            own = sum(many == self.word_counts[word] for word, many in long.items())
            found.append((own, len(long)))
        return tuple(found)

    @cached_property
    def _times_said_in(self) -> dict[int, Counter[int]]:
        found: dict[int, Counter[int]] = {}
        for number in self.counted:
            found.setdefault(self.talk.words[number.start].segment, Counter())[number.value] += 1
        return found

    def times_said_in(self, segment: int) -> Counter[int]:
        """How often each number is said in a segment."""
        return self._times_said_in.get(segment, Counter())

    @cached_property
    def _said(self) -> dict[int, set[int]]:
        return {segment: set(times) for segment, times in self._times_said_in.items()}

    def said_in(self, segment: int) -> set[int]:
        """The numbers that are said in a segment."""
        return self._said.get(segment, set())

    def segment_around(self, word: int) -> tuple[int, int]:
        """First and behind-last word of the segment that word `word` stands in."""
        index = bisect_right(self._segment_starts, word) - 1
        return self.segments[max(0, index)] if self.segments else (0, len(self.talk.words))

    @cached_property
    def _segment_starts(self) -> list[int]:
        return [start for start, _ in self.segments]

    def on_screen(self, start: int, end: int) -> list[Appearance]:
        """The picture steps that can be seen at some moment from word `start` to before word `end`."""
        return [self.pictures[index] for index in self._seen(start, end)]

    def on_screen_at(self, word: int) -> list[Appearance]:
        """The picture steps that can be seen when a word is said."""
        return self.on_screen(word, word + 1)

    def moments_between(self, start: int, end: int) -> Sequence[Moment]:
        """The picture steps behind word `start` and before word `end`, both left out."""
        moments = self.stage.moments
        first = bisect_right(self.moment_words, start)
        return moments[first : bisect_left(self.moment_words, end)]

    def changed_by(self, start: int, end: int) -> set[int]:
        """By how many things come or go behind word `start` and before word `end`, both left out."""
        return {
            moment.direction.change.count
            for moment in self.moments_between(start, end)
            if isinstance(moment.direction, ChangePicture) and isinstance(moment.direction.change, Add | TakeAway)
        }

    @cached_property
    def moment_words(self) -> list[int]:
        """The words before which the picture steps come, in order."""
        return [moment.word for moment in self.stage.moments]

    def _seen(self, start: int, end: int) -> list[int]:
        buckets = self._buckets
        found: set[int] = set()
        for bucket in range(max(0, start) // _BUCKET, max(0, end) // _BUCKET + 1):
            for index in buckets.get(bucket, ()):
                appearance = self.pictures[index]
                if appearance.moment.word < end and appearance.until > start:
                    found.add(index)
        return sorted(found)

    @cached_property
    def _buckets(self) -> dict[int, list[int]]:
        """Picture steps by stretches of words, so that looking one up does not take longer in a longer lesson."""
        found: dict[int, list[int]] = {}
        for index, appearance in enumerate(self.pictures):
            for bucket in range(appearance.moment.word // _BUCKET, appearance.until // _BUCKET + 1):
                found.setdefault(bucket, []).append(index)
        return found

    @cached_property
    def excused(self) -> frozenset[int]:
        """The lines that a note "on purpose" leaves alone: its own, and where it stands alone, those of the next
        sentence with the directions from the line before the note to the end of that sentence."""
        if self.lesson is None:
            return frozenset()
        lines: set[int] = set()
        spoken = {word.place.line for word in self.talk.words}
        for direction in self.lesson.directions:
            if not isinstance(direction, Note) or not direction.on_purpose:
                continue
            line = direction.place.line
            lines.add(line)
            if line not in spoken:
                end = direction.at + 1
                if direction.at < len(self.talk.words):
                    end = self.sentences[self.sentence_index(direction.at)].end
                lines |= {
                    other.place.line
                    for other in self.lesson.directions
                    if other.segment == direction.segment
                    and direction.at <= other.at < end
                    and other.place.line >= line - 1
                    and other.place.line not in spoken
                }
            if line not in spoken and direction.at < len(self.talk.words):
                sentence = self.sentences[self.sentence_index(direction.at)]
                lines |= {word.place.line for word in self.talk.words[sentence.start : sentence.end]}
        return frozenset(lines)

    def is_excused(self, first: int, last: int) -> bool:
        """Whether a note excuses any of the words from `first` to before `last`."""
        return any(word.place.line in self.excused for word in self.talk.words[first:last]) if self.excused else False

    def line_of(self, word: int) -> tuple[int, int]:
        """Line and column of a word (of the last one for the end of the lesson)."""
        if not self.talk.words:
            return 0, 0
        place = self.talk.words[min(word, len(self.talk.words) - 1)].place
        return place.line, place.column

    @cached_property
    def segments(self) -> tuple[tuple[int, int], ...]:
        """First and behind-last word of every segment that is spoken, by the segment's index."""
        if self.lesson is None:
            return ((0, len(self.talk.words)),)
        spans = []
        position = 0
        for segment in self.lesson.segments:
            spans.append((position, position + len(segment.words)))
            position += len(segment.words)
        return tuple(spans)


@dataclass(frozen=True)
class BoundCount:
    """A count that a picture follows: `base` is what was there, `values` what is counted, `words` where it is said."""

    direction: Direction
    base: int
    values: tuple[int, ...]
    words: tuple[int, ...]
    step: int


def _only_step(moment: Moment) -> int:
    """The step of a count that has only one."""
    change = moment.direction.change if isinstance(moment.direction, ChangePicture) else None
    if isinstance(change, Count):
        return change.by
    down = isinstance(change, TakeAway) or (isinstance(change, Hop) and change.end < change.start)
    return -1 if down else 1


@dataclass(frozen=True)
class Appearance:
    """A picture step: the picture, the one it was before (None: it comes on) and the word before which it changes."""

    moment: Moment
    picture: Picture
    before: Picture | None
    until: int

    @cached_property
    def shows(self) -> frozenset[int]:
        """The numbers that the picture is there to show, with what its things can be said to be."""
        return counts(self.picture) | frozenset(essential(self.picture))

    @property
    def change(self) -> object | None:
        """The change that led to it; None where it is shown."""
        direction = self.moment.direction
        return direction.change if isinstance(direction, ChangePicture) else None
