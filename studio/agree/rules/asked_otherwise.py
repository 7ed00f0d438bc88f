"""What is asked or set aloud and then stands on the screen has the same numbers ("Five left of nine. [wait 4 s: 5 and ? is 9]",
"Jump eight times for me. [wait 9 s: jump 8 times]")."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from studio.agree.case import Case, Sentence
from studio.agree.expect.place import book_of
from studio.agree.expect.writing import written
from studio.agree.wording import of_number, spelled
from studio.agree.written_questions import WrittenQuestions
from studio.findings import Finding
from studio.script.model import Wait

NAME = "written question is asked"
_FEWEST = 2  # numbers of a question, or words of a task that are said, too


def find(case: Case) -> Iterator[Finding]:
    if case.lesson is None:
        return
    asked = {one.wait.place: one.values for one in book_of(case).once(WrittenQuestions).all}
    begin = 0  # what was said before the last wait asks something else
    for wait in case.lesson.directions:
        if not isinstance(wait, Wait):
            continue
        sentence = case.sentences[case.sentence_index(wait.at - 1)] if wait.at and wait.words else None
        if sentence is not None and begin <= sentence.start and sentence.end == wait.at and sentence.numbers:
            values = asked.get(wait.place, ())
            if len(values) >= _FEWEST:
                yield from _other_number(case, wait, values, sentence)
            elif not values:
                yield from _other_number(case, wait, _as_set(case, wait, sentence), sentence)
        begin = wait.at


def _as_set(case: Case, wait: Wait, sentence: Sentence) -> Sequence[int]:
    """The numbers of a task that stands there in words of the sentence; none where other words stand there."""
    task = written(wait.words)
    said = {word.plain.removesuffix("s") for word in case.talk.words[sentence.start : sentence.end]}
    return task.values if len({*task.words}) >= _FEWEST and said.issuperset(task.words) else ()


def _other_number(case: Case, wait: Wait, values: Sequence[int], sentence: Sentence) -> Iterator[Finding]:
    """The number in which the sentence and what stands there differ, where all others are the same."""
    line = wait.place.line
    spoken, shown = Counter(sentence.values), Counter(values)
    if line in case.excused or case.is_excused(sentence.start, sentence.end):
        return
    only_said, only_shown = [*(spoken - shown).elements()], [*(shown - spoken).elements()]
    if len(only_said) == len(only_shown) == 1:
        number = next(one for one in sentence.numbers if one.value == only_said[0])
        yield of_number(
            NAME,
            number,
            wait.text,
            f"Line {number.line} says {spelled(number.value)}, but line {line} writes “{wait.words}” on the screen.",
            f"Say {spelled(only_shown[0])}, or write {number.value}.",
        )
