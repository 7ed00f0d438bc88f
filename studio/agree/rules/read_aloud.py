"""What is written in signs on the screen is read aloud with its own numbers, when that is done right after it comes on ("[show number
sentence: 8 - ? = 6] Eight take away something is six.", "[show text: 15 = 9 + 5] Fifteen equals nine plus five. Is that so?")."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from studio.agree.case import Appearance, Case
from studio.agree.wording import of_number, spelled
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.pictures.kinds.text import Text
from studio.pictures.wholes import WholePicture
from studio.script.model import Show, Term
from studio.talk.model import Number

NAME = "read as written"
_SOON = 3  # sentences
_READINGS = 2
"""Sentences with numbers, from when it comes on, in which it may be read aloud."""
_TEN = 10
_WRITTEN = re.compile(r"\s*(?:\d+|\?)(?:\s*[+−-]\s*(?:\d+|\?))*\s*=\s*(?:\d+|\?)(?:\s*[+−-]\s*(?:\d+|\?))*\s*")
_TERM = re.compile(r"([+−-]?)\s*(\d+|\?)")

_NOUN = r"(?: (?!(?:plus|minus|and|is|are|take|takes|less|equals?|makes?|gives?|from|more|turned|swapped|tens?|ones?|rods?|bundles?) )[a-z'’-]+){0,2}"
_NUMBER = rf"#{_NOUN}"
_UNKNOWN = (
    r"(?:what|which|something|how many|some|(?:a|some)(?: missing)? number|(?:a )?(?:blank|gap|box|hole|question mark))"
    r"(?: (?:more|else|number|part))?"
)
_PLUS = r" (?:plus|and|add|with|plus another|and another|added to|together with)(?: the)?"
_MINUS = r" (?:minus|take away|takes away|less|without|subtract|taking away)(?: the)?"
_EQUALS = (
    r"(?:(?: ,)? (?:equals?|is|are|makes?|leaves?|is equal to|(?:is )?the same as|is as much as|comes? to|weighs?|"
    r"(?:would|must|will|can) be)| gives?)(?: the)?"
)
_NO_MORE = r"(?! (?:plus|minus|and|more|less|take away|times) )(?= )"
_SIGN = r" (?:plus|minus|take away|less)"
"""Words for signs that are no other way of speaking."""

_Side = tuple[Term, ...]


@dataclass(frozen=True, slots=True)
class _Reading:
    """How something written is read aloud, and the numbers that are said then, in their order; `asks` where only what is to be worked out
    is read ("Six plus nothing?"), `is_open` where one number is not known."""

    pattern: re.Pattern[str]
    values: tuple[int, ...]
    asks: bool = False
    is_open: bool = False


def find(case: Case) -> Iterator[Finding]:
    for seen in case.pictures:
        direction = seen.moment.direction
        if not isinstance(direction, Show) or direction.place.line in case.excused:
            continue
        for number, right in _misread(case, seen):
            yield of_number(
                NAME,
                number,
                direction.text,
                f"Line {number.line} reads aloud what [{direction.text}] on line {direction.place.line} writes, but says "
                f"{number.value} where {right} stands.",
                f"Say {spelled(right)}, or change the direction.",
            )


def _misread(case: Case, seen: Appearance) -> Iterator[tuple[Number, int]]:
    """The one number in which the first reading of what stands there differs from it, and what stands there. Where other pictures come on
    they are read, and where several equations stand there any of them may be."""
    readings = _readings(_sides(seen.picture))
    word, segment = seen.moment.word, seen.moment.direction.segment
    index = case.sentence_index(word)
    if not readings or case.sentences[index].segment != segment:
        return
    _, last = case.sentences_around(index, 0, _SOON)
    until = min(
        [seen.until, *(one.word for one in case.moments_between(word, seen.until) if isinstance(one.direction, Show))]
    )
    told = [(max(word, one.start), min(until, one.end)) for one in case.sentences[index : last + 1]]
    heard = [(start, end) for start, end in told if case.numbers_between(start, end)]
    beside = [one for one in case.on_screen_at(word) if one is not seen and _sides(one.picture)]
    for at, (start, end) in enumerate(heard[:_READINGS]):
        for reading in readings:
            said = _read(case, start, end, reading) if not at or reading.is_open else ()
            if not said:
                continue
            wrong = [
                (number, right) for number, right in zip(said, reading.values, strict=True) if number.value != right
            ]
            if len(wrong) == 1 and not (
                beside or case.is_excused(start, end) or _is_meant(case, start, reading, *wrong[0])
            ):
                yield from wrong
            if len(wrong) < _READINGS:
                return


def _is_meant(case: Case, start: int, reading: _Reading, number: Number, right: int) -> bool:
    """Whether something else is claimed ("What if I claim that …?"), it is a round number close by ("82 - 29. I think of 82 - 30.",
    "50 - 37? First 50 - 30."), or one of something ("Six and five is one name.")."""
    is_round = number.value % _TEN == 0 and abs(number.value - right) < _TEN
    is_one_of = number.value == 1 and case.talk.words[number.end - 1].text[-1:].isalnum()
    return (reading.asks and is_round) or is_one_of or case.says(start, number.start, ("claim",))


def _read(case: Case, start: int, end: int, reading: _Reading) -> Sequence[Number]:
    """The numbers with which it is read aloud from word `start` to before word `end`; none where it is not."""
    speech = case.talk.speech
    first, last = speech.offset_at(start), speech.offset_at(end) + 2
    match = (reading.pattern.match if reading.asks else reading.pattern.search)(speech.text, first, last)
    return speech.numbers_in(*match.span()) if match else ()


def _sides(picture: Picture) -> tuple[_Side, ...]:
    """What is on both sides of the equals sign of something written; nothing for what is no such thing."""
    match picture:
        case NumberSentence() if len(picture.sides) == 2:
            return picture.sides
        case WholePicture():
            return (Term("+", picture.whole),), tuple(Term("+", part) for part in picture.parts)
        case Text() if _WRITTEN.fullmatch(" ".join(picture.lines)):
            return tuple(
                tuple(
                    Term("-" if sign in ("-", "−", "–") else "+", None if value == "?" else int(value))
                    for sign, value in _TERM.findall(side)
                )
                for side in " ".join(picture.lines).split("=")
            )
    return ()


@lru_cache(maxsize=64)
def _readings(sides: tuple[_Side, ...]) -> tuple[_Reading, ...]:
    """In which ways two sides are read: from left to right, from right to left where that is said of a whole and its parts, and
    the one side alone where the other is asked for."""
    if not sides:
        return ()
    left, right = sides
    found = [_reading(left, right)]
    if len(left) == 1 and len(right) > 1 and all(term.sign == "+" for term in right):
        found.append(_reading(right, left))
    if len(left) > 1 and [term.value for term in right] == [None]:
        found.append(_Reading(re.compile(_side(left, _SIGN) + r"(?= [.,?])"), _values(left), True))
    return tuple(one for one in found if len(one.values) > 1)


def _reading(one: _Side, other: _Side) -> _Reading:
    pattern = re.compile(f"{_side(one)}{_EQUALS} {_side(other)}{_NO_MORE}")
    return _Reading(pattern, _values(one) + _values(other), is_open=any(term.value is None for term in one + other))


def _side(side: _Side, sign: str = "") -> str:
    terms = [_NUMBER if term.value is not None else _UNKNOWN for term in side]
    signs = [sign or (_PLUS if term.sign == "+" else _MINUS) for term in side[1:]]
    return terms[0] + "".join(f"{joined} {term}" for joined, term in zip(signs, terms[1:], strict=True))


def _values(side: _Side) -> tuple[int, ...]:
    return tuple(term.value for term in side if term.value is not None)
