"""An expression that stands alone ("8 + 6.") and a question ("What goes with three to make ten?") come back in what
follows or on the screen. If what follows differs in one number, one of the two is a slip."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator

from studio.agree.case import Case, Sentence
from studio.agree.looks import counts, relation, visible
from studio.findings import Finding
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.talk.expressions import Sequence_, sequences
from studio.talk.relations import Relation, relations
from studio.talk.speech import Speech

NAME = "same numbers again"
_REACH = 10  # sentences
_SOON = 5  # sentences
_ASKED = re.compile(r" (?:what|which|who) [^#.?¶§]*\? (?:¶ )?$")
_LONGEST_QUESTION = 60  # characters
_QUIZ = 3  # pairs with the same whole


def find(case: Case) -> Iterator[Finding]:
    yield from _expressions(case)
    yield from _questions(case)


def _expressions(case: Case) -> Iterator[Finding]:
    speech = case.talk.speech
    called_out: defaultdict[tuple[int, int], set[frozenset[int]]] | None = None
    for sequence in sequences(speech):
        if len(sequence.terms) != 2 or sequence.joins[0] not in ("plus", "minus", "and"):
            continue
        if any(term.shape != "number" or term.value is None for term in sequence.terms):
            continue
        between = speech.text[sequence.terms[0].end : sequence.terms[1].start]
        if "," in between or " with " in f" {between} ":
            continue  # "still ten, with seven in the lower part", "line up five with five"
        if sequence.joins[0] == "and" and not _whole_sentence(speech.text, sequence):
            continue
        if sequence.joins[0] == "and" and _between(speech.text, sequence):
            continue
        first, last = speech.span(sequence.start, sequence.end)
        if any(s.kind != "question" or s.answered is not None for s in case.covering.get(first, ()) if s.end >= last):
            continue
        one, other = (term.value or 0 for term in sequence.terms)
        sign = "-" if sequence.joins[0] == "minus" else "+"
        near = _near(case, first, last)
        if any(r.fits(sign, one, other) for r in near):
            continue
        if sequence.joins[0] == "and" and any(
            one + other in counts(appearance.picture) or {one, other} <= visible(appearance.picture)
            for appearance in case.on_screen(first, last + 1)
        ):
            continue
        if any(
            isinstance(appearance.picture, NumberSentence) and {one, other} <= set(appearance.picture.numbers)
            for appearance in case.on_screen(first, last + 1)
        ):
            continue  # one side of it is read ("10 plus 5")
        makes = one + other if sign == "+" else one - other
        if makes in _next_values(case, last) or makes in case.sentences[max(0, case.sentence_index(first) - 1)].values:
            continue  # "Eleven! Ten and one."
        slip = next((r for r in near if r.shares(one, other) and len(r.parts) == 2), None)
        if slip is None or case.is_excused(first, last):
            continue
        if called_out is None:
            called_out = _called_out(speech)
        if sign == "+" and len(called_out[case.talk.words[first].segment, one + other]) >= _QUIZ:
            continue
        line, column = case.line_of(first)
        written = f"{one} {sign} {other}"
        yield Finding(NAME, "error", line, column, speech.said(sequence.start, sequence.end), "",
                      f"Line {line} says {written}, and what is said and shown around it is {_written(slip)}.",
                      "Say the same numbers in both places.")  # fmt: skip


def _called_out(speech: Speech) -> defaultdict[tuple[int, int], set[frozenset[int]]]:
    """The pairs that are all that their sentences say, by segment and whole: a row of them with one whole ("Seven and
    three? Snap! Two and eight? Snap! Nine and zero? No, that is nine. Nine and one? Snap!") needs no whole told with each."""
    found: defaultdict[tuple[int, int], set[frozenset[int]]] = defaultdict(set)
    for sequence in sequences(speech):
        values = [term.value for term in sequence.terms if term.shape == "number" and term.value is not None]
        if len(sequence.terms) != 2 or len(values) != 2 or sequence.joins[0] not in ("and", "plus"):
            continue
        if _whole_sentence(speech.text, sequence):
            segment = speech.words[speech.word_at(sequence.start)].segment
            found[segment, sum(values)].add(frozenset(values))
    return found


def _written(found: Relation) -> str:
    return f"{' + '.join(map(str, found.parts))} = {found.whole}"


def _whole_sentence(text: str, sequence: Sequence_) -> bool:
    """Whether the expression is all that its sentence says ("Six and six.", "Five frogs and two frogs.")."""
    if any(text.count(" ", term.start, term.end) > 1 for term in sequence.terms):
        return False
    before = text[: sequence.start].rstrip()[-1:]
    return before in (".", "?", "¶", "§", "") and text[sequence.end : sequence.end + 2].strip() in (".", "?")


def _between(text: str, sequence: Sequence_) -> bool:
    """Whether it names two neighbours that a question without a number asks for ("What's in there? Ten and eleven.")."""
    one, other = (term.value or 0 for term in sequence.terms)
    asked = _ASKED.search(text, max(0, sequence.start - _LONGEST_QUESTION), sequence.start)
    return other == one + 1 and asked is not None


def _near(case: Case, first: int, last: int) -> list[Relation]:
    """The wholes and parts said or shown around words `first` to `last`, the nearest after it first."""
    index = case.sentence_index(first)
    segment = case.sentences[index].segment
    begin = case.sentences[max(0, index - 4)].start
    end = case.sentences[min(len(case.sentences) - 1, index + _REACH)].end
    statements = case.talk.statements
    at = bisect_left(statements, begin, key=lambda statement: statement.start)
    found: list[Relation] = []
    earlier: list[Relation] = []
    for statement in statements[at:]:
        if statement.start >= end:
            break
        if case.talk.words[statement.start].segment != segment or statement.kind.startswith("count"):
            continue
        if statement.start <= first < statement.end:
            continue
        (found if statement.start >= last else earlier).extend(relations(statement))
    for appearance in case.on_screen(first, end):
        shown = relation(appearance.picture)
        if shown is not None:
            found.append(shown)
    return found + earlier


def _next_values(case: Case, end: int) -> set[int]:
    """The numbers of the next sentences from word `end` - 1 on."""
    index = case.sentence_index(end - 1)
    segment = case.sentences[index].segment
    return {value for sentence in case.sentences[index : index + _SOON] if sentence.segment == segment
            for value in sentence.values}  # fmt: skip


def _next_said(case: Case, end: int) -> tuple[int, ...]:
    """The numbers of the first sentence with numbers behind a question that ends before word `end`; further questions
    ("And which is one more?") and counting ("Count on from seven. Eight, nine, ten.") are passed over."""
    index = case.sentence_index(end - 1) + 1
    words = case.talk.words
    return next(
        (
            sentence.values
            for sentence in case.sentences[index : index + _REACH]
            if sentence.values and "?" not in words[sentence.end - 1].text and not _counts(case, sentence)
        ),
        (),
    )


def _counts(case: Case, sentence: Sentence) -> bool:
    """Whether a sentence counts, or says where to count from."""
    return case.has_word(sentence, ("count", "counting")) or any(
        statement.kind.startswith("count") for statement in case.covering.get(sentence.numbers[0].start, ())
    )


def _questions(case: Case) -> Iterator[Finding]:
    """A question that nothing answers, where what follows has one of its numbers and not the other."""
    for statement in case.talk.statements:
        if statement.kind != "question" or len(statement.values) != 2 or statement.holds is not None:
            continue
        if not isinstance(statement.expected, int) or case.is_excused(statement.start, statement.end):
            continue
        if statement.expected in _next_said(case, statement.end):
            continue
        around = _near(case, statement.start, statement.end)
        wanted = set(statement.values)
        if any(wanted <= {r.whole, *r.parts} for r in around):
            continue
        slip = next((r for r in around if len(r.parts) == 2 and wanted & {r.whole, *r.parts}), None)
        if slip is None:
            continue
        yield Finding(NAME, "error", statement.line, statement.column, statement.said, "",
                      f"“{statement.said}” asks about {' and '.join(map(str, statement.values))}, and what follows is "
                      f"{_written(slip)}.", "Ask and answer with the same numbers.")  # fmt: skip
