"""A riddle: the clues that are given for a number ("It is less than ten. It is more than six.", "Clue: it's double seven",
"What is more than six and less than eight?") leave a number, and the one that is told or shown next is among those."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from studio.agree.case import Case, Sentence
from studio.agree.looks import amount
from studio.agree.manners import affirmed, denied, is_lone, taken_back
from studio.agree.wording import of_number, row
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.kinds.word import Word
from studio.script.model import Show
from studio.talk.model import Number
from studio.talk.numbers import said

NAME = "clues fit the number"
_NUMBERS = range(121)
_LEFT_ALONE = 3  # sentences between two clues, or before the answer, that say no number
_REACH = 3  # sentences before the first clue that may announce a riddle
_FEW = 4  # numbers
_WIDE = 2  # further apart than this, "between 1 and 10" may mean these, too
_CUES = frozenset("clue clues riddle riddles guess guesses guessed guessing detective detectives".split())
_ASKS = re.compile(
    r"(?:who|what) am i |(?:who|what) (?:can|could|is) (?:it|that|this)|which number|what number|thinking of "
)
_I_AM = re.compile(r"i am ")
_OUT = frozenset("go goes gone out leave leaves home away cross turn ones cards card stay stays left".split())
_ASKED = r"(?:what|who|which)(?: number| card)?(?: is| comes)"
_SUBJECT = re.compile(
    rf"(?P<asks>{_ASKED})|(?:it|i|he|she|my number|the number|the secret number|the mystery number)"
    r"(?: (?:is|am|comes|come|sits|sit|stands|stand|lives|live|must be))(?= )"
)
_AGAIN = re.compile(
    r"(?: ,)?(?: (?:and|but))?(?: (?:it|i|he|she))?(?: (?:is|am|comes|come|sits|sit|stands|stand|lives|live))?"
)
_SOFT = r"(?: (?:right|straight|directly|somewhere|a number|between it|in|always))*?"
_CLUE = re.compile(
    rf"{_SOFT} (?:(?P<more>more than|greater than|bigger than|larger than|higher than|after) #|"
    r"(?P<less>less than|smaller than|fewer than|lower than|before) #|between # and #|(?P<double>double|twice) #|"
    r"(?P<half>half of) #|# (?P<way>more|less|bigger|smaller|greater) than #)(?= (?:[.,?¶§]|and|but))"
)
_TOLD = re.compile(
    r"(?:(?:yes|well|so|then|and|now|that is right|right|of course|only|oh) ,? ?)*"
    r"(?:did you (?:say|get|guess|think of|whisper)|it is|it was|was it|is it|i am|it must be|"
    r"the (?:answer|number) is|my number is|that is|you are|i hope you said)(?: only)? # (?=[.,?])"
)


@dataclass(frozen=True)
class Riddle:
    """The numbers that the clues of sentences `first` to `last` (indices, both in) leave."""

    first: int
    last: int
    left: frozenset[int]


def find(case: Case) -> Iterator[Finding]:
    text = case.talk.speech.text
    if " than #" not in text and " between #" not in text and " double #" not in text and " after #" not in text:
        return
    for riddle in _riddles(case):
        first, last = case.sentences[riddle.first], case.sentences[riddle.last]
        if case.is_excused(first.start, last.end):
            continue
        quoted = said(case.talk.words, first.start, last.end).replace('"', "")
        clues = f"the clues on line {first.numbers[0].line}: “{quoted}”"
        if not riddle.left:
            yield _finding(first.numbers[0], f"No number fits {clues}", "Change a clue, so that a number is left.")
            continue
        if _narrows(case, riddle):
            continue
        number = _answer(case, riddle)
        value = _shown(case, riddle) if number is None else number.value
        if value is None or value in riddle.left or (number is not None and case.is_excused(number.start, number.end)):
            continue
        fits = row(sorted(riddle.left), "or") if len(riddle.left) <= _FEW else "a number that fits them"
        given = f"Line {number.line} gives {value}" if number else f"The next picture shows {value}"
        yield _finding(
            number or last.numbers[-1],
            f"{given}, and that does not fit {clues}",
            f"{'Give' if number else 'Show'} {fits}, or change a clue.",
        )


def _finding(number: Number, message: str, instead: str) -> Finding:
    return of_number(NAME, number, "", message, instead)


def _riddles(case: Case) -> Iterator[Riddle]:
    index = 0
    while index < len(case.sentences):
        riddle = _riddle(case, index) if case.sentences[index].numbers else None
        if riddle is not None and _is_asked(case, riddle):
            yield riddle
        index = index + 1 if riddle is None else riddle.last + 1


def _riddle(case: Case, index: int) -> Riddle | None:
    """The riddle that begins with sentence `index`."""
    left, last = frozenset(_NUMBERS), None
    _, end = case.sentences_around(index, 0, len(case.sentences))
    for at in range(index, end + 1):
        sentence = case.sentences[at]
        if not sentence.numbers:
            if last is None or at - last > _LEFT_ALONE or _stands_in(case, _ASKS, sentence.start, sentence.end):
                break
            continue
        found = _clues(case, sentence)
        if not found:
            break
        left, last = left.intersection(*found), at
    return None if last is None else Riddle(index, last, left)


def _clues(case: Case, sentence: Sentence) -> list[frozenset[int]]:
    """The numbers that each clue of a sentence leaves; nothing where it says another number, or asks with a single clue,
    which is a question by itself ("What comes after nine?")."""
    speech = case.talk.speech
    start, end = speech.offset_at(sentence.start), speech.offset_at(sentence.end)
    found: list[frozenset[int]] = []
    asks, at, numbers = False, start, 0
    while (subject := _SUBJECT.search(speech.text, at, end)) is not None:  # "I am even, I am greater than eight"
        asks, at = asks or subject["asks"] is not None, subject.end()
        while (match := _CLUE.match(speech.text, at)) is not None:
            values = [number.value for number in speech.numbers_in(*match.span())]
            numbers += len(values)
            found.append(frozenset(value for value in _NUMBERS if _fits(match, values, value)))
            joined = _AGAIN.match(speech.text, match.end())
            at = joined.end() if joined else match.end()
    if numbers != len(sentence.numbers) or (asks and len(found) < 2) or _is_denied(case, sentence):
        return []
    return found


def _is_denied(case: Case, sentence: Sentence) -> bool:
    """ "It is not more than six", "Nobody is more than six"."""
    return case.has_word(sentence, ("not", "isn't", "never", "no", "nobody", "if"))


def _fits(match: re.Match[str], values: list[int], value: int) -> bool:
    one, other = values[0], values[-1]
    if match["more"]:
        return value > one
    if match["less"]:
        return value < one
    if match["double"]:
        return value == 2 * one
    if match["half"]:
        return 2 * value == one
    if match["way"]:
        return value == (other - one if match["way"] in ("less", "smaller") else other + one)
    low, high = sorted(values)
    return low < value < high or (high - low > _WIDE and low <= value <= high)


def _is_asked(case: Case, riddle: Riddle) -> bool:
    """Whether words before, among or after the clues tell that a number is to be found."""
    first, last = case.sentences_around(riddle.first, _REACH, riddle.last - riddle.first + _REACH)
    start, end = case.sentences[first].start, case.sentences[last].end
    clue = case.sentences[riddle.first]
    return (
        case.says(start, end, _CUES)
        or case.asks(clue)
        or _stands_in(case, _I_AM, clue.start, clue.end)  # a number speaks: "I am more than twenty"
        or _stands_in(case, _ASKS, start, end)
    )


def _stands_in(case: Case, pattern: re.Pattern[str], start: int, end: int) -> bool:
    """Whether a pattern is found from word `start` to before word `end`."""
    speech = case.talk.speech
    return pattern.search(speech.text, speech.offset_at(start), speech.offset_at(end)) is not None


def _narrows(case: Case, riddle: Riddle) -> bool:
    """Whether it is asked next which numbers a clue rules out ("Clue: it is more than ten. Who can go home?")."""
    _, last = case.sentences_around(riddle.last, 0, _LEFT_ALONE)
    return any(
        case.asks(sentence) and case.has_word(sentence, _OUT) for sentence in case.sentences[riddle.last + 1 : last + 1]
    )


def _answer(case: Case, riddle: Riddle) -> Number | None:
    """The number that is told as the answer: it stands alone, or it is said to be it."""
    speech = case.talk.speech
    _, last = case.sentences_around(riddle.last, 0, 2 * _LEFT_ALONE)
    for at in range(riddle.last + 1, last + 1):
        sentence = case.sentences[at]
        if not sentence.numbers:
            continue
        number = sentence.numbers[0]
        told = _TOLD.match(speech.text, speech.offset_at(sentence.start))
        if len(sentence.numbers) > 1 or denied(case, number) or taken_back(case, at):
            return None
        if case.asks(sentence) and not (affirmed(case, at) or (told and told[0].startswith("did you"))):
            return None
        return number if told or is_lone(case, sentence, number) else None
    return None


def _shown(case: Case, riddle: Riddle) -> int | None:
    """The number of the picture that comes on after the clues, if it is the only one and shows one number."""
    last = case.sentences[riddle.last]
    shown = [
        seen.picture
        for seen in case.pictures_of(last.segment)
        if isinstance(seen.moment.direction, Show) and seen.moment.word >= last.end
    ]
    return _value(shown[0]) if len(shown) == 1 else None


def _value(picture: Picture) -> int | None:
    return picture.numbers[0] if isinstance(picture, Word) and len(picture.numbers) == 1 else amount(picture)
