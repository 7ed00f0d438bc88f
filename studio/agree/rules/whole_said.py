"""How many there are is said of a picture in words that leave no part of it out: "This is four in sticks", "Seven
stones by the water" (of a picture that is called stones), "On the stall, eighteen", "It is still five", "Seven again".
The number is all that the picture shows."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.looks import amount, counts, visible
from studio.agree.manners import claims, labelled, only_picture
from studio.agree.wording import of_number
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.tally import Tally
from studio.script.model import Add, Show, TakeAway
from studio.talk.model import Number

NAME = "whole as said"
_SOON = 1  # sentences
_PARTING = 2  # sentences in which a part that is told on its own is made whole
_LONG = 60  # characters
_LEADING = 4  # characters: what ends the sentence before
_COUNT = 4  # numbers in a row
_MEDIUM = re.compile(
    r"(?:(?: this is| it is| here is| here are| these are| here we have| that is) (?:the )?|[.?¶§] |^ )(#)"
    r" (?:in|on|as|with) (?:the |a )?"
    r"(?:sticks|tallies|tally|marks|strokes|dots|spots|pips|beads|blocks|frames?|tens and ones) [.]"
)
_HERE = re.compile(r" (?:these are|here are) (?:the )?(#) [a-z]+ [.]")
_PLACE = re.compile(r"(?:(?<=[.?¶§])|^) (?:¶ )?(?:on|in|at|under|by) (?:the|our|my) [a-z]+(?: [a-z]+)? , (#) [.]")
_NAMED = re.compile(r"#(?: [a-z]+)(?: (?:on|in|at|under|by|near|beside) (?:the|our|my|a) [a-z]+)? [.]")
_LEAD = frozenset("here are is i see look at these and oh so well yes the".split())
_STAYING = _LEAD | frozenset("it it's is that that's there they are we have makes but yet all".split())
_TOGETHER = frozenset("plus and together altogether".split())
_ENDS = frozenset(".,;:!…")
_NO_NAMES = frozenset(
    "dots dot crosses cross frame frames beads bead tally tallies marks sticks strokes row rows bundle bundles tens "
    "ten ones one blocks rods dice die pips cards bars parts part more less fives pairs groups".split()
)


def find(case: Case) -> Iterator[Finding]:
    minded: set[int] = set()
    for number, seen in (*_told_first(case), *_still(case)):
        if number.start in minded:
            continue
        minded.add(number.start)
        direction, whole = seen.moment.direction, amount(seen.picture)
        yield of_number(NAME, number, direction.text,
                      f"Line {number.line} says {number.value} of a picture that shows {whole} "
                      f"({seen.picture.description()}).",
                      f"Say {whole}, or show {number.value}.")  # fmt: skip


def _only(case: Case, number: Number) -> Appearance | None:
    """The only picture that is on the screen at a number, if its things are counted together."""
    seen = only_picture(case, number.start, number.end)
    return seen if seen is not None and amount(seen.picture) else None


def _told_first(case: Case) -> Iterator[tuple[Number, Appearance]]:
    """The first number that is told of a picture when it comes on, where it is told of all of it."""
    for seen in case.pictures:
        whole = amount(seen.picture)
        if not whole or not isinstance(seen.moment.direction, Show):
            continue
        word = seen.moment.word
        index = case.sentence_index(word)
        at = bisect_left(case.number_starts, word)
        _, last = case.sentences_around(index, 0, _SOON)
        if at == len(case.counted) or case.counted[at].start >= case.sentences[last].end:
            continue
        number = case.counted[at]
        if number.value in {whole} | _later(case, seen) or (
            _are_things(seen.picture) and number.value in counts(seen.picture)
        ):
            continue
        sentence = case.sentences[case.sentence_index(number.start)]
        if sentence.start < word or not _is_plain(case, sentence, number) or _only(case, number) is not seen:
            continue
        if _names_all(case, seen, sentence, number) and not _is_a_part(case, number, whole, seen.until):
            yield number, seen


def _later(case: Case, seen: Appearance) -> set[int]:
    """By how much the picture changes in its segment, and to what ("More ducks come. Now there are seven ducks")."""
    found: set[int] = set()
    for step in case.pictures_of(seen.moment.direction.segment):
        if step.moment.name == seen.moment.name and isinstance(step.change, Add | TakeAway):
            found |= {step.change.count, amount(step.picture) or 0}
    return found - {0}


def _are_things(picture: Picture) -> bool:
    """Whether a picture is made of single things, and not of tens, ones and fives."""
    return not isinstance(picture, BaseTen | Tally)


def _is_plain(case: Case, sentence: Sentence, number: Number) -> bool:
    """Whether a number is told as it is, in a sentence of its own."""
    return len(sentence.numbers) == 1 and not case.asks(sentence) and claims(case, sentence, number)


def _names_all(case: Case, seen: Appearance, sentence: Sentence, number: Number) -> bool:
    """Whether the words around a number leave no part of a picture out."""
    speech, words = case.talk.speech, case.talk.words
    at, name = speech.offset_of[number.start], seen.moment.name
    start = max(0, speech.offset_at(sentence.start) - _LEADING)
    if any(
        found.start(1) == at
        for pattern in (_MEDIUM, _PLACE)
        if (found := pattern.search(speech.text, start, at + _LONG))
    ):
        return True
    if not _are_things(seen.picture) or labelled(case, number) or number.end >= len(words):
        return False
    if (found := _HERE.search(speech.text, start, at + _LONG)) and found.start(1) == at:
        return True
    if name in _NO_NAMES or words[number.end].plain.removesuffix("s") != name.removesuffix("s"):
        return False
    lead = [word.plain for word in words[sentence.start : number.start]]
    return _LEAD.issuperset(lead) and _NAMED.match(speech.text, at) is not None


def _is_a_part(case: Case, number: Number, whole: int, until: int) -> bool:
    """Whether what is missing to the whole is told before the picture goes ("Two stones by the water. Five in it.")."""
    index = case.sentence_index(number.start)
    _, last = case.sentences_around(index, 0, _PARTING)
    return any(
        len(sentence.numbers) < _COUNT and whole - number.value in sentence.values
        for sentence in case.sentences[index + 1 : last + 1]
        if sentence.start < until
    )


def _still(case: Case) -> Iterator[tuple[Number, Appearance]]:
    """ "It is still five", "Seven again": what was told before is what the picture shows."""
    words = case.talk.words
    for number in case.counted:
        before = words[number.start - 1].plain if number.start else ""
        after = words[number.end].plain if number.end < len(words) else ""
        if before == "still":
            ends = words[number.end - 1].text[-1] in _ENDS
        elif after == "again" and words[number.end - 1].text[-1] not in _ENDS:
            ends = words[number.end].text[-1] in _ENDS
        else:
            continue
        seen = _only(case, number) if ends else None
        if seen is None or number.value in visible(seen.picture) or seen.moment.word > number.start:
            continue
        sentence = case.sentences[case.sentence_index(number.start)]
        start, _ = case.segment_around(number.start)
        if number.value in {other.value for other in case.numbers_between(start, number.start)}:
            continue
        lead = [word.plain for word in words[sentence.start : number.start - (before == "still")]]
        if not _STAYING.issuperset(lead):
            continue  # "I nearly began at one again"
        if seen.moment.direction.segment != sentence.segment or labelled(case, number):
            continue
        if number.value in _with_those_that_went(case, seen, number):
            continue
        if _is_plain(case, sentence, number):
            yield number, seen


def _with_those_that_went(case: Case, seen: Appearance, number: Number) -> set[int]:
    """What a picture showed at first, where those that are there and those that went are asked for together ("Chicks
    plus eggs? Still 8", of eggs of which three are gone)."""
    question = case.question_before(case.sentence_index(number.start))
    if question is None or not isinstance(seen.change, TakeAway):
        return set()
    if not case.says(question.start + 1, question.end, _TOGETHER):
        return set()
    came_on = [first for first in case.pictures_of(seen.moment.direction.segment) if first.moment.name == seen.moment.name
               and isinstance(first.moment.direction, Show) and first.moment.word <= seen.moment.word]  # fmt: skip
    return {amount(came_on[-1].picture) or 0} if came_on else set()
