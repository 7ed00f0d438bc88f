"""So many dice or cards as are told when they come on lie there: "Two dice, both sixes", "Three cards lie in the
grass"."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Appearance, Case
from studio.agree.wording import SUPPOSED, counted, of_number
from studio.findings import Finding
from studio.pictures.kinds.cards import Cards
from studio.pictures.kinds.dice import Dice
from studio.script.model import Show

NAME = "as many as lie there"
_TOLD = re.compile(
    r"(#) (?:little |big |small |new |white )?(dice|cubes|cards)(?= )"
    r"(?! (?:that|which|make|can|could|to|from|of|are left) )"
)
_PICKED = SUPPOSED | frozenset(
    "find choose pick pair pairs more other others another turn take takes left away had was were which how any every "
    "each first last of with".split()
)


def find(case: Case) -> Iterator[Finding]:
    shown: dict[int, Appearance] = {}
    for one in case.pictures:
        if isinstance(one.moment.direction, Show) and isinstance(one.picture, Dice | Cards):
            shown[case.sentence_index(one.moment.word)] = one
    if not shown:
        return
    speech = case.talk.speech
    for match in _TOLD.finditer(speech.text):
        number = speech.number_at[match.start(1)]
        index = case.sentence_index(number.start)
        sentence = case.sentences[index]
        seen = shown.get(index)
        if seen is None or seen.moment.word > number.start or seen.moment.direction.segment != sentence.segment:
            continue
        picture = seen.picture
        if not isinstance(picture, Cards if match[2] == "cards" else Dice) or not isinstance(picture, Cards | Dice):
            continue
        there = len(picture.values)
        if number.value == there or case.has_word(sentence, _PICKED) or case.asks(sentence):
            continue
        if case.says(number.start - 1, number.start, ("no",)):
            continue  # "Here no two dice give ten."
        if case.covering.get(number.start) or case.is_excused(sentence.start, sentence.end):
            continue
        things = counted(there, "card" if isinstance(picture, Cards) else "die").replace("dies", "dice")
        direction = seen.moment.direction
        yield of_number(NAME, number, direction.text,
                      f"Line {number.line} tells of {number.value} {match[2]}, and line {direction.place.line} "
                      f"shows {things}.",
                      f"Say {there}, or show as many as you say.")  # fmt: skip
