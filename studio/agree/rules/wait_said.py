"""The words that stand on the screen while children think name the numbers that are spoken there ("How many more to twenty?
[wait 5 s: How many more to 20?]"). Where they repeat what is asked, another number is an error; else it is a note."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from studio.agree.case import Case, Sentence
from studio.agree.expect.place import book_of
from studio.agree.wording import row
from studio.findings import Finding
from studio.script.model import Wait, Word
from studio.talk.model import Number
from studio.talk.numbers import counting_numbers, words_of

NAME = "wait words fit talk"
_SENTENCES = 3
_ASKED = 1
"""So many sentences before a wait and after it, beside the nearest, are around it; and so many may be what it repeats."""
_LIKE = 0.6
"""The share of the other words of a wait that a sentence must have for the wait to repeat it."""
_FEWEST = 2
_TEN = 10


def find(case: Case) -> Iterator[Finding]:
    if case.lesson is None or not case.sentences:
        return
    for wait in case.lesson.directions:
        if not isinstance(wait, Wait) or not wait.words or wait.place.line in case.excused:
            continue
        words = words_of(wait.words)
        numbers = counting_numbers(words)
        known = _known(case, wait) if numbers else set()
        missing = [number for number in numbers if number.value not in known]
        if not missing:
            continue
        repeats = any(
            len(numbers) == len(sentence.numbers) or any(_takes_place(case, sentence, words, one) for one in missing)
            for sentence in _repeated(case, wait, words, numbers)
        )
        values = list(dict.fromkeys(number.value for number in missing))
        yield Finding(
            NAME,
            "error" if repeats else "note",
            wait.place.line,
            wait.place.column,
            "",
            wait.text,
            f"While they wait, line {wait.place.line} puts {row(values)} on the screen (“{wait.words}”), but "
            f"{'that is' if len(values) == 1 else 'they are'} not said around it.",
            "Write the numbers that you say there.",
        )


def _known(case: Case, wait: Wait) -> set[int]:
    """The numbers that are said or shown around a wait or stand in the title of its segment."""
    at = max(0, wait.at - 1)
    first, last = case.sentences_around(case.sentence_index(at), _SENTENCES, _SENTENCES)
    said = {value for sentence in case.sentences[first : last + 1] for value in sentence.values}
    shown = {value for seen in case.on_screen(at, wait.at + 1) for value in seen.picture.numbers}
    return said | shown | book_of(case).titles.get(wait.segment, frozenset())


def _repeated(case: Case, wait: Wait, words: Sequence[Word], numbers: Sequence[Number]) -> Iterator[Sentence]:
    """The sentences right before the wait and right after it in which most of its other words are said."""
    inside = {at for number in numbers for at in range(number.start, number.end)}
    others = {word.plain for at, word in enumerate(words) if at not in inside}
    index = case.sentence_index(max(0, wait.at - 1))
    first, last = case.sentences_around(index, _ASKED, _ASKED)
    for sentence in case.sentences[first : last + 1]:
        said = {word.plain for word in case.talk.words[sentence.start : sentence.end]}
        if len(others & said) >= max(_FEWEST, _LIKE * len(others)):
            yield sentence


def _takes_place(case: Case, sentence: Sentence, words: Sequence[Word], number: Number) -> bool:
    """Whether a number of the sentence stands behind the same word as this one, or before the same word."""
    before, after = _beside(words, number)
    for other in sentence.numbers:
        its_before, its_after = _beside(case.talk.words[: sentence.end], other)
        if (before and before == its_before) or (after and after == its_after):
            return True
    return False


def _beside(words: Sequence[Word], number: Number) -> tuple[str, str]:
    """The words next to a number; "" at an edge."""
    before = words[number.start - 1].plain if number.start else ""
    return before, words[number.end].plain if number.end < len(words) else ""
