"""Numbers that go together elsewhere: where the other numbers of this sentence are said or stated again, the numbers
that stand with them there ("seven in the sun and two in the shade … nine is seven and two")."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.expect.hints import Hint, named
from studio.agree.expect.place import MOST, Place

_REACH = 6  # sentences
_MATES = 6  # numbers of the own sentence
_STATEMENTS = 30
_MANY = 120  # statements, with the counts that are passed over
_WIDE = 250  # words


def find(place: Place) -> Iterator[Hint]:
    book, case = place.book, place.book.case
    mates = {other.value for other in place.others[:_MATES]}
    where = "i"
    if not mates:
        where = "o"
        numbers, sentence_of, index = book.numbers, book.sentence_of, place.index
        mates = {
            numbers[other].value
            for other in (index - 1, index + 1)
            if 0 <= other < len(numbers)
            and place.start <= numbers[other].start < place.end
            and abs(sentence_of[other] - place.sentence_index) <= 1
        }
    if not mates:
        return
    first, last = case.sentences_around(place.sentence_index, _REACH, _REACH)
    sentences = case.sentences
    said = book.said_in_sentence
    best: dict[int, int] = {}
    for at in range(first, last + 1):
        values = said[at]
        if at == place.sentence_index or len(values) > MOST or mates.isdisjoint(values):
            continue
        shared = len(mates.intersection(values))
        for value in set(values):
            if value not in mates or values.count(value) > 1:
                best[value] = max(best.get(value, 0), shared)
    for value, shared in best.items():
        yield value, named(f"com{where}{min(shared, 2)}")
    seen = 0
    begin, end = place.sentence.start - _WIDE, place.sentence.end + _WIDE
    for statement in case.statements_between(max(sentences[first].start, begin), min(sentences[last].end, end))[:_MANY]:
        if not statement.holds or statement.kind.startswith("count"):
            continue
        if statement.start <= place.number.start < statement.end:
            continue
        seen += 1
        if seen > _STATEMENTS:
            return
        if mates.isdisjoint(statement.values):
            continue
        stated = named(f"cst{where}{min(len(mates.intersection(statement.values)), 2)}")
        for value in statement.values:
            if value not in mates:
                yield value, stated
