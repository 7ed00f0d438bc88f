"""A list of numbers in a text on the screen is read aloud as it stands there ("[show text: 2 and 4, 1 and 5, 0 and 6] Two and four. One
and five. Zero and six.")."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.wording import of_number, spelled
from studio.findings import Finding
from studio.pictures.kinds.text import Text
from studio.script.model import Show
from studio.talk.numbers import counting_numbers, words_of

NAME = "list as written"
_FEWEST = 4  # numbers
_SIGNS = re.compile(r"[+=<>−–-]")


def find(case: Case) -> Iterator[Finding]:
    for seen in case.pictures:
        direction, word = seen.moment.direction, seen.moment.word
        if (
            not isinstance(direction, Show)
            or not isinstance(seen.picture, Text)
            or direction.place.line in case.excused
        ):
            continue
        text = " ".join(seen.picture.lines)
        written = [number.value for number in counting_numbers(words_of(text))]
        if len(written) < _FEWEST or _SIGNS.search(text) or word >= len(case.talk.words):
            continue
        _, end = case.segment_around(word)
        said = case.numbers_between(word, min(end, seen.until))[: len(written)]
        wrong = [(number, value) for number, value in zip(said, written, strict=False) if number.value != value]
        if wrong and _are_as_many(written, wrong[0][0].value, said.index(wrong[0][0])):
            continue  # "10 cents, 10 cents": "two coins of ten cents"
        if len(said) == len(written) and len(wrong) == 1 and not case.is_excused(said[0].start, said[-1].end):
            number, value = wrong[0]
            yield of_number(
                NAME, number, direction.text,
                f"Line {number.line} reads aloud what line {direction.place.line} writes (“{text}”), but says {number.value} where "
                f"{value} stands.", f"Say {spelled(value)}, or write {number.value}.",
            )  # fmt: skip


def _are_as_many(written: list[int], value: int, at: int) -> bool:
    """Whether so many of the same number are written from place `at` on."""
    return value > 1 and written[at : at + value] == [written[at]] * value
