"""What is asked aloud and then stands on the screen as a question has the same numbers ("Five left of nine. [wait 4 s: 5 and ? is 9]")."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from studio.agree.case import Case, Sentence
from studio.agree.expect.place import book_of
from studio.agree.wording import spelled
from studio.agree.written_questions import WrittenQuestion, WrittenQuestions
from studio.findings import Finding

NAME = "written question is asked"
_FEWEST = 2  # numbers


def find(case: Case) -> Iterator[Finding]:
    if case.lesson is None:
        return
    begin = 0  # what was said before the last wait asks something else
    for asked in book_of(case).once(WrittenQuestions).all:
        at = asked.wait.at
        sentence = case.sentences[case.sentence_index(at - 1)] if at else None
        if sentence is not None and begin <= sentence.start and sentence.end == at and len(sentence.values) >= _FEWEST:
            yield from _other_number(case, asked, sentence)
        begin = at


def _other_number(case: Case, asked: WrittenQuestion, sentence: Sentence) -> Iterator[Finding]:
    """The number in which the sentence and the question differ, where all others are the same."""
    line = asked.wait.place.line
    spoken, written = Counter(sentence.values), Counter(asked.values)
    if line in case.excused or case.is_excused(sentence.start, sentence.end):
        return
    only_said, only_written = [*(spoken - written).elements()], [*(written - spoken).elements()]
    if len(only_said) == len(only_written) == 1:
        number = next(one for one in sentence.numbers if one.value == only_said[0])
        yield Finding(
            NAME,
            "error",
            number.line,
            number.column,
            number.text,
            asked.wait.text,
            f"Line {number.line} asks with {spelled(number.value)}, but line {line} writes “{asked.wait.words}” on the screen.",
            f"Say {spelled(only_written[0])}, or write {number.value}.",
        )
