"""A story is worked with the numbers that it tells: after "14 newts by the bridge and 9 newts by the willow" the bars
are 14 and 9. Where the first picture after it has all of the numbers but one, was given another that was not told, and
the story's own never comes back, one of the two is a slip. The same holds for a story that asks and is worked in
pictures and sums: after "Thirteen toads, five got across. How many are left?" not from 16 and 5."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.hops import ways_around
from studio.agree.looks import relation
from studio.agree.tellings import Telling, outside_counts, steps, tellings
from studio.agree.wording import UNITS, of_number, row
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.marks import MarkPicture
from studio.pictures.wholes import WholePicture
from studio.script.model import Add, Hop, Show, TakeAway
from studio.talk.expressions import STOP
from studio.talk.model import Number
from studio.talk.relations import relations

NAME = "worked as told"

_Fact = tuple[int, tuple[int, ...]]
_NOT_TOLD = frozenset(
    "make makes plus minus equals equal between frame frames row rows ten tens bond bar line path jump jumps hop hops "
    "count partner partners double doubles number sum if suppose pretend".split()
)
_FEWEST, _MOST = 2, 3  # numbers of a story
_GUESSING = frozenset("guess guessing try trying".split())
_SOON = 8  # words
_STEPS = 40  # picture steps after it
_WIDE = 400  # words after it
_NO_NOUN = re.compile(rf"{STOP}|just|before|after|of")


def find(case: Case) -> Iterator[Finding]:
    yield from _told_without_question(case)
    for telling in tellings(case):
        found = _worked_otherwise(case, telling)
        if found is None:
            continue
        number, (whole, parts) = found
        if case.is_excused(telling.story.start, telling.story.end):
            continue
        yield of_number(NAME, number, "",
                      f"The story on line {telling.story.line} tells {row(telling.story.told)}, and it is worked as "
                      f"{whole} with the parts {row(parts)}; {number.value} never comes back.",
                      f"Tell numbers of {whole} with the parts {row(parts)}, or work with {number.value}.")  # fmt: skip


def _worked_otherwise(case: Case, telling: Telling) -> tuple[Number, _Fact] | None:
    """The number of a story that never comes back, and the first fact it is worked with; None where all do."""
    told = case.numbers_between(telling.story.start, telling.story.end)
    values = [number.value for number in told]
    if sorted(values) != sorted(telling.story.told) or len(set(values)) < len(values):
        return None
    later = telling.story.end
    everything = _facts(case, later, telling.until)
    facts = [fact for fact in everything if set(values) & {fact[0], *fact[1]}]
    if not facts:
        return None
    whole, parts = facts[0]
    numbers = {whole, *parts}
    odd = [number for number in told if number.value not in numbers]
    rest = [value for value in values if value in numbers]
    if len(odd) != 1 or len(parts) != len(telling.parts):
        return None
    if facts.count(facts[0]) < 2 and not numbers <= {
        number.value for number in case.numbers_between(later, telling.until)
    }:
        return None
    if any(telling.answer in (one, *others) for one, others in everything) and telling.answer not in values:
        return None  # in steps, and its answer is found
    if any((value == telling.whole) != (value == whole) for value in rest):
        return None
    if odd[0].value == sum(hop.at < later for hop in ways_around(case, odd[0].start)):
        return None  # "[path: hop 5 to 10] Two steps, and only as far as ten": the hops so far
    if _by_places(odd[0].value, numbers) and telling.answer in {
        number.value for number in case.numbers_between(later, telling.until)
    }:
        return None
    if outside_counts(case, odd[0].value, later, telling.until) or any(
        odd[0].value in seen.shows for seen in telling.pictures
    ):
        return None
    return odd[0], facts[0]


def _by_places(odd: int, numbers: set[int]) -> bool:
    """Whether only the tens of a number, or only its ones, are worked with first ("Fifty and twenty is seventy, and the
    eight, 78", for 58 and 20)."""
    return odd > 10 and not numbers.isdisjoint({odd - odd % 10, odd % 10} - {0})


def _facts(case: Case, start: int, end: int) -> list[_Fact]:
    """What pictures and true sums from word `start` to before word `end` say of a whole and its parts, in order."""
    found: list[tuple[int, _Fact]] = []
    for statement in case.statements_between(start, end):
        if statement.holds:
            found += [(statement.start, (told.whole, tuple(sorted(told.parts)))) for told in relations(statement)]
    for seen in steps(case, start, end):
        if seen.moment.number is None or not isinstance(seen.change, Add | TakeAway):
            found += [(seen.moment.word, fact) for fact in _shown(seen)]
    return [fact for _, fact in sorted(found) if all(fact[1])]


def _shown(seen: Appearance) -> Iterator[_Fact]:
    """What a picture step says of a whole and its parts; a hop says it of the number further up."""
    match seen.picture, seen.change:
        case (CompareBars(upper=one, lower=other), _) | (_, Hop(start=one, end=other)):
            low, high = sorted((one, other))
            yield high, tuple(sorted((low, high - low)))
        case picture, _ if (shown := relation(picture)) is not None:
            yield shown.whole, tuple(sorted(shown.parts))


def _told_without_question(case: Case) -> Iterator[Finding]:
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
        if case.says(sentence.end, min(sentence.end + _SOON, len(case.talk.words)), _GUESSING):
            continue  # "There are nine snails. [bond: 9 is 8 and 1] Shall we guess?"
        if untold[0] not in later or number.value in later or any(number.value in seen.shows for seen in shown):
            continue
        direction = first.moment.direction
        if case.is_excused(told[0].start, told[-1].end) or direction.place.line in case.excused:
            continue
        yield of_number(NAME, number, direction.text,
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
