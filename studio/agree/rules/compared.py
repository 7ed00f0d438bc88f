"""How many more or fewer there are, told over two amounts that are shown side by side: it is their difference ("The
difference is five", over bars of 12 and 8)."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case, Sentence
from studio.agree.manners import SUPPOSING, denied, guessed
from studio.findings import Finding
from studio.pictures.kinds.compare_bars import CompareBars
from studio.talk.numbers import said

NAME = "difference as shown"
_NEARLY = frozenset("close about nearly almost need needs want".split())
_MORE = frozenset("more fewer less longer shorter taller".split())


def find(case: Case) -> Iterator[Finding]:
    for sentence in case.sentences:
        if len(sentence.numbers) != 1:
            continue
        number = sentence.numbers[0]
        more = case.says(number.end, min(number.end + 3, sentence.end), _MORE)
        if not more and not case.says(sentence.start, number.start, ("difference",)):
            continue
        bars = [
            seen.picture
            for seen in case.on_screen(sentence.start, sentence.end)
            if isinstance(seen.picture, CompareBars)
        ]
        if len(bars) != 1:
            continue
        amounts = (bars[0].upper, bars[0].lower)
        apart = abs(amounts[0] - amounts[1])
        if number.value == apart or (
            more and not case.says(number.end, sentence.end, ("than",)) and (number.value in (1, *amounts) or not apart)
        ):
            continue  # "Six is longer.", "One more."
        if (
            denied(case, number)
            or guessed(case, sentence)
            or case.has_word(sentence, SUPPOSING)
            or _let_us_say(case, sentence)
            or case.says(number.start - 2, number.start, _NEARLY)
            or case.is_excused(sentence.start, sentence.end)
        ):
            continue
        yield Finding(NAME, "error", number.line, number.column, said(case.talk.words, sentence.start, sentence.end), "",
                      f"Line {number.line} tells a difference of {number.value}, and the bars are {apart} apart.",
                      f"Say {apart}, or show bars that are {number.value} apart.")  # fmt: skip


def _let_us_say(case: Case, sentence: Sentence) -> bool:
    """ "But say she found two more." """
    words = [word.plain for word in case.talk.words[sentence.start : sentence.end]]
    at = next((at for at, word in enumerate(words) if word not in _AND_SO), len(words))
    return words[at : at + 1] == ["say"] and bool(_WHO & {*words[at + 1 : at + 2]})


_AND_SO = frozenset("but and now so then let's let us well ok okay".split())
_WHO = frozenset("she he they we you i".split())
