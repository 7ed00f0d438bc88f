"""The header and the words agree: the lesson's number, and how many things the child is to have ready."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.wording import of_number
from studio.findings import Finding, Level
from studio.talk.numbers import find_numbers, words_of

NAME = "header agrees"
_OTHER_LESSON = re.compile(
    r"last|yesterday|next|tomorrow|monday|tuesday|wednesday|thursday|friday|saturday|sunday|before|remember|back in|meet|see you|until|again"
)
_THIS_LESSON = re.compile(
    r"(?:^|[.,?¶§]|\b(?:is|welcome(?: back)? to|for|begin|start|our|today|friends|ready for|was|end of|finished|done with))(?: (?:now|math|maths|the|our))* ?$"
)
_OF_A_BOOK = re.compile(r" (?:in|of|from) (?:the|our|your|my) [a-z]*book ")  # it counts its own lessons
_SENTENCE = re.compile(r"(?<=[.?¶§]) ")
_FAR = 80  # characters


def find(case: Case) -> Iterator[Finding]:
    if case.lesson is None:
        return
    header = case.lesson.header
    speech = case.talk.speech
    if header.number is not None:
        for match in re.finditer(r" (?:lesson|lesson number) (#)(?= [.,?¶§a-z])", speech.text):
            number = speech.number_at[match.start(1)]
            before = _SENTENCE.split(speech.text[max(0, match.start() - _FAR) : match.start() + 1])[-1].rstrip()
            if _OF_A_BOOK.match(speech.text, match.end()):
                continue
            if number.value != header.number and not _OTHER_LESSON.search(before):
                level: Level = "error" if _THIS_LESSON.search(before) else "note"
                yield Finding(NAME, level, number.line, number.column, f"lesson {number.text}", "",
                              f"Line {number.line} says lesson {number.value}, but the header says number "
                              f"{header.number}.", f"Say lesson {header.number}, or change the header.")  # fmt: skip
    for need in header.needs:
        words = words_of(need)
        for wanted in find_numbers(words):
            if wanted.form not in ("word", "digits") or wanted.end >= len(words):
                continue
            thing = words[wanted.end].plain
            if len(thing) < 4 or ends_list(words[wanted.end - 1].text):
                continue
            pattern = re.compile(
                rf"(?:get|you need|you will need|have your|have you got|bring|find|take out|fetch|grab|collect)(?: (?:your|our|the|out|some|ready|you|all))* (#)(?: [a-z]+)? {re.escape(thing)}(?= )"
            )
            for match in pattern.finditer(speech.text):
                number = speech.number_at[match.start(1)]
                if case.talk.words[number.start].segment > 0:
                    continue
                if number.value != wanted.value and number.value > 1:
                    yield of_number(NAME, number, "",
                                  f"Line {number.line} says {number.value} {thing}, but the header asks for “{need}”.",
                                  f"Say {wanted.value} {thing}, or change needs in the header.")  # fmt: skip


def ends_list(text: str) -> bool:
    return text[-1:] in ",;."
