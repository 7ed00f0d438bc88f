"""A story is worked with the numbers that it tells: after "14 newts by the bridge and 9 newts by the willow" the bars
are 14 and 9. Where the first picture after it has all of the numbers but one, was given another that was not told, and
the story's own never comes back, one of the two is a slip."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.wording import UNITS, row
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.marks import MarkPicture
from studio.pictures.wholes import WholePicture
from studio.script.model import Add, Show, TakeAway
from studio.talk.expressions import STOP
from studio.talk.model import Number

NAME = "worked as told"


_NOT_TOLD = frozenset(
    "make makes plus minus equals equal between frame frames row rows ten tens bond bar line path jump jumps hop hops "
    "count partner partners double doubles number sum if suppose pretend".split()
)
_FEWEST, _MOST = 2, 3  # numbers of a story
_STEPS = 40  # picture steps after it
_WIDE = 400  # words after it
_NO_NOUN = re.compile(rf"{STOP}|just|before|after|of")


def find(case: Case) -> Iterator[Finding]:
    for index, told in _stories(case):
        sentence = case.sentences[index]
        shown = _shown_after(case, sentence)
        if not shown:
            continue
        first, values = shown[0], _given(shown)
        amounts = [number.value for number in told]
        odd = [number for number in told if number.value not in values]
        untold = [value for value in values if value not in amounts]
        if len(odd) != 1 or len(untold) != 1 or len(values) != len(told):
            continue
        number, later = odd[0], _said_later(case, sentence.end, first)
        if untold[0] not in later or number.value in later or any(number.value in seen.shows for seen in shown):
            continue
        direction = first.moment.direction
        if case.is_excused(told[0].start, told[-1].end) or direction.place.line in case.excused:
            continue
        yield Finding(NAME, "error", number.line, number.column, number.text, direction.text,
                      f"Line {number.line} tells {row(amounts)}, and line {direction.place.line} has {row(values)}.",
                      f"Tell {untold[0]} instead of {number.value}, or show {number.value}.")  # fmt: skip


def _stories(case: Case) -> Iterator[tuple[int, list[Number]]]:
    """The last sentence of each paragraph that tells two or three amounts and no arithmetic, and these amounts."""
    sentences = case.sentences
    start = 0
    for at in range(1, len(sentences) + 1):
        if at < len(sentences) and sentences[at].paragraph == sentences[start].paragraph:
            continue
        told = [number for sentence in sentences[start:at] for number in sentence.numbers]
        if _FEWEST <= len(told) <= _MOST and _is_told(case, sentences[start:at], told):
            yield at - 1, told
        start = at


def _is_told(case: Case, sentences: Sequence[Sentence], told: list[Number]) -> bool:
    """Whether things are told of while nothing is shown yet, and nothing is worked out."""
    start, end = sentences[0].start, sentences[-1].end
    words = case.talk.words
    noun = words[told[0].end].plain if told[0].end < end else ""
    return (
        len({number.value for number in told}) == len(told)
        and words[told[0].end - 1].text[-1:].isalnum()
        and not _NO_NOUN.fullmatch(noun)
        and noun not in UNITS
        and not case.says(start, end, _NOT_TOLD)
        and not any(case.asks(sentence) for sentence in sentences if sentence.numbers)
        and not any(case.covering.get(number.start) for number in told)
        and not case.on_screen(start, told[-1].end)
    )


def _shown_after(case: Case, story: Sentence) -> Sequence[Appearance]:
    """The pictures that come on after a story, in its segment or else in the next."""
    for segment in (story.segment, story.segment + 1):
        pictures = case.pictures_of(segment)
        at = bisect_left(pictures, story.end, key=lambda seen: seen.moment.word)
        if at < len(pictures):
            return pictures[at : at + _STEPS]
    return ()


def _given(shown: Sequence[Appearance]) -> list[int]:
    """The numbers that the first of some pictures is given, with what is added to it or taken from it later."""
    first = shown[0]
    values = _values(first.picture)
    if not isinstance(first.picture, MarkPicture | Rekenrek):
        return values
    steps: dict[int, int] = {}  # a change that is counted has a step for each number
    for seen in shown[1:]:
        if seen.moment.name != first.moment.name:
            continue
        if isinstance(seen.moment.direction, Show):
            break
        if isinstance(seen.change, Add | TakeAway):
            steps[id(seen.moment.direction)] = seen.change.count
    return [*values, *steps.values()]


def _values(picture: Picture) -> list[int]:
    match picture:
        case CompareBars() | Rekenrek():
            return [value for value in (picture.upper, picture.lower) if value]
        case MarkPicture():
            return [value for value in (picture.dots, picture.crosses) if value]
        case NumberSentence() if len(picture.terms) == 3:
            return [term.value for term in picture.terms if term.value is not None][:2]
        case WholePicture():
            return [value for value in picture.values if value is not None]
        case _:
            return []


def _said_later(case: Case, end: int, first: Appearance) -> set[int]:
    """What is said after the story up to the end of the segment of its picture."""
    until = case.segment_around(min(first.moment.word, len(case.talk.words) - 1))[1]
    return {number.value for number in case.numbers_between(end, min(until, end + _WIDE))}
