"""Two numbers that are shown side by side (bars, dice, rows of beads, dots and crosses) are told side by side. Where a
sentence with the picture tells one of them with a number that is not there, and the other is not told at all, one of
the two is a slip ("11 is more than 8", over bars of 1 and 8). The same where a pair is the first that is told when the
picture comes on ("My dice say two and two", over a six and a two; "Two dice, both sixes", over a six and a five)."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator
from itertools import pairwise

from studio.agree.case import Appearance, Case
from studio.agree.looks import structure, visible
from studio.agree.manners import denied
from studio.agree.wording import SUPPOSED, row
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.kinds.dice import Dice
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.marks import MarkPicture
from studio.pictures.wholes import WholePicture
from studio.script.model import Show
from studio.talk.model import Number
from studio.talk.numbers import PLURALS

NAME = "pair as told"
_REACH = 3  # sentences
_SOON = 1  # sentences
_AND = " and "
_IN_TWOS = frozenset("pair pairs paired partner partners".split())
"""Words of a sentence that puts a row to as many of the other ("Seven have a partner, so that's fourteen")."""
_FIRST = re.compile(r" (?:(#)(?: [a-z]+)? and (#)|an? (#) (?:and|with) an? (?:[a-z]+ )?(#))(?= )(?! # )")


def find(case: Case) -> Iterator[Finding]:
    yield from _told_first(case)
    yield from _both(case)
    for appearance in case.pictures:
        direction, picture = appearance.moment.direction, appearance.picture
        pair = _pair(picture)
        if pair is None or not isinstance(direction, Show) or direction.place.line in case.excused:
            continue
        if 0 in pair and _AND not in direction.text:
            continue  # "[show rekenrek: 5]": nothing lies beside it, and "one slide" is no second row
        index = case.sentence_index(appearance.moment.word)
        first, last = case.sentences_around(index, 1, _REACH)
        near = [
            s
            for s in case.sentences[first : last + 1]
            if s.start < appearance.until or s.start <= appearance.moment.word
        ]
        told = {value for sentence in near for value in sentence.values}
        missing = [value for value in pair if value not in told]
        if len(missing) != 1 or pair[0] == pair[1]:
            continue
        (there,) = {*pair} - {*missing}
        known = visible(picture) | structure(picture) | {sum(pair), abs(pair[0] - pair[1])}
        for sentence in near:
            others = {number.value for number in sentence.numbers if not _digit_of(case, number, there)} - {there}
            if (
                sentence.values.count(there)
                == 1  # twice is the double beside it ("six and six make twelve, one more …")
                and len(others) == 1
                and not others & known
                and not (others == {2 * min(pair)} and case.has_word(sentence, _IN_TWOS))
                and not case.is_excused(sentence.start, sentence.end)
            ):
                (other,) = others
                yield _finding(appearance, pair, (there, other))
                break


def _told_first(case: Case) -> Iterator[Finding]:
    """The pair that is told first when the picture comes on: it has one number of the pair that is shown, so
    it should have the other, too."""
    speech = case.talk.speech
    shown = _told_first_with(case)
    for match in _FIRST.finditer(speech.text) if shown else ():
        one, other = (speech.number_at[match.start(group)] for group in ((1, 2) if match[1] else (3, 4)))
        seen = shown.get(one.start)
        pair = None if seen is None else _pair_or_parts(seen.picture)
        if seen is None or pair is None or case.covering.get(one.start) or case.covering.get(other.start):
            continue
        tens = case.says(one.end, one.end + 1, ("tens",)) and not case.says(other.end, other.end + 1, ("tens",))
        told = (10 * one.value if tens else one.value, other.value)  # "four tens and twenty-two ones"
        others = {*told} - {*pair}
        if sorted(told) == sorted(pair) or not {*told} & {*pair} or others & _of_rows(seen.picture, sum(pair)):
            continue
        index = case.sentence_index(one.start)
        sentence = case.sentences[index]
        if any(
            sorted(told) == sorted(_pair_or_parts(other.picture) or ())
            for other in case.on_screen(one.start, other.start)
        ):
            continue  # two pairs beside each other, and the first is told first
        if case.has_word(sentence, SUPPOSED) or denied(case, one) or case.asks(sentence):
            continue
        if {*pair} <= {*case.sentences[max(0, case.sentence_index(seen.moment.word) - 1)].values}:
            continue  # told before: "I know that six and six make twelve. [show dice: 6 and 6] Then six and seven …"
        if case.moments_between(seen.moment.word, one.start) or _excused(case, seen, sentence.start, sentence.end):
            continue
        yield _finding(seen, pair, told)


def _of_rows(picture: Picture, total: int) -> frozenset[int]:
    """What can be told of a picture beside its pair: the total, and the fives and tens of its rows."""
    return frozenset((total,)) | (structure(picture) if isinstance(picture, Rekenrek | MarkPicture) else frozenset())


def _told_first_with(case: Case) -> dict[int, Appearance]:
    """The pictures of pairs, by the word of the first number that is told soon after they come on."""
    found: dict[int, Appearance] = {}
    for seen in case.pictures:
        if _pair_or_parts(seen.picture) is None or not isinstance(seen.moment.direction, Show):
            continue
        at = bisect_left(case.number_starts, seen.moment.word)
        _, last = case.sentences_around(case.sentence_index(seen.moment.word), 0, _SOON)
        if at < len(case.counted) and case.counted[at].start < case.sentences[last].end:
            found[case.counted[at].start] = seen
    return found


def _both(case: Case) -> Iterator[Finding]:
    """ "Both sixes", of two dice that have just come on."""
    for seen in case.pictures:
        if not isinstance(seen.picture, Dice) or len(seen.picture.values) != 2:
            continue
        if not isinstance(seen.moment.direction, Show):
            continue
        sentence = case.sentences[case.sentence_index(seen.moment.word)]
        words = [word.plain for word in case.talk.words[sentence.start : sentence.end]]
        told = next((PLURALS[word] for before, word in pairwise(words)
                     if before == "both" and word in PLURALS), None)  # fmt: skip
        pair = seen.picture.values[0], seen.picture.values[1]
        if told is None or pair == (told, told) or case.asks(sentence) or case.has_word(sentence, SUPPOSED):
            continue
        if not _excused(case, seen, sentence.start, sentence.end):
            yield _finding(seen, pair, (told, told))


def _excused(case: Case, seen: Appearance, start: int, end: int) -> bool:
    return seen.moment.direction.place.line in case.excused or case.is_excused(start, end)


def _finding(seen: Appearance, pair: tuple[int, int], told: tuple[int, int]) -> Finding:
    direction = seen.moment.direction
    return Finding(NAME, "error", direction.place.line, direction.place.column, "", direction.text,
                   f"Line {direction.place.line} shows {row(pair)}, and {row(told)} are told with it.",
                   f"Show {row(told)}, or tell what is shown.")  # fmt: skip


def _pair_or_parts(picture: Picture) -> tuple[int, int] | None:
    """The two numbers that a picture shows side by side, or the two parts of a whole where all is known."""
    if isinstance(picture, WholePicture):
        first, *rest = picture.parts
        return (first, rest[0]) if len(rest) == 1 and first is not None and rest[0] is not None else None
    pair = _pair(picture)
    return None if pair is None or 0 in pair else pair


def _digit_of(case: Case, number: Number, there: int) -> bool:
    """Whether it counts the tens or the ones of the number that is there ("And forty is four tens")."""
    tens, ones = divmod(there, 10)
    return (number.value == tens and case.says(number.end, number.end + 1, ("ten", "tens"))) or (
        number.value == ones and case.says(number.end, number.end + 1, ("one", "ones"))
    )


def _pair(picture: Picture) -> tuple[int, int] | None:
    """The two numbers that a picture shows side by side; None where it shows others."""
    match picture:
        case CompareBars() | Rekenrek():
            return picture.upper, picture.lower
        case Dice() if len(picture.values) == 2:
            return picture.values[0], picture.values[1]
        case MarkPicture() if picture.dots and picture.crosses:
            return picture.dots, picture.crosses
        case _:
            return None
