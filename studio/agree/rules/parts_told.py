"""The two parts of a picture, told one after the other, each with its place or its sort: "Four here, two there",
"Eight dots against eight crosses", "Fourteen at home, six over the hill", "Two bundles and two strokes", "A full ten.
Six more". The words leave no doubt that both are told; where one is a part that is shown and the other is not, one of
the two is a slip. What they come to is told after them ("Four here, two there. Six again")."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import chain

from studio.agree.case import Appearance, Case
from studio.agree.looks import structure
from studio.agree.manners import labelled, only_picture
from studio.agree.wording import SUPPOSED, of_number, row
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.kinds.dice import Dice
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.kinds.tally import Tally
from studio.pictures.marks import MarkPicture
from studio.pictures.wholes import WholePicture
from studio.talk.model import Number

NAME = "parts as told"
_REACH = 3  # sentences
_TEN = 10
_FIVE = 5
_TURN = re.compile(
    r"(#) ((?:[a-z]+ ){1,7}+)"
    r"(?=(?:[,.] )?(?:¶ )?(?:and |but |with )?(?:the )?(#) ((?:[a-z]+ ){1,5}?)(?:[.,§¶]|and ))"
)
_OPPOSITE = {
    "rows": {
        "top": "bottom below underneath under", "up": "down", "above": "below underneath under beneath",
        "upper": "lower", "bottom": "top", "down": "up", "below": "above",
    },
    "sides": {"left": "right other", "right": "left other"},
    "frames": {"first": "second other next", "frame": "other second"},
    "sorts": {"dots": "crosses", "crosses": "dots"},
    "places": {
        "here": "there", "this": "that other", "one": "other", "home": "over away out off", "inside": "outside",
        "outside": "inside", "asleep": "awake", "awake": "asleep", "across": "go", "in": "out", "out": "in",
        "went": "stayed", "stayed": "went", "stay": "go", "go": "stay", "under": "on", "on": "under", "sun": "shade",
        "sunshine": "shade", "wet": "dry", "dry": "wet",
    },
}  # fmt: skip
"""Words that can only tell of one part each, by what of a picture they divide."""
_OPPOSITES = {of: {one: frozenset(others.split()) for one, others in words.items()} for of, words in _OPPOSITE.items()}
_CHANGING = frozenset(
    "more less fewer extra another plus minus make makes made equals from each every times than if or into join joins "
    "come comes came jump jumps hop hops".split()
)
_DENIED = 3  # words
_DENYING = frozenset("not isn't aren't wasn't never no nor without instead than like".split())
_PLACING = frozenset("in on at under over by near behind beside inside outside above below".split())
_WHOLE = frozenset("all whole altogether together total both everything everybody".split())
_ROWS = frozenset("row rows frame frames column columns".split())
_FULL = re.compile(r"full (?:[a-z]+ of )?(#)(?: [a-z]+)? [.,] (?:¶ )?(?:and )?(?:draw |add |put )?(#)(?= )")
_GATES = re.compile(
    r"(#) (?:(?!of)[a-z]+ )?(?:bundles|gates|fives|fences)(?: of #)?(?: (?:is|are|make|makes) (#))?"
    r"(?: [,.])?(?: ¶)?(?: and| with| plus)?(?: a)? (#) (?:[a-z]+ ){0,2}?"
    r"(?:strokes?|sticks?|lines?|marks?|loose|single|left|over|more|extra|plain)(?= )"
)
_ROD = re.compile(
    r"(?:row|bunch|bundle|stick|rod|tower|train|strip) of (#)(?: ,)?(?: and| with)? (#) "
    r"(?:of |little |small |loose |single )*(?:ones|loose|single|singles)(?= )"
)
_TOTAL = re.compile(r"[.,] (?:(?:¶|so|and|that|it|is|makes|we|have|get|oh|yes|all) )*$")
_ENDS = re.compile(r" (?:[a-z]+ )?(?:in all |altogether |together )?[.](?= )")


def find(case: Case) -> Iterator[Finding]:
    if not any(_can_have_parts(seen.picture) for seen in case.pictures):
        return
    minded: set[int] = set()
    for finding in chain(_in_turn(case), _full(case), _bundled(case), _whole_after(case)):
        if finding.line not in minded:
            minded.add(finding.line)
            yield finding


def _can_have_parts(picture: Picture) -> bool:
    return isinstance(picture, MarkPicture | WholePicture | Dice | Rekenrek | CompareBars | Tally | BaseTen)


def _in_turn(case: Case) -> Iterator[Finding]:
    """Two parts with words that only fit one each."""
    speech = case.talk.speech
    for match in _TURN.finditer(speech.text):
        first, second = match[2].split(), match[4].split()
        of = _divides(first, second)
        if of is None or (_CHANGING | _WHOLE).intersection((*first, *second)):
            continue
        one, other = speech.number_at[match.start(1)], speech.number_at[match.start(3)]
        seen = _only_picture(case, one, other)
        if seen is None or not _are_told(case, one, other):
            continue
        told = (one.value, other.value)
        if of == "sorts" and case.has_word(case.sentences[case.sentence_index(one.start)], _ROWS):
            continue  # "The bottom row has two dots and three crosses"
        if of == "whole" and case.sentences[case.sentence_index(one.start)].numbers[0] != one:
            continue  # "Four in the first half, five in the second, nine in the game"
        before = {number.value for number in case.numbers_between(seen.moment.word, one.start)}
        for pair in _pairs(seen.picture, of, "hand" in first):
            if _is_slip(told, pair, seen.picture, of) and not before & ({*pair} - {*told}):
                yield _finding(seen, other if one.value in pair else one, told, pair)
                break


def _divides(first: list[str], second: list[str]) -> str | None:
    """What of a picture two parts are told of by the words behind them, where these are opposite or both begin with a
    place."""
    for of, opposite in _OPPOSITES.items():
        if any(opposite.get(word, frozenset()).intersection(second) for word in first):
            return of
    return "whole" if first[0] in _PLACING and second[0] in _PLACING else None


def _only_picture(case: Case, one: Number, other: Number) -> Appearance | None:
    """The only picture that is on the screen while two numbers are told, if it can have parts and came not long before."""
    seen = only_picture(case, one.start, other.end)
    if seen is None or not _can_have_parts(seen.picture) or seen.moment.word > one.start:
        return None
    index = case.sentence_index(one.start)
    if index - case.sentence_index(seen.moment.word) > _REACH:
        return None
    return seen if seen.moment.direction.segment == case.sentences[index].segment else None


def _are_told(case: Case, *numbers: Number) -> bool:
    """Whether numbers are told as what is there: not asked, denied or supposed, and in no statement."""
    for number in numbers:
        sentence = case.sentences[case.sentence_index(number.start)]
        if case.covering.get(number.start) or case.asks(sentence) or labelled(case, number):
            return False
        if case.has_word(sentence, SUPPOSED) or case.is_excused(sentence.start, sentence.end):
            return False
        if case.says(number.start - _DENIED, number.start, _DENYING):
            return False
    return True


def _is_slip(told: tuple[int, int], pair: tuple[int, int], picture: Picture, of: str) -> bool:
    """Whether just one of two numbers is a part, and no other way to see the picture has both."""
    if sorted(told) == sorted(pair) or not {*told} & {*pair} or 0 in told:
        return False
    total = sum(pair)
    if sum(told) == total or (isinstance(picture, MarkPicture | Rekenrek) and sum(told) in (_TEN, 2 * _TEN)):
        return False
    if isinstance(picture, MarkPicture) and of == "places":
        return not ({*told} - {*pair}) & structure(picture)
    return True


def _pairs(picture: Picture, of: str, by_hands: bool) -> Iterator[tuple[int, int]]:
    """The pairs that a picture can be divided into in such a way."""
    match picture:
        case WholePicture() if of in ("places", "sides", "whole"):
            parts = [part for part in picture.parts if part is not None]
            if len(parts) == len(picture.parts) == 2:
                yield parts[0], parts[1]
        case Dice() if len(picture.values) == 2 and of not in ("sorts", "whole"):
            yield picture.values[0], picture.values[1]
        case CompareBars() if of not in ("sorts", "whole"):
            yield picture.upper, picture.lower
        case Rekenrek() if of in ("rows", "places") and picture.upper and picture.lower:
            yield picture.upper, picture.lower
        case MarkPicture() if picture.dots and picture.crosses:
            if of in ("sorts", "places"):
                yield picture.dots, picture.crosses
        case MarkPicture() if picture.framed:
            yield from _rows(picture, of, by_hands)
        case _:
            pass


def _rows(picture: MarkPicture, of: str, by_hands: bool) -> Iterator[tuple[int, int]]:
    """The two frames of ten, or the two rows of one, that marks of one sort lie in."""
    if picture.capacity == 2 * _TEN and _TEN < picture.total < 2 * _TEN and of == "frames":
        yield _TEN, picture.total - _TEN
    elif picture.capacity == _TEN and picture.total > _FIVE and (of == "rows" or by_hands):
        yield _FIVE, picture.total - _FIVE


def _full(case: Case) -> Iterator[Finding]:
    """What is full holds ten, and the rest is told after it ("A full ten. Six more")."""
    speech = case.talk.speech
    for match in _FULL.finditer(speech.text):
        one, other = speech.number_at[match.start(1)], speech.number_at[match.start(2)]
        seen = _only_picture(case, one, other)
        if seen is None or not isinstance(seen.picture, MarkPicture) or not _are_told(case, one, other):
            continue
        for pair in _rows(seen.picture, "frames", by_hands=False):
            if other.value == pair[1] and one.value not in (*pair, _FIVE, 2 * _TEN):
                yield _finding(seen, one, (one.value, other.value), pair)


def _bundled(case: Case) -> Iterator[Finding]:
    """So many bundles, and so many that are loose."""
    speech = case.talk.speech
    for match in chain(_GATES.finditer(speech.text), _ROD.finditer(speech.text)):
        numbers = [speech.number_at[match.start(at)] for at in range(1, match.re.groups + 1) if match[at]]
        one, other = numbers[0], numbers[-1]
        seen = _only_picture(case, one, other)
        pair = None if seen is None else _bundles(seen.picture, match.re is _GATES)
        if seen is None or pair is None or not _are_told(case, one, other):
            continue
        told = (one.value, other.value)
        if (told[0] == pair[0]) != (told[1] == pair[1]):
            yield _finding(seen, other if told[0] == pair[0] else one, told, pair)


def _bundles(picture: Picture, by_fives: bool) -> tuple[int, int] | None:
    """The bundles and the loose strokes of a tally; the ten and the ones of a picture with a single ten."""
    match picture:
        case Tally() if by_fives and picture.value % _FIVE:
            return picture.value // _FIVE, picture.value % _FIVE
        case BaseTen() if not by_fives and picture.tens == 1 and picture.ones:
            return _TEN, picture.ones
        case _:
            return None


def _whole_after(case: Case) -> Iterator[Finding]:
    """What two parts come to, told at once after them."""
    for seen in case.pictures:
        pair = _parts(seen.picture)
        if pair is None:
            continue
        index = case.sentence_index(seen.moment.word)
        _, last = case.sentences_around(index, 0, _REACH)
        told = case.numbers_between(seen.moment.word, min(seen.until, case.sentences[last].end))
        if len(told) < 3 or sorted(number.value for number in told[:2]) != sorted(pair):
            continue
        whole = told[2]
        if whole.value == sum(pair) or _only_picture(case, told[0], whole) is not seen or not _are_told(case, whole):
            continue
        if _tells_the_whole(case, whole, pair):
            yield Finding(NAME, "error", whole.line, whole.column, whole.text, seen.moment.direction.text,
                          f"Line {whole.line} tells {row(pair)} and then {whole.value}, but they come to {sum(pair)}.",
                          f"Say {sum(pair)}.")  # fmt: skip


def _parts(picture: Picture) -> tuple[int, int] | None:
    """The two parts that lie in a picture."""
    for of in ("sorts", "places"):
        for pair in _pairs(picture, of, by_hands=False):
            return None if isinstance(picture, CompareBars) or 0 in pair else pair
    return None


def _tells_the_whole(case: Case, number: Number, pair: tuple[int, int]) -> bool:
    """Whether a number stands where a whole is told: alone or with one word, at the end ("That's seven", "… , six
    newts."); "seven again" is another rule's."""
    if case.says(number.end, number.end + 1, ("again",)):
        return False
    speech = case.talk.speech
    at = speech.offset_of[number.start]
    lead = _TOTAL.search(speech.text, max(0, at - 40), at)
    end = _ENDS.match(speech.text, at + 1)
    if lead is None or end is None:
        return False
    if number.value == abs(pair[0] - pair[1]) or _CHANGING.intersection(end[0].split()):
        return False  # "Seven and eight, that is one more"
    alone = not end[0].strip(" .")
    return "that" in lead[0] or (number.value not in pair and (alone or lead[0].startswith(",")))


def _finding(seen: Appearance, number: Number, told: tuple[int, int], pair: tuple[int, int]) -> Finding:
    direction = seen.moment.direction
    return of_number(NAME, number, direction.text,
                   f"Line {number.line} tells {row(told)}, and line {direction.place.line} shows {row(pair)} "
                   f"({seen.picture.description()}).",
                   f"Say {row(pair)}, or show what you say.")  # fmt: skip
