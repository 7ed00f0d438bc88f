"""What is said of a ring or a mark is what the screen shows ("The five gets a ring", "I put a ring around the
seven", "Which number shall we ring? The four.")."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.wording import of_number, row
from studio.findings import Finding
from studio.talk.model import Number

NAME = "ring as said"
_SAID = (
    re.compile(
        r" (?:ring|circle) (?:is |goes |it |sits |go |belongs )*(?:round|around|on) (?:the |our )?(#)(?= [.,?])"
    ),
    re.compile(
        r" (?:the|our|a) (#) (?:gets|is|has|wears|goes|went)(?: in| into| a| its| the)* (?:ring|ringed|circle|circled)(?= )"
    ),
    re.compile(r" (?:ring|circle) (?:the )(#)(?= [.,?])"),
)


_RINGS = frozenset("ring rings circle circles ringed circled".split())
_WITHOUT = frozenset("no not without yet".split())
_BESIDE = frozenset("left right beside next before after between".split())
_ASKING = frozenset("which what".split())


def _said(case: Case) -> Iterator[tuple[int, Number]]:
    """The numbers that are said to have a ring, with the sentences they stand in."""
    for pattern in _SAID:
        for match in pattern.finditer(case.talk.speech.text):
            number = case.talk.speech.number_at[match.start(1)]
            yield case.sentence_index(number.start), number


def _answered(case: Case) -> Iterator[tuple[int, Number]]:
    """The only number of a sentence that begins with it and answers which one is to have a ring."""
    for index, sentence in enumerate(case.sentences):
        if len(sentence.numbers) != 1 or sentence.numbers[0].start - sentence.start > 1 or case.asks(sentence):
            continue
        question = case.question_before(index)
        if question is None or case.has_word(question, _WITHOUT) or case.has_word(question, _BESIDE):
            continue  # "Which number has no ring yet?", "Which card hangs to the left of my ring?"
        if case.has_word(question, _RINGS) and case.has_word(question, _ASKING):
            yield index, sentence.numbers[0]


def find(case: Case) -> Iterator[Finding]:
    text = case.talk.speech.text
    if not case.pictures or not any(word in text for word in (" ring", " circle")):
        return
    for index, number in (*_said(case), *_answered(case)):
        sentence = case.sentences[index]
        last = min(index + 1, len(case.sentences) - 1)
        seen = case.on_screen(sentence.start, case.sentences[last].end + 1)
        ringed = {value for appearance in seen for value in getattr(appearance.picture, "ringed", ())}
        if not ringed or number.value in ringed or case.is_excused(sentence.start, sentence.end):
            continue
        yield of_number(NAME, number, "",
                      f"Line {number.line} speaks of a ring round {number.value}, but the ring is round "
                      f"{row(sorted(ringed))}.", f"Say {row(sorted(ringed), 'or')}.")  # fmt: skip
