"""A quick look: a picture comes on and goes again, how many is asked, and the first number said is how many there were ("Look.
[hide dots] How many? [wait 3 s] Seven."), or how many places were empty where these are asked for."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.looks import amount
from studio.agree.manners import affirmed, guessed
from studio.agree.wording import of_number
from studio.findings import Finding
from studio.pictures.marks import MarkPicture
from studio.script.model import Hide, Show
from studio.stage.model import Moment

NAME = "quick look"
_SOON = 3  # sentences
_PLAIN = frozenset(
    "how many and are were was is there did do you could we it that i they now this time in all altogether on see saw count "
    "dots dot frogs beads pips marks sticks cubes counters tell me say quick quickly so then all what can find look been have "
    "had shown here".split()
)
"""Words of a question that asks for all that was seen."""
_EMPTY = frozenset("empty missing free".split())
_OF_PLACES = _EMPTY | frozenset("boxes spaces places spots squares still the frame".split())


def find(case: Case) -> Iterator[Finding]:
    for moment, seen in _quick_looks(case):
        index = case.sentence_index(moment.word)
        _, last = case.sentences_around(index, 0, _SOON)
        asked: Sentence | None = None
        for at in range(index, last + 1):
            sentence = case.sentences[at]
            if asked is not None and sentence.numbers:
                yield from _answered(case, seen, asked, at)
            if sentence.numbers or case.moments_between(moment.word, sentence.end - 1):
                break
            if case.asks(sentence):
                asked = sentence


def _quick_looks(case: Case) -> Iterator[tuple[Moment, Appearance]]:
    """The moments at which the only picture goes again that came on shortly before; no number was said meanwhile."""
    shown: dict[str, Appearance] = {}
    appearances = iter(case.pictures)
    for moment in case.stage.moments:
        if moment.picture is not None:
            appearance = next(appearances)
            shown[moment.name] = appearance
            continue
        gone = shown.pop(moment.name, None)
        if gone is None or shown or not isinstance(moment.direction, Hide):
            continue
        if isinstance(gone.moment.direction, Show) and not case.numbers_between(gone.moment.word, moment.word):
            yield moment, gone


def _answered(case: Case, seen: Appearance, asked: Sentence, at: int) -> Iterator[Finding]:
    answer = case.sentences[at]
    number = answer.numbers[0]
    there = _there(case, seen, asked)
    if (
        there is None
        or number.value == there
        or number.start != answer.start
        or case.is_excused(asked.start, answer.end)
    ):
        return
    if guessed(case, answer, number) and not affirmed(case, at):
        return
    if case.talk.words[number.end - 1].text[-1:].isalnum():
        return
    yield of_number(
        NAME,
        number,
        seen.moment.direction.text,
        f"Line {number.line} answers {number.value}, and the picture of line {seen.moment.direction.place.line} that was looked "
        f"at has {there}.",
        f"Say {there}, or show a picture with {number.value}.",
    )


def _there(case: Case, seen: Appearance, asked: Sentence) -> int | None:
    """How many the question asks for, if it asks for all that was seen or for the empty places of a frame; else None."""
    said = [word.plain for word in case.talk.words[asked.start : asked.end]]
    words = set(said)
    if said.count("how") != 1 or "many" not in words:
        return None
    much = amount(seen.picture)
    if words <= _PLAIN:
        return much
    if (
        words & _EMPTY
        and words <= _PLAIN | _OF_PLACES
        and isinstance(seen.picture, MarkPicture)
        and seen.picture.framed
    ):
        return seen.picture.empty
    return None
