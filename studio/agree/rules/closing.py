"""A closing sentence has the number that was just found: "Nine plus seven equals sixteen. There are sixteen newts.",
"Eight plus eight equals sixteen. Sixteen cousins, and only one bath", and after a count that takes away or puts there:
"Eleven, ten, nine. Nine fish were left"."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case, Sentence
from studio.agree.looks import visible
from studio.agree.wording import UNITS, of_number
from studio.findings import Finding
from studio.script.model import Add, ChangePicture, TakeAway
from studio.talk.expressions import STOP, WORD
from studio.talk.model import Number, Statement

NAME = "closes with its answer"
_CLOSING = re.compile(
    rf"(?P<lead>(?:(?:so|yes|that is|there are|that makes|now there are|we have) ,? ?)*)#(?:{WORD}){{0,2}}? "
    rf"(?P<noun>(?!(?:{STOP}) )[a-z]+)(?: altogether| in all| left)? (?P<end>[.,])"
)
_OF_ALL = re.compile(
    rf"(?:(?:so|yes|now|that is|that's|then|and|there are|there were|we have|it is) ,? ?)*#(?:{WORD}){{0,2}}? "
    r"(?:(?:are|were|is|was|have|has|had) )?(?:(?:all|still|now) )?"
    r"(?:left|gone|stay|stayed|stays|remain|remained|came|come|went|hopped|swam|flew|slid|dived|joined|vanished|here|"
    r"there|altogether|in all|more)(?= )"
)
_LEAD = 3  # words
_SOON = 6  # words, up to the first that is counted
_FAR = 500  # characters
_WIDE = 250  # words around a sentence
_NOT_COUNTED = frozenset("pairs tens ones more less fewer left dots crosses fives twos bundles".split())
_ASKED = re.compile(r"how many (?:[a-z]+ ){0,2}?(?P<noun>[a-z]+) (?:are|is|were|was|do|does|did|have|has|will|can|\?)")


def find(case: Case) -> Iterator[Finding]:
    yield from _after_counts(case)
    for statement in case.talk.statements:
        if not statement.holds or " = " not in statement.written or not _found(statement):
            continue
        index = case.sentence_index(statement.end - 1)
        if case.sentences[index].end != statement.end or index + 1 >= len(case.sentences):
            continue
        sentence = case.sentences[index + 1]
        if sentence.segment != case.sentences[index].segment or case.is_excused(sentence.start, sentence.end):
            continue
        number = _closing(case, sentence)
        answer = statement.values[-1]
        if number is None or number.value in statement.values:
            continue
        yield of_number(NAME, number, "",
                      f"“{statement.said}” comes to {answer}, and line {number.line} goes on with {number.value}.",
                      f"Say {answer}.")  # fmt: skip


def _after_counts(case: Case) -> Iterator[Finding]:
    """What is said right after a picture was counted on or back: how many there are, or how many came or went."""
    for count in case.bound_counts:
        change = getattr(count.direction, "change", None)
        if not isinstance(change, Add | TakeAway) or not count.words:
            continue
        index = case.sentence_index(count.words[-1]) + 1
        if index >= len(case.sentences):
            continue
        sentence = case.sentences[index]
        if sentence.segment != count.direction.segment or len(sentence.numbers) != 1 or case.asks(sentence):
            continue
        number = _told_of_all(case, sentence)
        ends = count.values[-1]
        known = {count.base, abs(ends - count.base), ends}
        for seen in case.on_screen(sentence.start, sentence.end + 1):
            known |= visible(seen.picture)
        if number is None or number.value in known or _comes_next(case, sentence, number):
            continue
        if case.is_excused(sentence.start, sentence.end):
            continue
        yield of_number(NAME, number, count.direction.text,
                      f"The count on line {case.line_of(count.words[-1])[0]} ends with {ends}, and line {number.line} "
                      f"goes on with {number.value}.",
                      f"Say {ends}, or {abs(ends - count.base)} for what was counted.")  # fmt: skip


def _told_of_all(case: Case, sentence: Sentence) -> Number | None:
    """The number of a sentence that begins with how many are there, came or went ("Nine fish were left")."""
    speech, number = case.talk.speech, sentence.numbers[0]
    told = _OF_ALL.match(speech.text, speech.offset_at(sentence.start))
    return number if told and number.start - sentence.start <= _LEAD + 2 else None


def _comes_next(case: Case, sentence: Sentence, number: Number) -> bool:
    """Whether so many are put there or taken away with it or right after it ("And two more. [frame: add 2 dots, counting]")."""
    return any(
        isinstance(moment.direction, ChangePicture)
        and isinstance(moment.direction.change, Add | TakeAway)
        and moment.direction.change.count == number.value
        and moment.direction.at <= sentence.end
        for moment in case.moments_between(sentence.start - 1, sentence.end + _SOON)
    )


def _found(statement: Statement) -> bool:
    return statement.kind in ("sum", "difference", "double", "near double") and statement.written.endswith(
        f"= {statement.values[-1]}"
    )


def _closing(case: Case, sentence: Sentence) -> Number | None:
    """The first number of a sentence that tells, without a verb, how many there are of what is counted."""
    speech = case.talk.speech
    if not sentence.numbers or sentence.numbers[0].start - sentence.start > _LEAD:
        return None
    number = sentence.numbers[0]
    start = speech.offset_at(sentence.start)
    match = _CLOSING.match(speech.text, start)
    if match is None or match["noun"] in UNITS or match["noun"] in _NOT_COUNTED:
        return None
    begin, _ = case.segment_around(sentence.start)
    words = case.talk.words
    nouns = {word.plain for word in words[max(begin, sentence.start - _WIDE) : sentence.start]}
    if match["noun"] not in nouns:
        return None
    asked = any(found["noun"] == match["noun"] for found in _ASKED.finditer(speech.text, max(0, start - _FAR), start))
    if asked or number.value not in _known(case, sentence, number):
        return number
    return None


def _known(case: Case, sentence: Sentence, number: Number) -> set[int]:
    """What it may count: what else is said in the segment, or can be seen."""
    start, end = case.segment_around(sentence.start)
    around = case.numbers_between(max(start, sentence.start - _WIDE), min(end, sentence.end + _WIDE))
    known = {other.value for other in around if other is not number}
    for seen in case.on_screen(sentence.start, sentence.end + 1):
        known |= visible(seen.picture)
    return known
