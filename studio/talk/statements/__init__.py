"""Every kind of arithmetic statement, one file each. A new kind is one new file with `find(speech)`: it is found by itself."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from importlib import import_module
from pkgutil import iter_modules

from studio.script.model import Word
from studio.talk.answers import pair
from studio.talk.model import Number, Statement
from studio.talk.speech import Speech, speech

FINDERS: tuple[Callable[[Speech], Iterator[Statement]], ...] = tuple(
    finder
    for module in sorted(iter_modules(__path__), key=lambda module: module.name)
    if (finder := getattr(import_module(f"{__name__}.{module.name}"), "find", None)) is not None
)


def find_statements(
    words: Sequence[Word], numbers: Sequence[Number], spoken: Speech | None = None
) -> tuple[Statement, ...]:
    """All arithmetic statements and questions in the words, in order of their first word.

    `spoken` is `speech(words, numbers)` where it has been made already. Time grows with the number of words.
    """
    spoken = speech(words, numbers) if spoken is None else spoken
    found = [*dict.fromkeys(statement for finder in FINDERS for statement in finder(spoken))]  # sums may be in two rows
    found.sort(key=lambda statement: (statement.start, statement.end, statement.kind))
    return pair(spoken, found)
