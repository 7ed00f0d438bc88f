"""Where a number is said, with everything around it that can tell what it will be: the numbers before and after, the
words next to it, the pictures on the screen. What is the same for many places is worked out once for a lesson (`Book`)."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from functools import cached_property
from itertools import chain
from typing import Any, NamedTuple, TypeVar

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.expect.hints import Bundle, named
from studio.agree.expect.parts import Parts, parts
from studio.agree.expect.roles import Roles, roles, sort_of
from studio.agree.looks import essential, structure
from studio.pictures.base import Picture
from studio.pictures.kinds.text import Text
from studio.script.model import Word
from studio.talk.model import Number, Story

_AND = frozenset("and plus & with +".split())
_EQUALS = frozenset("make makes made making is are equals equal was = that's it's gives".split())
_MINUS = frozenset("minus less away without -".split())
_TO = frozenset("from to until".split())
_NOUGHT = frozenset("no none nothing nobody empty zero not nil without any".split())
_LONGEST_LINK = 7  # words between two numbers that can still belong together
_OFTEN = 10  # numbers of a lesson
_WIDE = 250  # words before and after a sentence that are still around it
_NEXT_SENTENCE = 8  # words from a number to one in the next sentence
_ENDS = re.compile(r"[.!?…]")
MOST = 40
"""Numbers of a sentence, before a place and after it, that are looked at: in a sentence without an end, too, the time
stays in proportion to the length."""
OFTEN = 0.04
"""The share of the numbers of a lesson from which one is said often."""
INEQUALITIES = ("greater", "less", "unequal", "between")
"""Kinds of statement that hold for many numbers."""
_QUOTES = '"”’*_)'


T = TypeVar("T")


def by_word(groups: Mapping[str, str]) -> dict[str, str]:
    """For each word the name of its group; `groups` has the words of each, by its name."""
    return {word: name for name, words in groups.items() for word in words.split()}


def _classes(*groups: str) -> dict[str, str]:
    return by_word({str(index + 1): words for index, words in enumerate(groups)})


_BEFORE = _classes(
    "is was are were be it's that's there's here's", "makes make made making equals equal", "and", "plus",
    "minus less", "from", "to until", "than", "of", "has have had with got holds", "the a this that number",
    "take away takes", "only just still another", "get gets got need needs needed", "you we i they he she it",
    "at on in for by", "more fewer", "count says say said so now yes then first next", "not isn't", "double half",
    "add put adds puts", "or but", "between before after", "what's what how many", "left",
    "goes go hop hops hopped come came comes", "us me them", "see saw look find found",
)  # fmt: skip
_AFTER = _classes(
    "more", "less fewer", "left", "dot dots marks mark", "cross crosses", "ten tens", "one ones", "and",
    "is are was were", "make makes made equals equal", "plus", "minus take takes", "away", "in on at under",
    "to from until", "than", "of", "altogether together", "for because so", "hop hops step steps jump jumps", "other others",
    "bead beads card cards row rows spaces boxes squares", "that who which", "come came go went hopped sat sit swim",
    "or but", "with has have", "comes goes means", "bigger greater smaller longer", "again now then too first",
    "part parts partner partners", "another",
)  # fmt: skip


class Side(NamedTuple):
    """The word next to a number: `word` is "." or "," where a sentence or a phrase ends there, "" at the edge of the
    talk; `sort` is the class of the word ("0": any other)."""

    word: str
    sort: str


class Look(NamedTuple):
    """What is seen in a picture: its sort, what each of its numbers is in it, which of them it is there to show, what it
    is built of."""

    sort: str
    roles: Roles
    essential: tuple[int, ...]
    structure: frozenset[int]


def link(words: Sequence[Word], start: int, end: int) -> str:
    """How the words from `start` to before `end`, between two numbers, join them: "0" nothing, "A" and, "M" minus,
    "R" more, "E" equals (also behind another letter), "F" from or to, "O" or, "x" other words, "X" many words, "S"
    another sentence, "SS" one further away."""
    if start == end:
        return "0"
    if words[start - 1].sentence != words[end].sentence:
        return "S" if end - start <= _NEXT_SENTENCE else "SS"
    if end - start > _LONGEST_LINK:
        return "X"
    said = {word.plain for word in words[start:end]}
    equals = "E" if said & _EQUALS else ""
    if said & _MINUS:
        return "M" + equals
    if "more" in said:
        return "R" + equals
    if said & _AND:
        return "A" + equals
    if equals:
        return equals
    if said & _TO:
        return "F"
    return "O" if "or" in said else "x"


class Book:
    """What is the same for all places of a lesson."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.words = case.talk.words
        self.numbers = case.counted
        self.said = [number.value for number in self.numbers]
        self.sentence_of = [at for at, sentence in enumerate(case.sentences) for _ in sentence.numbers]
        self.after = [self._side(n.end - 1, n.end, _AFTER) for n in self.numbers]
        self.before = [self._side(n.start - 1, n.start - 1, _BEFORE) for n in self.numbers]
        self.links = [link(self.words, one.end, other.start)
                      for one, other in zip(self.numbers, self.numbers[1:], strict=False)]  # fmt: skip
        self._looks: dict[int, tuple[Picture, Look]] = {}
        self._parts: dict[int, tuple[Picture, Parts]] = {}
        self._around: dict[tuple[int, int], Counter[int]] = {}
        self._says: dict[tuple[int, frozenset[str]], bool] = {}
        self.everywhere: dict[int, Bundle] = {}
        """What points to all numbers of a segment, kept by `clues/segments.py`."""
        self.sentence_tokens: dict[int, Bundle] = {}
        """The tokens that are the same for all numbers of a sentence, kept by `surroundings.py`."""
        self._noughts: dict[int, tuple[int, ...]] = {}
        self._answers: dict[int, int] = {}
        self._shown: dict[int, Counter[int]] = {}
        self._title_tokens: dict[int, Bundle] = {}
        self._screens: dict[tuple[int, int], list[Appearance]] = {}
        self._once: dict[Callable[[Book], Any], Any] = {}

    def once(self, make: Callable[[Book], T]) -> T:
        """What `make` makes of the lesson; made once and kept. What a sort of clue keeps for itself begins empty so."""
        kept: T | None = self._once.get(make)
        if kept is None:
            kept = self._once[make] = make(self)
        return kept

    def _side(self, before: int, word: int, sorts: dict[str, str]) -> Side:
        """The word at `word`; `before` is the word whose end shows whether something ends between it and the number."""
        if not 0 <= word < len(self.words):
            return Side("", "")
        text = self.words[before].text
        if not text[-1:].isalnum():
            mark = "." if _ENDS.match(text.rstrip(_QUOTES)[-1:]) else ","
            return Side(mark, mark)
        plain = self.words[word].plain
        return Side(plain, sorts.get(plain, "0"))

    def look(self, picture: Picture) -> Look:
        """What is seen in a picture."""
        kept = self._looks.get(id(picture))
        if kept is None:
            seen = Look(sort_of(picture), roles(picture), essential(picture), structure(picture))
            kept = self._looks[id(picture)] = (picture, seen)
        return kept[1]

    def parts(self, picture: Picture) -> Parts:
        """What a picture is made of."""
        kept = self._parts.get(id(picture))
        if kept is None:
            kept = self._parts[id(picture)] = (picture, parts(picture))
        return kept[1]

    def screen(self, start: int, end: int) -> list[Appearance]:
        """The pictures on the screen from word `start` to before word `end`, the newest first, without those of words."""
        kept = self._screens.get((start, end))
        if kept is None:
            shown = [seen for seen in self.case.on_screen(start, end) if not isinstance(seen.picture, Text)]
            kept = self._screens[start, end] = sorted(shown, key=lambda seen: -seen.moment.word)
        return kept

    @cached_property
    def said_in_sentence(self) -> list[tuple[int, ...]]:
        """The numbers that are said in each sentence."""
        return [sentence.values for sentence in self.case.sentences]

    @cached_property
    def things(self) -> list[str]:
        """The word behind each number, without an s at its end; "" where a phrase ends there."""
        return ["" if side.word in (".", ",") else side.word.removesuffix("s") for side in self.after]

    def says(self, sentence: int, words: frozenset[str]) -> bool:
        """Whether one of `words` is said in a sentence; worked out once for all numbers of the sentence."""
        key = (sentence, words)
        kept = self._says.get(key)
        if kept is None:
            kept = self._says[key] = self.case.has_word(self.case.sentences[sentence], words)
        return kept

    def noughts(self, sentence: int) -> tuple[int, ...]:
        """The words of a sentence that can mean nought."""
        kept = self._noughts.get(sentence)
        if kept is None:
            here = self.case.sentences[sentence]
            kept = self._noughts[sentence] = tuple(
                word for word in range(here.start, here.end) if self.words[word].plain in _NOUGHT
            )
        return kept

    def answers_after(self, story: Story, end: int) -> int:
        """How often the answer of a story is said after it, before word `end`; -1 for a story without an answer."""
        kept = self._answers.get(story.start)
        if kept is None:
            said = [number.value for number in self.case.numbers_between(story.end, end)]
            kept = self._answers[story.start] = -1 if story.answer is None else said.count(story.answer)
        return kept

    def said_around(self, sentence: int, reach: int) -> Counter[int]:
        """How often each number is said from `reach` sentences before one to as many after it, in its segment."""
        kept = self._around.get((sentence, reach))
        if kept is None:
            first, last = self.case.sentences_around(sentence, reach, reach)
            sentences = self.case.sentences
            here = sentences[sentence]
            begin, end = max(sentences[first].start, here.start - _WIDE), min(sentences[last].end, here.end + _WIDE)
            starts = self.case.number_starts
            kept = self._around[sentence, reach] = Counter(
                self.said[bisect_left(starts, begin) : bisect_left(starts, end)]
            )
        return kept

    def shown_in(self, segment: int) -> Counter[int]:
        """How often each number is shown in a segment."""
        kept = self._shown.get(segment)
        if kept is None:
            shows = [seen.shows for seen in self.case.pictures_of(segment)]
            kept = self._shown[segment] = Counter(chain.from_iterable(shows))
        return kept

    @cached_property
    def most_said(self) -> list[tuple[int, int]]:
        """The numbers that are said most in the lesson, with how often."""
        return self.case.times_said.most_common()[:_OFTEN]

    @cached_property
    def often(self) -> list[tuple[int, int]]:
        """The numbers that are said often in the lesson, with how often."""
        least = OFTEN * (len(self.numbers) - 1)
        return [(value, count) for value, count in self.case.times_said.items() if count >= least]

    @cached_property
    def titles(self) -> dict[int, frozenset[int]]:
        """The numbers in the titles of the segments."""
        return {
            segment: frozenset(number.value for number in numbers)
            for segment, numbers in enumerate(self.case.title_numbers)
        }

    @cached_property
    def headings(self) -> frozenset[int]:
        """The numbers in the title of the lesson and in the titles of its segments."""
        return frozenset(self.case.header_numbers).union(*self.titles.values())

    def title_tokens(self, segment: int) -> Bundle:
        """The words in the title of a segment, each as a token."""
        kept = self._title_tokens.get(segment)
        if kept is None:
            words = () if self.case.lesson is None else self.case.title_words[segment]
            kept = self._title_tokens[segment] = named(*[f"t {word.plain}" for word in words])
        return kept

    def moment_from(self, word: int) -> int:
        """The index of the first picture step at a word or after it."""
        return bisect_left(self.case.moment_words, word)

    @cached_property
    def counted_at(self) -> dict[int, int]:
        """The number that a picture counts at a word."""
        return {m.word: m.number for m in self.case.stage.moments if m.counted and m.number is not None}


