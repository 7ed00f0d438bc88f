"""Story problems: find them in what is said, tell their situation, and answer them, or say that it cannot be told.

One reader for each family of Table 1 (`comparing`, `changing`, `parting`, `grouping`); a new one is a new file with
`read(asked) -> Reading | None` and a line in `READERS`. How likely their reading is right, and what a story tells that
they cannot read, was learned from labelled stories (`likely`).
"""

from __future__ import annotations

from collections.abc import Sequence

from studio.script.model import Word
from studio.talk.model import Number, Story
from studio.talk.numbers import find_numbers, words_of
from studio.talk.stories import changing, comparing, grouping, parting
from studio.talk.stories.clauses import Memory, Quantity, Token, read_sentence, sentences_of, tokens_of
from studio.talk.stories.finding import Part, gather
from studio.talk.stories.likely import guesser
from studio.talk.stories.question import Question, find_question, last_question, read_question
from studio.talk.stories.readings import Asked, CannotTell, NothingFits, Reading
from studio.talk.stories.relevant import relevant
from studio.talk.stories.signs import Told

__all__ = [
    "Memory", "Quantity", "Question", "Token", "find_stories", "read_sentence", "read_story", "solve", "tokens_of", "told_in",
]  # fmt: skip

LIKELY = 0.55
"""How likely an answer must be."""
READERS = (grouping.read, comparing.read, changing.read, parting.read)
_TIMES = frozenset("twice thrice double doubled triple equally".split())


def find_stories(words: Sequence[Word], numbers: Sequence[Number], offset: int = 0) -> tuple[Story, ...]:
    """The story problems in the words of one segment, in order; `start` and `end` are positions in `words`, those of the
    numbers are greater by `offset`.

    A question that is asked again, or whose answer was told, makes no second story. Time grows with the length.
    """
    end = last_question(words)
    if end is None:
        return ()
    tokens = tokens_of(words[:end], numbers, offset)
    sentences = sentences_of(tokens, words)
    paragraphs = [words[sentence[0].start].paragraph for sentence in sentences]
    questions = [find_question(sentence) for sentence in sentences]
    found: list[Story] = []
    waiting: Story | None = None
    since = 0
    for position, begin in enumerate(questions):
        if begin is None:
            continue
        told = gather(sentences, position, since, paragraphs, questions)
        solved = _first_solved(told)
        if solved is not None:
            reading, part = solved
            before = found[-1] if found and words[found[-1].start].paragraph == words[part.start].paragraph else None
            if before is not None and set(reading.told) == {before.answer}:
                continue  # "Three fish have no partner. And how many fewer has the heron?": the same, asked again
            if waiting is not None and waiting.start < part.start:
                found.append(waiting)
            waiting = None
            found.append(_story(reading, part.quantities, part.start, part.end, words[part.start].place.line))
            since = position + 1
        elif told and waiting is None and _is_open(told[-1]):
            part = told[-1]
            waiting = _story(None, part.quantities, part.start, part.end, words[part.start].place.line)
    if waiting is not None:
        found.append(waiting)
    return tuple(found)


def _first_solved(told: Sequence[Part]) -> tuple[Reading, Part] | None:
    for part in told:
        reading = answer(part.quantities, part.question, part.tokens)
        if reading is not None:
            return reading, part
    return None


def _is_open(told: Part) -> bool:
    """Whether enough is told to call it a story though its question stays open."""
    return len(told.quantities) > 1 and any(quantity.known for quantity in told.quantities)


def solve(story_text: str, question: str) -> Story:
    """The story of these words with its answer; `situation` is "" and `answer` None where it cannot be told.

    >>> solve("Seven frogs sit on a log. Two hop off.", "How many frogs are left?").sentence
    '7 - 2 = ?'
    """
    words, tokens, quantities, asked = _read_of(story_text, question)
    reading = None if asked is None else answer(quantities, asked, tokens)
    return _story(reading, quantities, 0, len(words), 0)


def told_in(story_text: str, question: str) -> Told | None:
    """What is read of the words of a story, by which it is told how likely an answer is; None where nothing is asked."""
    _, tokens, quantities, asked = _read_of(story_text, question)
    return None if asked is None else Told(tokens, quantities, asked, read(quantities, asked, tokens))


def _read_of(story_text: str, question: str) -> tuple[Sequence[Word], list[Token], list[Quantity], Question | None]:
    words = words_of(f"{story_text} {question}")
    tokens = tokens_of(words, find_numbers(words))
    return words, tokens, *read_story(tokens, words, len(words_of(story_text)))


def read_story(
    tokens: Sequence[Token], words: Sequence[Word], asked_from: int | None = None
) -> tuple[list[Quantity], Question | None]:
    """What the words of a story tell, and its last question; from word `asked_from` on something is asked, however it is put
    ("Give its height.")."""
    memory = Memory()
    quantities: list[Quantity] = []
    asked: Question | None = None
    for index, sentence in enumerate(sentences_of(tokens, words)):
        begin = find_question(sentence)
        if begin is None and asked is None and asked_from is not None and sentence[-1].start >= asked_from:
            begin = next(at for at, token in enumerate(sentence) if token.start >= asked_from)
        told = sentence if begin is None else sentence[:begin]
        quantities += read_sentence(told, index, memory) if told else []
        if begin is not None:
            asked = read_question(sentence, begin)
    return quantities, asked


def answer(quantities: Sequence[Quantity], question: Question, tokens: Sequence[Token]) -> Reading | None:
    """What is told and asked, as the readers have it where that is likely, or else as it is likeliest; None where it cannot
    be told."""
    found = read(quantities, question, tokens)
    guess = guesser().guess(Told(tokens, quantities, question, found))
    if guess is None or (found is not None and not _is_of_two(found)):
        return found
    if found is not None and found.answer is None:  # no number fits: somebody has told it wrongly
        return None if guess.plus > LIKELY else found
    if guess.chance <= LIKELY:
        return None
    if found is not None and found.answer is not None and guess.chance_of(found.answer) == guess.chance:
        return found
    return guess.reading(quantities)


def _is_of_two(found: Reading) -> bool:
    """Whether it goes from two numbers to a third: not of three parts, not of a whole whose parts are both asked."""
    return len(found.told) == 2


def read(quantities: Sequence[Quantity], question: Question, tokens: Sequence[Token]) -> Reading | None:
    """What the readers make of what is told and asked; None where they cannot tell."""
    if _multiplies(tokens):
        return None
    asked = Asked(relevant(quantities, question), question)
    try:
        for reader in READERS:
            reading = reader(asked)
            if reading is not None:
                return reading
    except CannotTell:
        return None
    except NothingFits as sentence:
        values = tuple(quantity.value for quantity in asked.known if quantity.value is not None)
        return Reading("", "", str(sentence), None, values)
    return None


def _multiplies(tokens: Sequence[Token]) -> bool:
    return any(
        token.plain in _TIMES
        or (token.plain == "half" and any(other.plain in ("of", "as") for other in tokens[position + 1 : position + 2]))
        or (token.plain == "as" and position and tokens[position - 1].plain == "times")
        for position, token in enumerate(tokens)
    )


def _story(reading: Reading | None, told: Sequence[Quantity], start: int, end: int, line: int) -> Story:
    if reading is None:
        values = tuple(quantity.value for quantity in told if quantity.value is not None)
        return Story(start, end, line, "", "", "", None, values)
    return Story(start, end, line, reading.situation, reading.sentence, reading.unknown, reading.answer, reading.told)
