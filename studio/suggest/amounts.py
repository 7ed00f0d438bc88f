"""The number of the day and other amounts that are named with their picture: word, frame, tally, dots, path, line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from studio.agree.case import Sentence
from studio.agree.wording import spelled
from studio.suggest.counting import dots, mark_words
from studio.suggest.ideas import Idea, Part

_DAY = ("number of the day", "number for today", "number today", "our number is", "today's number", "our number today")


def propose(part: Part) -> Iterator[Idea]:
    """Pictures for amounts that are named."""
    full = -1  # the paragraph with a frame of more than ten: what is said of its halves is not shown again
    for index, sentence in enumerate(part.sentences):
        if not sentence.numbers:
            continue
        text = " ".join(word.plain for word in part.words[sentence.start : sentence.end])
        value = sentence.values[0]
        single = len(set(sentence.values)) == 1
        if single and value <= 120 and any(words in text for words in _DAY):
            word = _idea(sentence, "word", spelled(value), value, f"the number of the day is {value}")
            last = next(number.end for number in reversed(part.numbers) if number.value == value)
            yield replace(word, until=last)
        pair = _pair(part, sentence)
        if pair is not None:
            yield replace(_idea(sentence, *pair, value, f"{pair[0]}: {pair[1]}"), topic=frozenset(sentence.values))
        if single and not _is_counted(part, index):
            named = _named(part, sentence)
            if named is not None and named[0] == "double ten frame":
                full = sentence.paragraph
            if named is not None and not (named[0] == "ten frame" and sentence.paragraph == full):
                yield _idea(sentence, *named, value, f"{value} {named[0]} is told")


def _pair(part: Part, sentence: Sentence) -> tuple[str, str] | None:
    """Kind and details of a picture that is named with two numbers ("9 dots and 5 crosses")."""
    if len(sentence.numbers) != 2:
        return None
    a, b = sentence.values
    plain = part.plain(sentence.start, sentence.end)
    if plain & {"bead", "beads"} and 0 < a <= 10 and 0 <= b <= 10:
        return "rekenrek", f"{a} and {b}"
    if {"dots", "crosses"} <= plain and a and b and a + b <= 50:
        return "dots", f"{dots(a)} and {mark_words(b, 'crosses')}"
    return None


def _named(part: Part, sentence: Sentence) -> tuple[str, str] | None:
    """Kind and details of the picture that a sentence with one number names."""
    value = sentence.values[0]
    number = sentence.numbers[0]
    after = part.plain(number.end, min(number.end + 2, sentence.end))
    plain = part.plain(sentence.start, sentence.end)
    near = part.plain(sentence.start, part.sentences[min(part.sentence_index(sentence.start) + 1,
                                                         len(part.sentences) - 1)].end)  # fmt: skip
    if plain & {"tally", "tallies"} and 1 <= value <= 50:
        return "tally", str(value)
    if after & {"frame", "frames", "box", "boxes", "row", "rows"}:
        return None
    dotted = bool(after & {"dots", "dot", "counters"})
    if near & {"frame", "frames"} and (dotted or plain & {"frame", "frames"}) and 1 < value <= 20:
        return "ten frame" if value <= 10 else "double ten frame", dots(value)
    if dotted and 1 < value <= 50:
        return "dots", dots(value)
    if value <= 20 and (plain & {"path"} or {"number", "line"} <= plain):
        return "number path" if "path" in plain else "number line", f"0 to {10 if value <= 10 else 20}, mark {value}"
    return None


def _idea(sentence: Sentence, kind: str, details: str, value: int, reason: str) -> Idea:
    return Idea(sentence.start, kind, details, (), sentence.end, frozenset({value}), reason, details, details, 0)


def _is_counted(part: Part, index: int) -> bool:
    """Whether a count in this sentence or the next two will have its own picture."""
    last = part.sentences[min(index + 2, len(part.sentences) - 1)]
    start, end = part.sentences[index].start, last.end
    return any(s.kind.startswith("count") and start <= s.start < end for s in part.statements)
