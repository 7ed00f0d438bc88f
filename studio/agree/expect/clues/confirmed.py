"""What is said again: an answer or a confirmation ("Yes, seven", "Still ten", "That is six", "How do I know it is nine?"),
the subject of the sentence before ("Seven. Seven is ..."), the end of a count that was just said or is about to be said.
Where the sentence before, the sentence behind and the screen speak of the same number, that number is the surest."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from studio.agree.case import Appearance
from studio.agree.expect.hints import KEPT, Bundle, Hint, named
from studio.agree.expect.place import Book, Place

_BACK = 3  # sentences
_ON = 2  # sentences
_FEW = 6  # numbers of a sentence that is looked at
_PICTURES = 2
_LONGEST = 30  # numbers of a count
_WORDS = 60  # words back to a question
_YES = frozenset("yes yep yeah yup right correct exactly still again also so well indeed true good no but".split())
_IT = frozenset("it it's that that's this which what's he's she's he she they they're we we're i'm you".split())
_IS = frozenset("is was are were be stays makes make equals has have had gives leaves got".split())
_IS_IT = _IS | _IT


class _Sentence(NamedTuple):
    """What is the same for all numbers of a sentence: the numbers of the nearest sentences with any and whether there is
    a question before, what was asked for last, which of these speak of each number, the counts next to it (clue, value, sort)."""

    asks: bool
    confirms: bool
    before: tuple[int, ...]
    asked: bool
    behind: tuple[int, ...]
    asked_for: int | None
    spoken: dict[int, int]
    counts: tuple[tuple[str, int, str], ...]


class _Notes(NamedTuple):
    """What is kept for a lesson: its sentences, the questions with what they ask for (start, end, number), all hints by
    the sentence, the shape and the screen, which tell them."""

    sentences: dict[int, _Sentence]
    questions: list[tuple[int, int, int]]
    hints: dict[tuple[int, str, int, int], tuple[Hint, ...]]


def _notes(book: Book) -> _Notes:
    questions = [
        (statement.start, statement.end, statement.expected)
        for statement in book.case.talk.statements
        if statement.expected is not None and not isinstance(statement.expected, bool)
    ]
    return _Notes({}, questions, {})


def find(place: Place) -> Iterator[Hint]:
    book, at = place.book, place.sentence_index
    notes = book.once(_notes)
    sentence = notes.sentences.get(at)
    if sentence is None:
        sentence = notes.sentences[at] = _sentence(place, notes.questions)
    shape = _shape(place, sentence)
    screen = book.screen(place.number.start, place.number.start + 1)
    # the pictures last as long as the lesson
    key = (at, shape, id(screen[0]) if screen else 0, id(screen[1]) if len(screen) > 1 else 0)
    hints = notes.hints.get(key)
    if hints is None:
        hints = notes.hints[key] = tuple(_hints(book, sentence, shape, screen[:_PICTURES]))
    return iter(hints)


def _sentence(place: Place, questions: list[tuple[int, int, int]]) -> _Sentence:
    book, here = place.book, place.sentence
    before, asked = _beside(place, -1, _BACK)
    behind, _ = _beside(place, 1, _ON)
    asked_for = _asked_for(place, questions)
    return _Sentence(
        book.case.asks(here),
        book.words[here.start].plain in _YES,
        before,
        asked,
        behind,
        asked_for,
        _spoken(before, behind, asked_for),
        tuple(_counts(place)),
    )


def _hints(book: Book, sentence: _Sentence, shape: str, screen: Sequence[Appearance]) -> Iterator[Hint]:
    before, behind, asked_for = sentence.before, sentence.behind, sentence.asked_for
    shown = _shown(book, screen)
    if before and shape != "l":  # a number alone answers; what was asked about is seldom the answer
        yield before[-1], _clue("Cfp", shape + ("q" if sentence.asked and shape in "OUoq" else "s"))
    if behind:
        yield behind[0], _clue("Cfn", shape)
        if behind[0] != behind[-1] and shape not in "Ui":
            yield behind[-1], _clue("Cfz", "O" if shape == "O" else "-")
    if asked_for is not None:
        yield asked_for, _clue("Cfe", shape if shape in "OUlo" else "-")
    if shown:
        # "s": the newest picture was shown, "c": it has changed since
        changed = "" if shape not in "lLoOUt" else "s" if screen[0].change is None else "c"
        yield shown[0], _clue("Cfs", shape + changed)
    if len(shown) > 1 and shape not in "lLi":
        yield shown[1], _clue("Cfr", shape)
    for name, value, sort in sentence.counts:
        yield value, _clue(name, sort if sort != "e" else "e" + (shape if shape in "OUo" else "-"))
    yield from _agreed(shape, sentence.spoken, shown)


@lru_cache(maxsize=KEPT)
def _clue(sort: str, shape: str) -> Bundle:
    return named(f"{sort}:{shape}")


def _shape(place: Place, here: _Sentence) -> str:
    """The manner of the sentence, told by its other words: "l" the number alone, "L" with a word or two behind it, "q" a
    question, "y" a confirmation, "i" it is so many, "u" the number is the subject,
    "U" it only stands first, "t" there are so many, "O" in a sentence with other numbers, "o" any other."""
    sentence, number = place.sentence, place.number
    first = number.start == sentence.start
    rest = sentence.end - sentence.start - (number.end - number.start)
    if here.asks:
        return "q"
    if rest == 0:
        return "l"
    if first and not place.others:
        return "L" if rest <= 2 else "u" if place.after.word in _IS else "U"
    if first:
        return "u" if place.after.word in _IS else "U"
    if here.confirms:
        return "y"
    ahead = [word.plain for word in place.book.words[max(sentence.start, number.start - 3) : number.start]]
    if "there" in ahead or "there's" in ahead:
        return "t"
    if ahead[-1] in _IS_IT and not _IT.isdisjoint(ahead):
        return "i"
    return "O" if place.others else "o"


def _beside(place: Place, step: int, reach: int) -> tuple[tuple[int, ...], bool]:
    """The numbers of the nearest sentence with any on one side, and before it whether it or one between asks."""
    case, sentences, at = place.book.case, place.book.case.sentences, place.sentence_index
    asked = False
    for away in range(1, reach + 1):
        there = at + step * away
        if not 0 <= there < len(sentences) or sentences[there].segment != place.segment:
            break
        asked = asked or (step < 0 and case.asks(sentences[there]))
        values = place.book.said_in_sentence[there]
        if values:
            return (values[-_FEW:] if step < 0 else values[:_FEW]), asked
    return (), asked


def _asked_for(place: Place, questions: list[tuple[int, int, int]]) -> int | None:
    """What the last question before the sentence asks for."""
    begin = place.sentence.start
    first = max(place.start, begin - _WORDS)
    for at in range(bisect_left(questions, (begin,)) - 1, -1, -1):
        start, end, expected = questions[at]
        if start < first:
            break
        if end <= begin:
            return expected
    return None


def _shown(book: Book, screen: Sequence[Appearance]) -> list[int]:
    """What the newest pictures are there to show, the newest first."""
    return list(dict.fromkeys(value for seen in screen for value in book.look(seen.picture).essential[::-1][:3]))


def _counts(place: Place) -> Iterator[tuple[str, int, str]]:
    """The last number and the length of a count that is said in the sentences before or behind, and where it starts."""
    for name, step in (("Cfb", -1), ("Cfa", 1)):
        for away in (1, 2):
            values = place.said_beside(step * away)[:_LONGEST]
            if len(values) < 3:
                continue
            stride = values[1] - values[0]
            if stride and values[2] - values[1] == stride and values[-1] - values[-2] == stride:
                yield name, values[-1], "e"
                yield name, len(values), "n"
                if step > 0:
                    yield name, values[0] - stride, "s"
                break


def _spoken(before: tuple[int, ...], behind: tuple[int, ...], asked_for: int | None) -> dict[int, int]:
    """The numbers around a sentence, each with the surroundings that speak of it."""
    spoken = dict.fromkeys(before, 1)
    for value in behind:
        spoken[value] = spoken.get(value, 0) | 2
    if asked_for is not None:
        spoken[asked_for] = spoken.get(asked_for, 0) | 8
    return spoken


def _agreed(shape: str, spoken: dict[int, int], shown: list[int]) -> Iterator[Hint]:
    """Numbers that several of the surroundings speak of; "Cfw" where one is spoken of by more of them than all others."""
    if shown:
        spoken = spoken.copy()
        for value in shown:
            spoken[value] = spoken.get(value, 0) | 4
    several = [(value, sources) for value, sources in spoken.items() if sources & (sources - 1)]
    if not several:
        return
    for value, sources in several:
        yield value, _AGREED[sources]
    most = max([sources.bit_count() for _, sources in several])
    best = [value for value, sources in several if sources.bit_count() == most]
    if len(best) == 1:
        yield best[0], _clue("Cfw", f"{shape if shape in 'OUolq' else '-'}{min(most, 3)}")


_AGREED = [
    _clue("Cfg", "".join(letter for bit, letter in enumerate("PNSE") if sources >> bit & 1)) for sources in range(16)
]
"""The clue for each set of surroundings: said before (1), behind (2), shown (4), asked for (8)."""
