"""How many pairs, bundles, gates or tens there are, told right after a count by twos, fives or tens (or right before
it), is how many numbers the count has ("Five, ten, fifteen, twenty. There are four gates.", "Six pairs, folks.
Two, four, six, eight, ten, twelve.")."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case, Sentence
from studio.agree.wording import of_number
from studio.findings import Finding
from studio.talk.model import Number, Statement
from studio.talk.statements.counts import step_of

NAME = "groups as counted"
_SIZES = {"pairs": (2,), "twos": (2,), "gates": (5,), "fives": (5,), "bundles": (5, 10), "tens": (10,), "hands": (5,)}
_TOLD = re.compile(
    rf" (?:(?:so|yes|and|there are|that is|we have|i have|that makes|i make it|it is|all|,) )*"
    rf"(#) ({'|'.join(_SIZES)})(?: (?:of (#)|of them|in all|altogether|now))?(?= [.,])"
)
_REACH = 3  # sentences


def find(case: Case) -> Iterator[Finding]:
    for count in case.talk.statements:
        if not (count.holds and count.kind.startswith("count on by")):
            continue
        step = step_of(count.values)
        if step not in (2, 5, 10) or count.values[0] not in (0, step):
            continue
        groups = count.values[-1] // step
        told = _after(case, count) or _before(case, count)
        if told is None:
            continue
        number, noun, size = told
        if step not in _SIZES[noun] or case.is_excused(number.start, number.end):
            continue
        if number.value != groups and (size is None or size.value == step):
            yield of_number(NAME, number, "",
                          f"Line {number.line} says {number.value} {noun}, but the count to {count.values[-1]} by "
                          f"{step} has {groups}.", f"Say {groups} {noun}, or change the count.")  # fmt: skip
        elif size is not None and size.value != step and number.value == groups:
            yield Finding(NAME, "error", size.line, size.column, size.text, "",
                          f"Line {size.line} says {noun} of {size.value}, but they were counted by {step}.",
                          f"Say {noun} of {step}, or change the count.")  # fmt: skip


_Told = tuple[Number, str, Number | None]


def _after(case: Case, count: Statement) -> _Told | None:
    """What is told of groups after a count, with nothing between but its last number and a question."""
    index = case.sentence_index(count.end - 1)
    _, last = case.sentences_around(index, 0, _REACH)
    if not _closes(case, count, case.sentences[index]):
        return None
    for sentence in case.sentences[index + 1 : last + 1]:
        told = _in(case, sentence)
        if told is not None:
            return told
        if any(value != count.values[-1] for value in sentence.values):
            return None
    return None


def _before(case: Case, count: Statement) -> _Told | None:
    index = case.sentence_index(count.start)
    first, _ = case.sentences_around(index, 1, 0)
    sentence = case.sentences[first]
    if first == index or case.sentences[index].start != count.start:
        return None
    return _in(case, sentence)


def _closes(case: Case, count: Statement, sentence: Sentence) -> bool:
    """Whether no other number stands after a count in its sentence ("five, ten, fifteen, and two more")."""
    return not case.numbers_between(count.end, sentence.end)


def _in(case: Case, sentence: Sentence) -> _Told | None:
    """The groups that a sentence tells of and nothing else."""
    if not 1 <= len(sentence.numbers) <= 2:
        return None
    speech = case.talk.speech
    number = sentence.numbers[0]
    offset = speech.offset_of[number.start]
    match = _TOLD.match(speech.text, speech.offset_at(sentence.start) - 1)
    if match is None or match.start(1) != offset:
        return None
    size = speech.number_at[match.start(3)] if match[3] else None
    return (number, match[2], size) if len(sentence.numbers) == (1 if size is None else 2) else None
