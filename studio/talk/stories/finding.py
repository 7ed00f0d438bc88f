"""Where in a segment's talk a story is told and its question asked, among drawing, counting and answers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from studio.talk.stories import lexicon as lex
from studio.talk.stories.clauses import Memory, Quantity, Token, read_sentence
from studio.talk.stories.question import Question, read_question

_LONGEST = 40
"""A story is told in the last so many sentences before its question."""

_SPEAKERS = frozenset("i i'll i'm we we'll we're let's lets".split())
_SIGNS = frozenset("equals equal plus minus + - = < >".split())
_ORDERS = frozenset(
    "draw count say write show listen look think put point touch remember watch find trace read close open hold get "
    "tell let try imagine picture start begin circle check use now so again trade swap exchange".split()
)
_ACTS = frozenset(
    "draw drew write wrote put count counted see say said know hear show need can will are have were could drawn "
    "start started must should counting write".split()
)
_SUPPOSING = frozenset("imagine picture pretend suppose".split())
"""What makes a story of the words after it ("Can you imagine eight fish by the reeds?")."""
_BEFORE_SUPPOSING = frozenset("can could now so let us let's then you just please and first next".split())
_ANNOUNCE = frozenset("story stories problem".split())
_THINGS = lex.DRAWING - {"card", "way", "thing", "step", "column", "row"}


@dataclass(frozen=True, slots=True)
class Part:
    """A question with the quantities told before it. `start` and `end` are positions in the words."""

    start: int
    end: int
    quantities: tuple[Quantity, ...]
    question: Question
    tokens: tuple[Token, ...]


def is_talk(sentence: Sequence[Token]) -> bool:
    """Whether a sentence is the teacher's own ("Let us draw them.") and tells nothing of a story."""
    if not sentence:
        return True
    first = sentence[0].plain
    second = sentence[1].plain if len(sentence) > 1 else ""
    if first in _SPEAKERS and (first.startswith("let") or second in _ACTS or "'" in first):
        return True
    if first == "let" or (first in _ORDERS and first not in ("now", "so", "start", "again")):
        return True
    if first in ("now", "so", "then") and (second in _SPEAKERS or (second in _ORDERS and second != "now")):
        return True
    if all(token.number is not None or token.plain in ("and", "yes", "right", "or", "so") for token in sentence):
        return True  # a count, or an answer
    return any(token.plain in _SIGNS or token.plain in ("equals", "let's", "bond", "frame") for token in sentence)


def supposed(sentence: Sequence[Token]) -> Sequence[Token]:
    """The words of a sentence after "Imagine …", "Can you picture …"; nothing where it begins otherwise."""
    for position, token in enumerate(sentence):
        if token.plain in _SUPPOSING:
            rest = sentence[position + 1 :]
            return rest[1:] if rest and rest[0].plain in ("that", "you") else rest
        if token.plain not in _BEFORE_SUPPOSING:
            break
    return ()


def announces(sentence: Sequence[Token]) -> bool:
    """Whether a sentence says that a story begins."""
    return any(token.plain in _ANNOUNCE for token in sentence)


def is_of_story(quantity: Quantity, noun_known: bool) -> bool:
    """Whether it counts things of a story, not dots, ones and fingers."""
    if quantity.head in _THINGS or quantity.nouns & {"dot", "cross", "tally", "number"}:
        return False
    return quantity.named or noun_known


def gather(
    sentences: Sequence[Sequence[Token]],
    position: int,
    since: int,
    paragraphs: Sequence[int],
    questions: Sequence[int | None],
) -> list[Part]:
    """What is told before the question in sentence `position`, from the nearest block outwards. `questions` tells for
    each sentence where in it a question for a number begins.

    A block is a paragraph, or what follows the announcement of a story. `since` is the first sentence allowed.
    """
    begin = questions[position]
    if begin is None:
        return []
    first = max(since, position - _LONGEST)
    starts = [
        index
        for index in range(first, position + 1)
        if index == first or paragraphs[index] != paragraphs[index - 1] or announces(sentences[index - 1])
    ]
    found: list[Part] = []
    for start in reversed(starts):
        told = _read(sentences, start, position, begin, questions)
        if told is None:
            continue
        if not found or len(told.quantities) > len(found[-1].quantities):
            found.append(told)
        if sum(quantity.known for quantity in told.quantities) > 2:
            break
    return found


def _read(
    sentences: Sequence[Sequence[Token]], start: int, position: int, begin: int, questions: Sequence[int | None]
) -> Part | None:
    def asks(index: int) -> bool:
        return questions[index] is not None or sentences[index][-1].asks

    memory = Memory()
    quantities: list[Quantity] = []
    tokens: list[Token] = []
    opening: int | None = None
    for index in range(start, position + 1):
        sentence = sentences[index] if index < position else sentences[index][:begin]
        if not sentence or is_talk(sentence) or announces(sentence) or (index < position and asks(index)):
            sentence = supposed(sentence) if questions[index] is None or index == position else ()
            if all(token.number is None for token in sentence):
                continue
        if index and asks(index - 1) and not any(token.verb for token in sentence):
            continue  # an answer
        here = [q for q in read_sentence(sentence, index, memory) if is_of_story(q, bool(memory.noun))]
        if memory.head in _THINGS:
            memory.noun, memory.head = frozenset(), ""
        if here and opening is None:
            opening = sentence[0].start
        quantities += here
        tokens += sentence
    if opening is None:
        return None
    question = read_question(sentences[position], begin)
    return Part(opening, question.end, tuple(quantities), question, (*tokens, *sentences[position][begin:]))
