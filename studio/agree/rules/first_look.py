"""The first numbers said after a picture comes on are about that picture. If none of them can be seen in it, either the
words or the picture is wrong: a note only, for a teacher may look at something else first."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.looks import counts, essential, structure, visible
from studio.agree.manners import guessed, labelled, of_structure
from studio.agree.wording import row
from studio.findings import Finding
from studio.pictures.kinds.text import Text
from studio.pictures.spans import SpanPicture
from studio.script.model import Show
from studio.talk.model import Number

NAME = "picture comes with its words"
_REACH = 4  # sentences
_WISHES = frozenset(
    "want wants wanted need needs needed would could if make makes making until wish wonder guess not cannot can't too".split()
)

_PIECES = frozenset("other first second each here there".split())  # "six dots in the other one"


def find(case: Case) -> Iterator[Finding]:
    for appearance in case.pictures:
        if not isinstance(appearance.moment.direction, Show) or isinstance(appearance.picture, SpanPicture | Text):
            continue
        if not essential(appearance.picture):
            continue
        found = _first(case, appearance)
        if found is None:
            continue
        sentence, numbers = found
        if case.is_excused(sentence.start, sentence.end):
            continue
        screen = case.on_screen(appearance.moment.word, sentence.end + 1)
        mine = [other for other in screen if other.moment.name == appearance.moment.name]
        shown: set[int] = set()
        for other in mine:
            shown |= visible(other.picture) | structure(other.picture)
        values = {number.value for number in numbers}
        others: set[int] = set()
        for other in screen:
            if other not in mine:
                others |= set(essential(other.picture))
        before = _before(case, appearance)
        if len(numbers) == 1 and _is_amount(case, numbers[0]):
            told: set[int] = set()
            pieces = any(word.plain in _PIECES for word in case.talk.words[numbers[0].end : numbers[0].end + 5])
            for other in mine:
                told |= visible(other.picture) if pieces else counts(other.picture)
                if of_structure(case, numbers[0]):
                    told |= structure(other.picture)
            wrong = not values & (told | others)
        else:
            wrong = not values & shown and not values & others
        if sum(number.value for number in numbers) in essential(appearance.picture):  # "four here and four there"
            continue
        if wrong and ((len(numbers) > 2 and numbers[-1].value in shown) or _soon(case, appearance, sentence, shown)):
            continue
        if not wrong or set(essential(appearance.picture)) <= before:
            continue
        number = numbers[0]
        direction = appearance.moment.direction
        yield Finding(
            NAME,
            "note",
            number.line,
            number.column,
            number.text,
            direction.text,
            f"Line {direction.place.line} brings on {appearance.picture.description()}, and the first number said then "
            f"is {number.value}.",
            f"Say {row(sorted(set(essential(appearance.picture))), 'or')}, or show {number.value}.",
        )


def _first(case: Case, appearance: Appearance) -> tuple[Sentence, list[Number]] | None:
    """The first sentence with numbers after the picture came on, and those numbers; what is wished for or
    asked is not there yet ("We want seven", "Is it six?")."""
    index = case.sentence_index(appearance.moment.word)
    segment = appearance.moment.direction.segment
    for sentence in case.sentences[index : index + _REACH]:
        if sentence.segment != segment or sentence.start >= appearance.until:
            return None
        numbers = [
            number
            for number in sentence.numbers
            if number.start >= appearance.moment.word and not labelled(case, number)
        ]
        aside = not {number.value for number in numbers} & visible(appearance.picture) and (
            guessed(case, sentence) or case.has_word(sentence, _WISHES)
        )
        if numbers and not aside:
            return sentence, numbers
    return None


def _soon(case: Case, appearance: Appearance, first: Sentence, shown: set[int]) -> bool:
    """Whether a sentence soon after it tells the picture ("My bag has six pockets. Two of them are stuffed.")."""
    index = case.sentence_index(first.start)
    return any(
        sentence.segment == first.segment and sentence.start < appearance.until and set(sentence.values) & shown
        for sentence in case.sentences[index + 1 : index + 3]
    )


def _before(case: Case, appearance: Appearance) -> set[int]:
    """The numbers said in the sentence before, and in the same one up to the picture."""
    index = case.sentence_index(appearance.moment.word)
    said = {n.value for n in case.sentences[index].numbers if n.start < appearance.moment.word}
    if index and case.sentences[index - 1].segment == appearance.moment.direction.segment:
        said |= set(case.sentences[index - 1].values)
    return said


def _is_amount(case: Case, number: Number) -> bool:
    """Whether it stands alone or before a noun, and not before "more", "in the top row" and the like."""
    sentence = case.sentences[case.sentence_index(number.start)]
    last = case.talk.words[number.end - 1]
    if not last.text[-1:].isalnum():
        return sentence.end - sentence.start <= 3
    after = case.talk.words[number.end].plain if number.end < len(case.talk.words) else ""
    return after not in (
        "more",
        "on",
        "in",
        "at",
        "empty",
        "and",
        "rows",
        "row",
        "is",
        "less",
        "fewer",
        "of",
        "plus",
        "or",
    )