def book_of(case: Case) -> Book:
    """The book of a lesson, made once."""
    kept: Book | None = case.__dict__.get("_book")
    if kept is None:
        kept = case.__dict__["_book"] = Book(case)
    return kept


class Place:
    """One number that is said. `index` counts the numbers of the lesson; `start` and `end` are the words of its segment."""

    __slots__ = ("after", "before", "book", "end", "following", "index", "number", "others", "preceding", "segment",
                 "sentence", "sentence_index", "start")  # fmt: skip

    def __init__(self, book: Book, index: int) -> None:
        number = book.numbers[index]
        self.book = book
        self.index = index
        self.number: Number = number
        self.segment = book.words[number.start].segment
        self.start, self.end = book.case.segment_around(number.start)
        self.sentence_index = book.sentence_of[index]
        self.sentence: Sentence = book.case.sentences[self.sentence_index]
        self.before = book.before[index]
        self.after = book.after[index]
        numbers = book.numbers
        self.preceding = [n.value for n in numbers[max(0, index - 4) : index] if n.start >= self.start]
        self.following = [n.value for n in numbers[index + 1 : index + 4] if n.start < self.end]
        first = bisect_left(book.case.number_starts, self.sentence.start)
        last = first + len(self.sentence.numbers)
        self.others = (*numbers[max(first, index - MOST) : index], *numbers[index + 1 : min(last, index + MOST)])

    def said_beside(self, step: int) -> tuple[int, ...]:
        """The numbers of the sentence so many steps on; none where that is not of the segment."""
        at, sentences = self.sentence_index + step, self.book.case.sentences
        inside = 0 <= at < len(sentences) and sentences[at].segment == self.segment
        return self.book.said_in_sentence[at] if inside else ()

    def link(self, steps: int) -> str:
        """How the numbers `steps` places on (-1: the one before this and this) are joined; "-" where there is none."""
        at = self.index + steps
        if not 0 <= at < len(self.book.links):
            return "-"
        one, other = self.book.numbers[at], self.book.numbers[at + 1]
        return self.book.links[at] if one.start >= self.start and other.start < self.end else "-"
