"""The words that stand on the screen, in a text or while children think for a moment, name numbers that are spoken or shown there
("How many more to twenty? [wait 5 s: How many more to 20?]"). What they are told to make or to find ("draw two bars", "which
two?") need not be said; nor what a question asks that is answered then; nor all of a row that goes on evenly."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence

from studio.agree.case import Case
from studio.agree.expect.place import book_of
from studio.agree.wording import ZERO, of_direction
from studio.agree.writings import Words, words_on_screen
from studio.agree.written_questions import WrittenQuestions, question_of
from studio.findings import Finding
from studio.pictures.kinds.text import Text
from studio.script.model import Wait, Word
from studio.talk.model import Number
from studio.talk.numbers import counting_numbers, words_of

NAME = "written number is said"
_SENTENCES = 3
"""So many sentences before the words come on and after they have gone, beside the nearest, are around them."""
_THINKING = 12
"""Seconds to think; in a longer wait they work, and the task may have numbers of its own ("draw a row of five squares")."""
_FEW = 3
_LONG = 4  # numbers
"""Of a list some may be left out where it is spoken; and of a problem of its own ("29 + 6") nothing need be said."""
_ALWAYS = (1, 10)
_ROW = 3
"""Numbers by which one sees in what steps a row goes."""
_GAPS = frozenset(("?", "_", "__", "___", "...", "…"))
_GREATEST = 120  # that pictures show
_TO_MAKE = frozenset(
    "bar row heap pile tower time number way sentence picture friend part group box hand minute thing line column pair more color boxe "
    "colour strip bed word card feet that".split()
)
"""Words behind a number of what is to be made or found, without an s."""
_GROUPS = frozenset("bundles groups packs bunches sets piles".split())
"""Words of which one tells how large each is ("bundles of five")."""
_LABELS = frozenset("lesson day week page round part step question station level chapter game task number past".split())
"""Words before a number that only tells which one it is."""
_WHICH = frozenset("which all these those any next last first other".split())


def find(case: Case) -> Iterator[Finding]:
    if case.lesson is None or not case.sentences:
        return
    answered = {
        one.wait.place for one in book_of(case).once(WrittenQuestions).all if one.answer is not None or one.told
    }
    for words in words_on_screen(case):
        if words.direction.place in answered:
            continue
        set_task = isinstance(words.direction, Wait) and words.direction.seconds > _THINKING
        if not set_task and words.end > words.start and words.direction.place.line not in case.excused:
            yield from _unsaid(case, words)


def _unsaid(case: Case, written: Words) -> Iterator[Finding]:
    """The number on the screen that is said nowhere around, where all others are."""
    words = words_of(written.text)
    numbers = [number for number in counting_numbers(words) if not _is_to_make(words, number)]
    if not 0 < len(numbers) <= _LONG:
        return
    known = _known(case, written.start, written.end)
    missing = {number.value for number in numbers} - known
    if len(missing) == 1 and not (_goes_evenly(written.text, known) or _worked_out(written.text, known)):
        line, (value,) = written.direction.place.line, missing
        message = f"Line {line} writes {value} on the screen (“{written.text}”), but that is not said around it."
        yield of_direction(NAME, written.direction, message, "Write the number that you say there.")


def _is_to_make(words: Sequence[Word], number: Number) -> bool:
    """Whether it says how many things are to be made or found ("two rows", "which two?", "a pair") or how large each group is
    ("bundles of five"), is a number that is looked for in every lesson ("make ten"), the steps of a count ("by 2"), a label ("Round 2") or another word for nought."""
    if number.value in _ALWAYS or number.value > _GREATEST or number.text.lower().endswith("pair"):
        return True
    after = words[number.end].plain if number.end < len(words) else ""
    before = words[number.start - 1].plain if number.start else ""
    if before == "of" and number.start > 1 and words[number.start - 2].plain in _GROUPS:
        return True
    if before in _LABELS or before == "by" or (number.value == 0 and number.text.lower().rstrip(".,!?") not in ZERO):
        return True
    few = number.value <= _FEW and (before in _WHICH or after.endswith("s"))
    return few or after.removesuffix("s") in _TO_MAKE


def _goes_evenly(text: str, known: Container[int]) -> bool:
    """Whether it is a row of numbers in even steps, with gaps or without, of which one is said, or what belongs into a gap ("Line B:
    35, 40, 45, ?")."""
    row = [item.strip() for item in text.rpartition(":")[2].split(",")]
    there = [(place, int(item)) for place, item in enumerate(row) if item.isdecimal()]
    if len(there) < _ROW or len(there) + sum(item in _GAPS for item in row) < len(row):
        return False
    (place, first), (other, second) = there[:2]
    step, rest = divmod(second - first, other - place)
    even = [first + step * (at - place) for at in range(len(row))]
    return not rest and all(even[at] == value for at, value in there) and any(value in known for value in even)


def _worked_out(text: str, known: Container[int]) -> bool:
    """Whether it asks for a number that is said then ("[show text: Box A: 34 - 6] … Twenty-eight.")."""
    question = question_of(text.rpartition(":")[2])
    return question is not None and question[1] in known


def _known(case: Case, start: int, end: int) -> set[int]:
    """The numbers that are said or shown around these words or stand in a title."""
    first, _ = case.sentences_around(case.sentence_index(max(0, start - 1)), _SENTENCES, 0)
    _, last = case.sentences_around(case.sentence_index(max(0, start - 1, end - 2)), 0, _SENTENCES)
    said = {value for sentence in case.sentences[first : last + 1] for value in sentence.values}
    others = [seen.picture for seen in case.on_screen(max(0, start - 1), end) if not isinstance(seen.picture, Text)]
    return said.union(*(picture.numbers for picture in others)) | book_of(case).headings
