"""How many more or fewer there are, told over two amounts that are shown side by side: it is their difference ("The
difference is five", over bars of 12 and 8)."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case, Sentence
from studio.agree.manners import SUPPOSING, denied, guessed
from studio.findings import Finding
from studio.pictures.kinds.compare_bars import CompareBars
from studio.talk.model import Number
from studio.talk.numbers import said

NAME = "difference as shown"
_NEARLY = frozenset("close about nearly almost need needs want".split())
_MORE = frozenset("more fewer less longer shorter taller".split())


def find(case: Case) -> Iterator[Finding]:
    for sentence in case.sentences:
        if len(sentence.numbers) != 1 or not _compares(case, sentence, sentence.numbers[0]):
            continue
        number = sentence.numbers[0]
        bars = [
            seen.picture
            for seen in case.on_screen(sentence.start, sentence.end)
            if isinstance(seen.picture, CompareBars)
        ]
        if len(bars) != 1 or abs(bars[0].upper - bars[0].lower) == number.value:
            continue
        if (
            denied(case, number)
            or guessed(case, sentence)
            or case.has_word(sentence, SUPPOSING)
            or case.says(number.start - 2, number.start, _NEARLY)
            or case.is_excused(sentence.start, sentence.end)
        ):
            continue
        apart = abs(bars[0].upper - bars[0].lower)
        yield Finding(NAME, "error", number.line, number.column, said(case.talk.words, sentence.start, sentence.end), "",
                      f"Line {number.line} tells a difference of {number.value}, and the bars are {apart} apart.",
                      f"Say {apart}, or show bars that are {number.value} apart.")  # fmt: skip


def _compares(case: Case, sentence: Sentence, number: Number) -> bool:
    """Whether it tells a difference: "the difference is four", "four more frogs than otters"."""
    if case.says(sentence.start, number.start, ("difference",)):
        return True
    return case.says(number.end, min(number.end + 3, sentence.end), _MORE) and case.says(
        number.end, sentence.end, ("than",)
    )
