"""One and many: behind "one" stands no word that names many things ("My basket holds one mushrooms"). Which words do was learned
(`benchmarks/things.py`)."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator
from functools import lru_cache
from importlib.resources import files
from pathlib import Path

from studio.agree.case import Case
from studio.agree.wording import of_number
from studio.findings import Finding
from studio.talk.model import Number

NAME = "one and many"
THINGS = Path(str(files("studio.agree").joinpath("things.txt")))
_NO_NUMBER = frozenset("this that which each every last other number".split())
"""Words behind which "one" is no number: "this one jumps", "my number one singers"."""
_BETWEEN = frozenset("more other small little big tiny red blue green brown yellow white black".split())
"""Words that may stand between a number and what it counts."""


def find(case: Case) -> Iterator[Finding]:
    for number, thing in odd_ones(named_behind(case), things()):
        yield of_number(
            NAME,
            number,
            "",
            f'Line {number.line} says "{number.text}" and then "{thing}", as of many.',
            f'Say another number, or "{thing.removesuffix("s")}".',
        )


@lru_cache(maxsize=1)
def things() -> frozenset[str]:
    """The words that name many things."""
    return frozenset(THINGS.read_text(encoding="utf-8").split())


def odd_ones(named: Iterable[tuple[Number, str]], known: Container[str]) -> Iterator[tuple[Number, str]]:
    """The ones before a word of which it is known that it names many things, of numbers and the words behind them."""
    return ((number, word) for number, word in named if number.value == 1 and word in known)


def named_behind(case: Case) -> Iterator[tuple[Number, str]]:
    """The numbers with a word behind them in the same phrase, and that word; colours and the like between them are passed over."""
    words = case.talk.words
    for number in case.talk.numbers:
        if number.form == "ordinal" or (number.start and words[number.start - 1].plain in _NO_NUMBER):
            continue
        for at in range(number.end, len(words)):
            if not words[at - 1].text[-1:].isalnum() or words[at].sentence != words[at - 1].sentence:
                break
            if words[at].plain not in _BETWEEN:
                yield number, words[at].plain
                break
