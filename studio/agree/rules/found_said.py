"""The number that is filled in is the number that is said with it ("[bond: fill in 7] Seven!")."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Appearance, Case
from studio.agree.manners import is_lone
from studio.findings import Finding
from studio.script.model import FillIn

NAME = "filled in as said"


def find(case: Case) -> Iterator[Finding]:
    for appearance in case.pictures:
        if not isinstance(appearance.change, FillIn):
            continue
        new = _new(appearance)
        if len(new) != 1:
            continue
        index = case.sentence_index(appearance.moment.word)
        sentence = case.sentences[index]
        if sentence.start < appearance.moment.word or sentence.segment != appearance.moment.direction.segment:
            continue
        if len(sentence.numbers) != 1 or not is_lone(case, sentence, sentence.numbers[0]):
            continue
        number = sentence.numbers[0]
        before = case.sentences[index - 1].values if index else ()
        if number.value == new[0] or new[0] in before or case.is_excused(sentence.start, sentence.end):
            continue
        direction = appearance.moment.direction
        yield Finding(NAME, "error", number.line, number.column, number.text, direction.text,
                      f"Line {direction.place.line} fills in {new[0]}, and the number said with it is {number.value}.",
                      f"Say {new[0]}, or fill in {number.value}.")  # fmt: skip


def _new(appearance: Appearance) -> list[int]:
    """The numbers that this step filled in."""
    new = list(appearance.picture.numbers)
    for value in appearance.before.numbers if appearance.before else ():
        if value in new:
            new.remove(value)
    return new
