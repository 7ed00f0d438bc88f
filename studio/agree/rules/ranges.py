"""A row of cards, a path, a line or a chart goes from and to where it is said to ("a number line from 0 to 20")."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case
from studio.findings import Finding
from studio.pictures.kinds.cards import Cards
from studio.pictures.spans import SpanPicture

NAME = "goes from and to"
_RANGE = re.compile(
    r"(cards|path|line|chart)(?: that goes| goes| going| runs|,)? from (#) (?:all the way |up )?to (#)(?= [.,?])"
)

_MOVES = re.compile(r" (?:hop|hops|hopping|jump|jumps|count|counting|go|going|move|walk|step|find)(?= )")


def find(case: Case) -> Iterator[Finding]:
    if not case.pictures:
        return
    speech = case.talk.speech
    for match in _RANGE.finditer(speech.text):
        if _MOVES.search(speech.text[max(0, match.start() - 50) : match.start()].rpartition(" . ")[2]):
            continue  # "hop on the number path from nine to fourteen"
        first, last = speech.number_at[match.start(2)], speech.number_at[match.start(3)]
        sentence = case.sentences[case.sentence_index(first.start)]
        if case.is_excused(sentence.start, sentence.end):
            continue
        ends = set()
        for appearance in case.on_screen(sentence.start, sentence.end + 1):
            picture = appearance.picture
            if match[1] == "cards" and isinstance(picture, Cards):
                ends.add((min(picture.values), max(picture.values)))
            elif match[1] != "cards" and isinstance(picture, SpanPicture) and match[1] in picture.kind:
                ends.add((picture.start, picture.end))
        said = tuple(sorted((first.value, last.value)))
        if not ends or said in ends:
            continue
        start, end = min(ends)
        yield Finding(NAME, "error", first.line, first.column, f"from {first.text} to {last.text}", "",
                      f"Line {first.line} says from {first.value} to {last.value}, but the {match[1]} on the screen "
                      f"{'go' if match[1] == 'cards' else 'goes'} from {start} to {end}.",
                      f"Say from {start} to {end}, or change the direction.")  # fmt: skip
