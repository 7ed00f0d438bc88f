"""The number that is filled in is the number that is said with it ("[bond: fill in 7] Seven!", "So the other piece is
[bar: fill in] seven.")."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.manners import is_lone
from studio.agree.wording import of_number
from studio.findings import Finding
from studio.script.model import FillIn
from studio.talk.model import Number
from studio.talk.numbers import number_words

NAME = "filled in as said"
_AT_ONCE = 3  # words from the step to the number


def find(case: Case) -> Iterator[Finding]:
    for appearance in case.pictures:
        if not isinstance(appearance.change, FillIn):
            continue
        new = _new(appearance)
        if len(new) != 1:
            continue
        index = case.sentence_index(appearance.moment.word)
        sentence = case.sentences[index]
        if sentence.segment != appearance.moment.direction.segment:
            continue
        number = _with_it(case, sentence, appearance.moment.word)
        if number is None or number.start >= appearance.until or number.value == new[0]:
            continue
        if case.is_excused(sentence.start, sentence.end):
            continue
        lone = sentence.start >= appearance.moment.word and is_lone(case, sentence, number)
        around = case.sentences[max(0, index - 1) : index + (0 if lone else 2)]
        if any(new[0] in near.values or _contracted(case, near, new[0]) for near in around):
            continue
        direction = appearance.moment.direction
        yield of_number(NAME, number, direction.text,
                      f"Line {direction.place.line} fills in {new[0]}, and the number said with it is {number.value}.",
                      f"Say {new[0]}, or fill in {number.value}.")  # fmt: skip


def _with_it(case: Case, sentence: Sentence, word: int) -> Number | None:
    """The only number that a sentence still says when the picture changes at a word of it, where it comes at once or
    stands alone."""
    later = [number for number in sentence.numbers if number.start >= word]
    if len(later) != 1:
        return None
    (number,) = later
    return number if number.start - word <= _AT_ONCE or is_lone(case, sentence, number) else None


def _contracted(case: Case, sentence: Sentence, value: int) -> bool:
    """Whether a number is said with a short "is" ("Seven's one less")."""
    words = (case.talk.words[at].plain.replace("’", "'") for at in range(sentence.start, sentence.end))
    return any(word.endswith("'s") and number_words(word.removesuffix("'s")) == value for word in words)


def _new(appearance: Appearance) -> list[int]:
    """The numbers that this step filled in."""
    new = list(appearance.picture.numbers)
    for value in appearance.before.numbers if appearance.before else ():
        if value in new:
            new.remove(value)
    return new
