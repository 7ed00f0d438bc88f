"""A number that is hummed in an even row, and told next: "Twenty-four, twenty-two, mmm, eighteen. [wait 2 s] Twenty.", "Five, ten,
something, twenty. What was it? Fifteen."; or left out, where that is the game: "I leave one out. Five, ten, twenty. [wait 3 s] Fifteen."

Values: the row with what is told in its gap. A row that no single number would make even is no count.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from studio.talk.model import Statement
from studio.talk.speech import Speech
from studio.talk.statements.counts import filled, repaired, step_of

_HUM = r"(?:m+|hm+|hum|beep|bleep|blank|buzz|bzz+|bz+t|quack|ribbit|croak|splash|something|gap|sh+|ps+t|tap|clap|plop)"
_ROW = re.compile(rf"(?:{_HUM} (?:, )?)?#(?: (?:, )?(?:and )?(?:#|{_HUM}))+(?= [.?])")
_IS_HUM = re.compile(rf"\b{_HUM}\b")
_TOLD = re.compile(r" [.?](?: \.)?(?: ¶)?(?: [^#.?¶§]{1,40}[?](?: ¶)?)? #(?= [.,?¶§]| (?:came|comes|is|was|goes) )")
_FEWEST = 4  # with the one that is hummed
_LEAVING = re.compile(
    r" (?:leave|leaves|left) (?:# |a number |some |something )?out | (?:missing|skip|skips|skipped|forgot|forgets) "
)
_LEFT_OUT = re.compile(r"(?<=[.?¶§:] )#(?: , (?:and )?#){2,} \. (?:¶ )?#(?= [.,!]| (?:was|is|were) )")
_FAR = 400  # characters


def find(speech: Speech) -> Iterator[Statement]:
    """Rows of four or more numbers, one of which is hummed or left out."""
    text = speech.text
    yield from _left_out(speech)
    for match in _ROW.finditer(text):
        hums = [*_IS_HUM.finditer(text, *match.span())]
        told = _TOLD.match(text, match.end())
        if len(hums) != 1 or told is None:
            continue
        hum = hums[0].start()
        before = [number.value for number in speech.numbers_in(match.start(), hum)]
        after = [number.value for number in speech.numbers_in(hum, match.end())]
        row = (*before, speech.value_at(told.end() - 1), *after)
        if len(row) >= _FEWEST and _is_meant_even(row):
            yield _row(speech, row, match.start(), told.end())


def _left_out(speech: Speech) -> Iterator[Statement]:
    """Rows of which a number is left out and told after a wait, where leaving out is spoken of before or after."""
    text = speech.text
    if not _LEAVING.search(text):
        return
    for match in _LEFT_OUT.finditer(text):
        first, last = max(0, match.start() - _FAR), match.end() + _FAR
        first = max(first, text.rfind("§", first, match.start()))
        end = text.find("§", match.end(), last)
        if not _LEAVING.search(text, first, last if end < 0 else end):
            continue
        *row, told = (number.value for number in speech.numbers_in(*match.span()))
        if told == row[-1]:
            continue  # "Fourteen, fifteen, sixteen, eighteen. Eighteen!": one of them is called out
        rows = [one for one in filled(row, told) if _is_meant_even(one)]
        if rows and step_of(row) is None:
            yield _row(speech, min(rows, key=lambda one: step_of(one) is None), *match.span())


def _is_meant_even(row: Sequence[int]) -> bool:
    """Whether it goes on evenly, or would if one of its numbers were another."""
    return step_of(row) is not None or len(repaired(row) or ()) == len(row)


def _row(speech: Speech, row: tuple[int, ...], start: int, end: int) -> Statement:
    return speech.statement("even row", row, step_of(row) is not None, start, end, ", ".join(map(str, row)))
