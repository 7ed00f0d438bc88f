"""The two wires of a rack are told one after the other as they are ("[show rekenrek: 7 and 6] Seven beads above, six below.")."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from studio.agree.case import Appearance, Case
from studio.agree.wording import of_number, row
from studio.findings import Finding
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.script.model import Show

NAME = "beads as told"
_SOON = 2  # sentences
_BEADS = r"(?:another |the |and |one )?#(?: (?!(?:and|is|are|makes?|plus|minus|more|less|fewer|with|from|to|of|than) )[a-z'’-]+){0,4}"
_TWO = re.compile(rf"{_BEADS}(?: ,)?(?: (?:and|by))? {_BEADS}(?= [.,])(?! , (?:and|plus) # (?:more|extra|other))")


def find(case: Case) -> Iterator[Finding]:
    for seen in case.pictures:
        if isinstance(seen.moment.direction, Show) and isinstance(seen.picture, Rekenrek) and seen.picture.lower:
            yield from _told(case, seen, (seen.picture.upper, seen.picture.lower))


def _told(case: Case, seen: Appearance, wires: tuple[int, int]) -> Iterator[Finding]:
    """The one number of two that is not on the wires, in the first sentence with numbers."""
    speech, direction, word = case.talk.speech, seen.moment.direction, seen.moment.word
    index = case.sentence_index(word)
    if case.sentences[index].segment != direction.segment or direction.place.line in case.excused:
        return
    _, last = case.sentences_around(index, 0, _SOON)
    for sentence in case.sentences[index : last + 1]:
        start = max(word, sentence.start)
        if sentence.start >= seen.until or not case.numbers_between(start, sentence.end):
            continue
        offset = speech.offset_at(start)
        match = _TWO.match(speech.text, offset, speech.offset_at(sentence.end) + 2)
        numbers = speech.numbers_in(*match.span()) if match else []
        wrong = Counter(number.value for number in numbers) - Counter(wires)
        if len(numbers) == len(wires) and wrong.total() == 1 and not case.is_excused(start, sentence.end):
            number = next(one for one in numbers if one.value in wrong)
            if number.value not in (1, len(wires), sum(wires)) and abs(numbers[0].value - numbers[1].value) != 1:
                yield of_number(
                    NAME, number, direction.text,
                    f"Line {number.line} tells {row([one.value for one in numbers])}, but [{direction.text}] on line "
                    f"{direction.place.line} has {row(wires)}.", "Say what the wires have, or change the direction.",
                )  # fmt: skip
        return
