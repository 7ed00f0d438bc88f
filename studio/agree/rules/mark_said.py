"""The number that is marked or ringed is the number that is called out with it ("[chart: mark 15] Fifteen!"), or the one
that was just asked for ("Where is fifteen? [chart: mark 15]")."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.manners import denied, is_lone
from studio.agree.wording import of_number
from studio.findings import Finding
from studio.script.model import Circle, MarkNumber
from studio.talk.model import Number

NAME = "marked as told"
_REACH = 2  # sentences
_SOON = 12  # words
_OOPS = frozenset("oh oops no not wrong whoops mistake sorry wait".split())
_ASKED = re.compile(r" (?:where is|where's|where does|where can you see|who can see|can you (?:find|see)) "
                    r"(?:the |number |our )*(#) (?:live |sit |go |on (?:it|the [a-z]+(?: [a-z]+)?) )*\? ")  # fmt: skip
_CHOSEN = re.compile(r" (?:chose|chooses|choose|picked|picks) (?:the |number |card )*(#) [.] ")


def find(case: Case) -> Iterator[Finding]:
    yield from _called_out(case)
    yield from _asked_for(case, _ASKED)
    yield from _asked_for(case, _CHOSEN)


def _value(appearance: Appearance) -> int | None:
    """The number that a step marks or rings."""
    return appearance.change.value if isinstance(appearance.change, Circle | MarkNumber) else None


def _called_out(case: Case) -> Iterator[Finding]:
    for appearance in case.pictures:
        value = _value(appearance)
        if value is None:
            continue
        word = appearance.moment.word
        index = case.sentence_index(word)
        sentence = case.sentences[index]
        if sentence.start < word or sentence.segment != appearance.moment.direction.segment or not sentence.numbers:
            continue
        number = sentence.numbers[0]
        if number.value == value or not is_lone(case, sentence, number) or case.asks(sentence):
            continue
        first, last = case.sentences_around(index, _REACH, 1)
        around = case.numbers_between(case.sentences[first].start, case.sentences[last].end)
        if value in {other.value for other in around} or case.is_excused(sentence.start, sentence.end):
            continue  # "What goes with nine? [cards: circle 9] One!"
        yield _finding(case, appearance, number, value)


def _asked_for(case: Case, pattern: re.Pattern[str]) -> Iterator[Finding]:
    speech = case.talk.speech
    for match in pattern.finditer(speech.text):
        number = speech.number_at[match.start(1)]
        index = case.sentence_index(number.start)
        sentence = case.sentences[index]
        step = _next_step(case, index)
        if (
            step is None
            or _asks_on(case, index, step)
            or len(sentence.numbers) != 1
            or denied(case, number)
            or case.covering.get(number.start)
        ):
            continue
        if case.is_excused(sentence.start, sentence.end):
            continue
        value = _value(step)
        if value is None or value == number.value or case.numbers_between(number.end, step.moment.word):
            continue  # "Where is thirteen? One more is here: [chart: mark 14]"
        if case.says(step.moment.word, step.moment.word + _SOON, _OOPS):
            continue
        if pattern is _CHOSEN and _goes_on(case, sentence, step, value):
            continue
        yield _finding(case, step, number, value)


def _next_step(case: Case, index: int) -> Appearance | None:
    """The first picture step behind sentence `index`, if it comes soon."""
    _, last = case.sentences_around(index, 0, _REACH)
    end = case.sentences[index].end
    steps = case.pictures_of(case.sentences[index].segment)
    at = bisect_left(steps, end, key=lambda step: step.moment.word)
    return steps[at] if at < len(steps) and steps[at].moment.word <= case.sentences[last].end else None


def _asks_on(case: Case, index: int, step: Appearance) -> bool:
    """Whether something else is asked before the step ("Where is thirty-nine? Who sits above it? [chart: mark 29]")."""
    last = case.sentence_index(max(0, step.moment.word - 1))
    return any(case.asks(sentence) for sentence in case.sentences[index + 1 : last + 1])


def _goes_on(case: Case, sentence: Sentence, step: Appearance, value: int) -> bool:
    """Whether the step belongs to what is told next ("She chose four. Now, [cards: circle 6] six goes with it.")."""
    behind = case.sentences[case.sentence_index(step.moment.word)]
    return step.moment.word != sentence.end or value in behind.values


def _finding(case: Case, appearance: Appearance, number: Number, value: int) -> Finding:
    line = appearance.moment.direction.place.line
    return of_number(NAME, number, appearance.moment.direction.text,
                   f"Line {line} marks {value}, and the number told with it is {number.value}.",
                   f"Say {value}, or mark {number.value}.")  # fmt: skip
