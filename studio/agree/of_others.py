"""Manners of talk in which tens and ones, or a part, are told of another number than the one on the screen: one that is
supposed, one that a question has just named, what is left over, a difference, what is yet to come, one that is compared
with it; or of the same in another way, with a ten opened."""

from __future__ import annotations

from collections.abc import Iterable

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.looks import relation
from studio.agree.manners import SUPPOSING
from studio.agree.mentions import Mention
from studio.agree.wording import TEN_THINGS
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.wholes import WholePicture

_ANOTHER = SUPPOSING | {"instead", "about"}
_BEFORE = 5  # sentences
_ONES = frozenset("ones squares cubes units singles loose".split())


def is_of_another(case: Case, mention: Mention, seen: Iterable[Appearance]) -> bool:
    """Whether what is said of tens, of ones or of a part is true of another number, or in another way, as told above;
    `seen` are the pictures that are."""
    if mention.of == "part":
        return _of_supposed_part(case, mention, seen)
    if mention.of in ("tens", "ones"):
        return (
            _of_one_asked(case, mention)
            or _of_what_is_left(case, mention)
            or _with_a_ten_opened(case, mention, seen)
            or _by_how_many(case, mention, seen)
            or _of_one_compared(case, mention, seen)
            or _of_what_comes(case, mention)
        )
    return False


def _digit(value: int, of: str) -> int:
    return value // 10 if of == "tens" else value % 10


def _of_supposed_part(case: Case, mention: Mention, seen: Iterable[Appearance]) -> bool:
    """Whether it makes the whole with a part that is only supposed ("And if the part were six? Then the other part is six")."""
    index = case.sentence_index(mention.number.start)
    first, _ = case.sentences_around(index, 1, 0)
    for sentence in case.sentences[first : index + 1]:
        if not case.has_word(sentence, SUPPOSING):
            continue
        for other in seen:
            found = relation(other.picture) if isinstance(other.picture, WholePicture) else None
            if found is not None and found.whole - mention.number.value in sentence.values:
                return True
    return False


def _of_one_asked(case: Case, mention: Mention) -> bool:
    """Whether it is of the number that the question before supposes ("What would 73 have instead? Seven tens and three ones.")."""
    index = case.sentence_index(mention.number.start)
    question = case.question_before(index)
    return (
        question is not None
        and case.has_word(question, _ANOTHER)
        and [_digit(value, mention.of) for value in question.values] == [mention.number.value]
    )


def _of_what_is_left(case: Case, mention: Mention) -> bool:
    """Whether tens and ones are what is left, and the number that they make is said in the segment ("That leaves 3 tens and 2 ones.
    … 40 - 8 = 32")."""
    sentence = case.sentences[case.sentence_index(mention.number.start)]
    return case.has_word(sentence, ("leaves", "leave", "leaving", "left")) and _made(sentence) in case.said_in(
        sentence.segment
    )


def _made(sentence: Sentence) -> int | None:
    """The number that tens and ones make of which nothing else is said in a sentence."""
    values = [value for value in sentence.values if value != 10]
    return 10 * values[0] + values[1] if len(values) == 2 else None


def _with_a_ten_opened(case: Case, mention: Mention, seen: Iterable[Appearance]) -> bool:
    """Whether tens and more than nine ones make the number on the screen ("We open a ten and have five tens and
    thirteen ones", "That stick is ten loose ones now, so there are three sticks and ten")."""
    sentence = case.sentences[case.sentence_index(mention.number.start)]
    made = _made(sentence)
    tens = [value for value in sentence.values if value != 10]
    loose = any(number.value == 10 and case.says(number.end, number.end + 2, _ONES) for number in sentence.numbers)
    if loose and len(tens) == 1:
        made = 10 * tens[0] + 10
    return (loose or max(sentence.values) > 10) and any(
        isinstance(other.picture, BaseTen) and other.picture.value == made for other in seen
    )


def _by_how_many(case: Case, mention: Mention, seen: Iterable[Appearance]) -> bool:
    """Whether it tells by how many tens or ones the number on the screen differs from one that was said just before ("two cubes
    less")."""
    number = mention.number
    if not case.says(number.end + 1, number.end + 2, ("more", "less", "fewer")):
        return False
    index = case.sentence_index(number.start)
    first, _ = case.sentences_around(index, _BEFORE, 0)
    before = case.numbers_between(case.sentences[first].start, case.sentences[index].start)
    return any(
        isinstance(other.picture, BaseTen)
        and any(
            abs(_digit(other.picture.value, mention.of) - _digit(earlier.value, mention.of)) == number.value
            for earlier in before
            if earlier.value > 9
        )
        for other in seen
    )


def _of_one_compared(case: Case, mention: Mention, seen: Iterable[Appearance]) -> bool:
    """Whether it is of a number that its sentence names, and compares with as much of the number on the screen ("7 ones
    against 4 ones, so 47 must be bigger", over 74)."""
    number, of = mention.number, mention.of
    sentence = case.sentences[case.sentence_index(number.start)]
    if number.value not in {_digit(value, of) for value in sentence.values if value > 9}:
        return False
    shown = {_digit(other.picture.value, of) for other in seen if isinstance(other.picture, BaseTen)}
    things = TEN_THINGS if of == "tens" else _ONES
    return any(
        other is not number and other.value in shown and case.says(other.end, other.end + 1, things)
        for other in sentence.numbers
    )


def _of_what_comes(case: Case, mention: Mention) -> bool:
    """Whether it is of so many more, told before in the sentence ("Fifteen more are coming, and that's one ten and five
    ones")."""
    number = mention.number
    sentence = case.sentences[case.sentence_index(number.start)]
    return any(
        other.value > 9
        and _digit(other.value, mention.of) == number.value
        and case.says(other.end, other.end + 1, ("more",))
        for other in case.numbers_between(sentence.start, number.start)
    )
