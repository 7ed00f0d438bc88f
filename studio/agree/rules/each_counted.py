"""Groups are counted by as many as each has ("There are four rows with three holes in each row. Three, six, nine, twelve."), and things
that are told before they are counted in steps are as many as the steps ("Seven feet: five, ten, fifteen, …")."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.wording import of_number, spelled
from studio.findings import Finding
from studio.talk.model import Number
from studio.talk.numbers import PLURALS
from studio.talk.statements.counts import step_of

NAME = "counted by as many as each has"
_HAS = r"(?:has|holds|have|shows|gets|takes|carries|costs|with|needs)"
_EACH = re.compile(
    r" (?:(?P<in>#)(?: (?!numbers )[a-z]+){1,2} (?:in|for|on|to|at) (?:each|every) [a-z]+|"
    rf"(?:each|every)(?: of (?:the|these|them))?(?: [a-z]+){{0,2}} {_HAS} (?P<has>#)|(?:a|one) [a-z]+ holds (?P<holds>#)) "
)
_RUN = re.compile(r"(?<= )# (?:, # )+(?:(?:, )?and # )?")
_THINGS = re.compile(r"(?<=[.?¶§] )(?P<many>#) (?!in )[a-z]+(?: [a-z]+)? , (?P<run>(?:# , )+#)(?= )(?! , and )")
_BACK = 4  # sentences
_FEWEST = 3  # numbers of a count that is behind how many things there are


def find(case: Case) -> Iterator[Finding]:
    yield from _sizes(case)
    yield from _many(case)


def _sizes(case: Case) -> Iterator[Finding]:
    """How many each has, said shortly before a count from the first group on."""
    speech = case.talk.speech
    told = [speech.number_at[match.start(match.lastgroup or 0)] for match in _EACH.finditer(speech.text)]
    if not told:
        return
    for match in _RUN.finditer(speech.text):
        run = speech.numbers_in(*match.span())
        step = _step(run)
        if step < 2 or case.is_excused(run[0].start, run[-1].end):
            continue
        first, _ = case.sentences_around(case.sentence_index(run[0].start), _BACK, 0)
        start = case.sentences[first].start
        each = [number for number in told if start <= number.start < run[0].start]
        said = {number.value for number in case.numbers_between(start, run[0].start)}
        said |= {PLURALS[word.plain] for word in case.talk.words[start : run[0].start] if word.plain in PLURALS}
        if not each or each[-1].value == 1 or step in said:
            continue
        number = each[-1]
        if not case.says(case.sentences[case.sentence_index(number.start)].start, number.start, ("if",)):
            yield of_number(
                NAME, number, "",
                f"Line {number.line} says that each has {number.value}, but they are counted by {step}: "
                f"{', '.join(str(one.value) for one in run)}.", f"Say {spelled(step)}, or count by {number.value}.",
            )  # fmt: skip


def _many(case: Case) -> Iterator[Finding]:
    """How many things there are, said right before a count by so many as each has."""
    speech = case.talk.speech
    for match in _THINGS.finditer(speech.text):
        number, run = speech.number_at[match.start("many")], speech.numbers_in(*match.span("run"))
        step = _step(run)
        if step < 2 or len(run) < _FEWEST or number.value in (len(run), run[-1].value, step):
            continue
        if not case.is_excused(number.start, run[-1].end):
            yield of_number(
                NAME, number, "",
                f"Line {number.line} says {number.value}, but {len(run)} are counted by {step}, to {run[-1].value}.",
                f"Say {spelled(len(run))}, or change the count.",
            )  # fmt: skip


def _step(run: list[Number]) -> int:
    """The steps of a count that begins with one of them; nought for another row."""
    first = run[0].value
    return first if step_of([number.value for number in run]) == first else 0
