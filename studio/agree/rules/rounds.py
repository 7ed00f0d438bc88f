"""In a round of calls every answer is the partner of what is called: "Partners of seven. Five! [wait 3 s] Two. Four! [wait 3 s]
Three." Of 13,491 right lessons 15 are minded."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterator
from dataclasses import dataclass
from itertools import groupby, pairwise

from studio.agree.case import Case, Sentence
from studio.agree.manners import is_lone
from studio.agree.wording import of_number, spelled
from studio.findings import Finding
from studio.script.model import Wait
from studio.talk.model import Number

NAME = "round of partners"
_OTHERS = 2
"""Calls beside the odd one that come to the same whole; one is enough where partners are spoken of, or the title names the whole."""
_MANY = 3
"""Calls of a round after which it is sure what the whole is."""
_PARTNERS = frozenset("partner partners pair pairs".split())
_DOUBLES = frozenset("double doubles twice twin twins half halves".split())
_CHANGING, _GROUPING = ("more", "less"), ("of", "by", "all", "hold", "holds")
_HOW_MANY = frozenset(("many",))
_SMALL, _HUNDRED = 20, 100
_SOON, _LONG, _AFTER = 5, 40, 8
"""Words: from the wait to the answer, of a call, and after the sentence of the answer, where it may be told once more."""


@dataclass(frozen=True, slots=True)
class _Call:
    """What is said before a wait and not yet answered, and what is said after it: the first number and those behind it."""

    called: tuple[Number, ...]
    answer: Number
    behind: tuple[Number, ...]

    @property
    def whole(self) -> int:
        return self.called[-1].value + self.answer.value

    @property
    def more(self) -> int:
        return self.answer.value - self.called[-1].value


def find(case: Case) -> Iterator[Finding]:
    for segment, found in groupby(_calls(case), key=lambda call: case.talk.words[call.answer.start].segment):
        calls = [*found]
        times = Counter(call.whole for call in calls)
        fewest = {whole: _fewest(case, segment, whole) for whole in times}
        doubles = _says(case, segment, _DOUBLES)
        for at, call in enumerate(calls):
            beside = calls[max(0, at - 1) : at] + calls[at + 1 : at + 2]
            if any(other.more == call.more for other in beside):  # "Two? [wait 2 s] Eleven. Five? [wait 2 s] Fourteen."
                continue
            for whole in sorted({other.whole for other in beside}):
                least = fewest[whole]
                if least is not None and times[whole] - (call.whole == whole) >= least:
                    yield from _odd(case, call, whole, times, doubles)


def _fewest(case: Case, segment: int, whole: int) -> int | None:
    """How many other calls must come to a whole before it is that of the round; None where it is neither said nor stands in the title."""
    if whole in {number.value for number in case.title_numbers[segment]}:
        return 1
    if whole not in case.said_in(segment) or whole > _HUNDRED:
        return None
    return 1 if whole <= _SMALL and _says(case, segment, _PARTNERS) else _OTHERS


def _says(case: Case, segment: int, words: Container[str]) -> bool:
    """Whether any of these words is said in a segment, or stands in its title."""
    return case.says(*case.segments[segment], words) or any(word.plain in words for word in case.title_words[segment])


def _calls(case: Case) -> Iterator[_Call]:
    """What is asked and answered over a wait without words on the screen."""
    words = case.talk.words
    directions = () if case.lesson is None else case.lesson.directions
    waits = sorted({wait.at for wait in directions if isinstance(wait, Wait) and not wait.words})
    answered = 0
    for at, wait in enumerate(waits):
        if not 0 < wait < len(words):
            continue
        first, last = case.segment_around(wait)
        following = waits[at + 1] if at + 1 < len(waits) else last
        called = case.numbers_between(max(answered, first, wait - _LONG), wait)
        answers = case.numbers_between(wait, min(last, wait + _SOON))
        if answers:
            answered = case.sentences[case.sentence_index(answers[0].start)].end
            if called and not _asked_of_others(case, called[-1], wait):
                behind = case.numbers_between(answers[0].end, min(last, following, answered + _AFTER))
                yield _Call(tuple(called), answers[0], tuple(behind))


def _asked_of_others(case: Case, called: Number, wait: int) -> bool:
    """Whether a question before word `wait` asks how many there are, and neither it nor the sentence before calls the number."""
    index = case.sentence_index(wait - 1)
    return case.sentence_index(called.start) < index - 1 and case.has_word(case.sentences[index], _HOW_MANY)


def _odd(case: Case, call: _Call, whole: int, times: Counter[int], doubles: bool) -> Iterator[Finding]:
    """The finding where the answer is not the partner, and what is called is one number beside the whole and nothing else is meant."""
    called = [number for number in call.called if number.value != whole]
    if len(called) != 1 or case.is_excused(call.answer.start, call.answer.end):
        return
    number, answer = called[0], call.answer.value
    partner = whole - number.value
    if partner < 0 or partner in (answer, *(other.value for other in call.behind)) or _is_otherwise(case, number):
        return
    if call.whole == whole or answer in (number.value, whole, whole + number.value):
        return
    if doubles and number.value in (2 * answer, answer / 2):
        return
    together = number.value + answer
    if times[together] > (call.whole == together):  # it belongs to another round
        return
    sentence = case.sentences[case.sentence_index(call.answer.start)]
    both = any(other is not call.answer and answer + other.value == whole for other in sentence.numbers)
    if both and times[whole] < _MANY:  # both parts are told
        return
    steps = [after - before for before, after in pairwise([answer, *(other.value for other in call.behind)])]
    if steps and (steps[:2] == [steps[0]] * _OTHERS or (steps[0] == 1 and _goes_on(case, sentence, call.behind[0]))):
        return
    yield of_number(
        NAME,
        call.answer,
        "",
        f"Line {call.answer.line} answers {number.value} with {answer}; the others make {whole} together, and the partner of "
        f"{number.value} in {whole} is {partner}.",
        f"Say {spelled(partner)}, or change what you call.",
    )


def _goes_on(case: Case, sentence: Sentence, number: Number) -> bool:
    """Whether a number goes on with a count: it stands in the sentence, or alone in the next one."""
    following = case.sentences[case.sentence_index(number.start)]
    return number.start < sentence.end or is_lone(case, following, number)


def _is_otherwise(case: Case, number: Number) -> bool:
    """Whether it is no part of the whole: how many more come or go, how large groups are."""
    return case.says(number.end, number.end + 1, _CHANGING) or case.says(number.start - 1, number.start, _GROUPING)
