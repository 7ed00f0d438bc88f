"""What is asked at a stretch is answered in the same order ("Seven and seven? Nine and nine? Six and six? [wait 10 s] Fourteen,
eighteen, twelve.", "What is half of four? Half of six? Half of eight? [wait 12 s] Two. Three. Four.", "If you draw eight, what do you shout? If
you draw six? If you draw one? [wait 6 s] Two! Four! Nine!"). Where only one number is asked about each time, all answers but one must
stand to it alike."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator, Sequence

from studio.agree.case import Case, Sentence
from studio.agree.wording import of_number, row, spelled
from studio.findings import Finding
from studio.talk.model import Number

NAME = "answered in turn"
_FEWEST = 3  # questions
_ANSWERS = 3  # sentences more than answers
_WORKED_OUT: tuple[tuple[re.Pattern[str], Callable[[Sequence[int]], int]], ...] = (
    (re.compile(r"# (?:and|plus) #(?: (?:and|plus) #)?$"), sum),
    (re.compile(r"# (?:minus|take away|less|without) #$"), lambda values: values[0] - values[1]),
    (re.compile(r"(?:double|twice) #$"), lambda values: 2 * values[0]),
    (re.compile(r"(?:just |right )?before #$"), lambda values: values[0] - 1),
    (re.compile(r"(?:just |right )?after #$"), lambda values: values[0] + 1),
)
_RELATIONS: tuple[Callable[[int, int], int | None], ...] = (
    lambda asked, answer: asked + answer,
    lambda asked, answer: answer - asked,
    lambda asked, answer: 0 if asked == 2 * answer else None,
    lambda asked, answer: 0 if answer == 2 * asked else None,
)
"""How an answer may stand to what is asked: partners, so many more or less, half, double. None where it does not."""
_PLAIN = re.compile(r"#(?: [a-z']+){0,2}$")


def find(case: Case) -> Iterator[Finding]:
    sentences = case.sentences
    at = 0
    while at < len(sentences):
        last = at
        while (
            last < len(sentences) and _asks(case, sentences[last]) and sentences[last].segment == sentences[at].segment
        ):
            last += 1
        asked = sentences[at:last]
        if len(asked) >= _FEWEST:
            yield from _compared(case, asked, _answers(case, last, len(asked)))
        at = max(last, at + 1)


def _asks(case: Case, sentence: Sentence) -> bool:
    return case.asks(sentence) and bool(sentence.numbers)


def _answers(case: Case, index: int, many: int) -> list[Number]:
    """So many numbers that are said one after the other and alone from a sentence on; none where there are fewer, or more."""
    found: list[Number] = []
    for sentence in case.sentences[index : index + many + _ANSWERS]:
        if not sentence.numbers or case.asks(sentence):
            break
        parts = [part for part in _text(case, sentence).split(" , ") if part]
        if not all(_PLAIN.match(part.removeprefix("and ")) for part in parts) or len(parts) != len(sentence.numbers):
            break
        found += sentence.numbers
    return found if len(found) == many else []


def _text(case: Case, sentence: Sentence) -> str:
    speech = case.talk.speech
    return speech.text[speech.offset_at(sentence.start) : speech.offset_at(sentence.end)].strip(" .?¶§,")


def _compared(case: Case, asked: Sequence[Sentence], answers: Sequence[Number]) -> Iterator[Finding]:
    if not answers or case.is_excused(asked[0].start, answers[-1].end):
        return
    results = [_worked_out(case, one) for one in asked]
    if all(result is not None for result in results):
        wrong = [
            (one, answer, result)
            for one, answer, result in zip(asked, answers, results, strict=True)
            if answer.value != result
        ]
        if len(wrong) == 1:
            one, answer, result = wrong[0]
            assert result is not None
            yield _finding(one, answer, f"it comes to {result}", spelled(result))
        return
    if all(len(one.values) == 1 for one in asked):
        yield from _unlike(asked, answers)


def _worked_out(case: Case, sentence: Sentence) -> int | None:
    text = _text(case, sentence)
    for pattern, result in _WORKED_OUT:
        match = pattern.search(text)
        if match is not None and match[0].count("#") == len(sentence.numbers):
            return result(sentence.values)
    return None


def _unlike(asked: Sequence[Sentence], answers: Sequence[Number]) -> Iterator[Finding]:
    """The one answer that stands to what is asked about otherwise than all others do."""
    pairs = [(one.values[0], answer.value) for one, answer in zip(asked, answers, strict=True)]
    for relation in _RELATIONS:
        told = [relation(*pair) for pair in pairs]
        ((most, times),) = Counter(told).most_common(1)
        if most is None or times < len(pairs) - 1:
            continue
        if times < len(pairs):
            at = next(at for at, one in enumerate(told) if one != most)
            yield _finding(asked[at], answers[at], "all the others stand to what is asked alike", "")
        return


def _finding(asked: Sentence, answer: Number, why: str, instead: str) -> Finding:
    return of_number(
        NAME, answer, "",
        f"Line {answer.line} answers {answer.value} to {row(asked.values)}, but {why}.",
        f"Say {instead}, or change what you ask." if instead else "Change the answer, or what you ask.",
    )  # fmt: skip
