"""Numbers told one after another, by which what is on the screen is told off: the bundles of a tally ("Five, ten,
fifteen, and four sticks on the end"), the lines of a ten picture ("Ten, twenty, thirty, and two"), dice one by one or
together so far ("Six, twelve, eighteen"), cards from left to right, the stops of hops, a marked number between its
neighbours. Where all of them but one are as the picture has them, that one is a slip. A count of four numbers or more
that does not go on evenly is minded without a picture; see "count goes on"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise

from studio.agree.case import Case, Sentence
from studio.agree.denials import not_meant
from studio.agree.looks import picked_out, relation
from studio.agree.wording import of_number, row
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.cards import Cards
from studio.pictures.kinds.tally import Tally
from studio.pictures.marks import MarkPicture
from studio.pictures.spans import SpanPicture
from studio.script.model import Show
from studio.talk.model import Number

NAME = "told in a row as shown"
_ROW = re.compile(r"#(?: (?:[,.] (?:¶ )?(?:(?:and|then|next|now) )*|(?:(?:and|then|next|now) )+)#){2,}")
_JOINED = ("and", "then", "next", "now")
_FEWEST = 3
_LONGEST = 24  # numbers of one row: keeps the time in proportion to the length

_QUOTES = "\"'”’)*_"

Row = tuple[int, ...]


def find(case: Case) -> Iterator[Finding]:
    if not case.pictures:
        return
    speech = case.talk.speech
    for match in _ROW.finditer(speech.text):
        for numbers in _parted(case, speech.numbers_in(*match.span())):
            if _tells_how_many(case, numbers):
                del numbers[0]
            if _FEWEST <= len(numbers) <= _LONGEST and not case.is_excused(numbers[0].start, numbers[-1].end):
                yield from _in(case, numbers)


def _parted(case: Case, numbers: Sequence[Number]) -> Iterator[list[Number]]:
    """Numbers that follow one another, parted where a picture comes on and where a sentence ends, unless each stands
    alone ("Five. Ten. Fifteen.")."""
    part = [numbers[0]]
    for before, number in pairwise(numbers):
        one, other = (case.sentences[case.sentence_index(each.start)] for each in (before, number))
        comes_on = any(isinstance(moment.direction, Show) for moment in case.moments_between(before.start, number.end))
        if comes_on or (one is not other and not (_alone(case, one) and _alone(case, other))):
            yield part
            part = []
        part.append(number)
    yield part


def _tells_how_many(case: Case, numbers: Sequence[Number]) -> bool:
    """Whether the first number answers how many others come ("How many jumps is that? Three. 45. 35. 25.")."""
    asked = case.question_before(case.sentence_index(numbers[0].start))
    return asked is not None and numbers[0].value == len(numbers) - 1


def _alone(case: Case, sentence: Sentence) -> bool:
    """Whether a sentence is one number and nothing more."""
    return len(sentence.numbers) == 1 and all(
        case.talk.words[at].plain in _JOINED
        for at in range(sentence.start, sentence.end)
        if not sentence.numbers[0].start <= at < sentence.numbers[0].end
    )


def _in(case: Case, numbers: Sequence[Number]) -> Iterator[Finding]:
    """The number of a row that is not as a picture has it, where all the others are."""
    start, end = numbers[0].start, numbers[-1].end
    shown = case.on_screen(start, end)
    if not shown or not_meant(case, start, end):
        return
    values = tuple(number.value for number in numbers)
    if any(_is_whole_and_parts(seen.picture, values) or _but_for(case, seen.picture, numbers) for seen in shown):
        return
    breaks = _breaks(case, numbers)
    fitting: set[int] = set()
    near: dict[Row, int] = {}
    for told in {told for seen in shown for told in readings(seen.picture)}:
        for at in range(len(values) - len(told) + 1):
            if at not in breaks or at + len(told) not in breaks:
                continue
            off = [place for place, value in enumerate(told, at) if values[place] != value]
            if not off:
                fitting.update(range(at, at + len(told)))
            elif len(off) == 1 and breaks.isdisjoint(range(at + 1, at + len(told))):
                near[told] = off[0]
    places = {*near.values()}
    if not places or places & fitting:
        return
    if any(s.holds is not None for place in places for s in case.covering.get(numbers[place].start, ())):
        return
    number = numbers[min(places)]
    meant = sorted(", ".join(map(str, told)) for told in near)
    yield of_number(NAME, number, "",
                  f"Line {number.line} tells {row(values)} one after another, and that is not as the screen has it.",
                  f"Say {'; or '.join(meant)}.")  # fmt: skip


def _is_whole_and_parts(picture: Picture, values: Row) -> bool:
    """Whether the numbers are the parts of a picture with their whole ("Ten, and two, and twelve for the whole")."""
    found = relation(picture)
    return found is not None and sorted(values) == sorted((*found.parts, found.whole))


def _but_for(case: Case, picture: Picture, numbers: Sequence[Number]) -> bool:
    """Whether they are all cards on the screen but for one that the sentence before or the next one names ("I say seven. Two,
    four and eight are numbers we say when we count by twos.")."""
    if not isinstance(picture, Cards):
        return False
    left = list(picture.numbers)
    for number in numbers:
        if number.value not in left:
            return False
        left.remove(number.value)
    at = case.sentence_index(numbers[0].start)
    first, last = case.sentences_around(at, 1, 1)
    return any(left == [*case.sentences[near].values] for near in (first, last) if near != at)


def _breaks(case: Case, numbers: Sequence[Number]) -> set[int]:
    """Where a row may begin or end: at its ends, and where a clause with a colon ends ("Start at 6 and count up 2: 7, 8.")."""
    words = case.talk.words
    inside = (
        at
        for at, (before, _) in enumerate(pairwise(numbers), 1)
        if words[before.end - 1].text.rstrip(_QUOTES).endswith(":")
    )
    return {0, *inside, len(numbers)}


def readings(picture: Picture) -> Iterator[Row]:
    """The rows of three or more numbers by which what a picture shows is told off."""
    match picture:
        case Tally():
            found = _by_groups(picture.value, 5)
        case BaseTen():
            found = _by_groups(picture.value, 10)
        case MarkPicture() if picture.framed:
            found = _by_groups(picture.total, 5)
        case Cards():
            faces = picture.numbers
            found = [faces[:size] for size in range(_FEWEST, len(faces) + 1)]
        case SpanPicture() if picture.hops:
            found = _stops(picture)
        case SpanPicture() if len(picked_out(picture)) == 1:
            (mark,) = picked_out(picture)
            found = [(mark - 1, mark, mark + 1), (mark + 1, mark, mark - 1)]
        case _:
            found = _of_parts(picture)
    return (told for told in found if len(told) >= _FEWEST)


def _by_groups(value: int, size: int) -> list[Row]:
    """ "Five, ten, fifteen, and two", "five, ten, fifteen, sixteen, seventeen", "five and five and five and two"."""
    many, rest = divmod(value, size)
    groups = tuple(size * at for at in range(1, many + 1))
    ones = tuple(range(size * many + 1, value + 1))
    if not rest:
        return [groups, (size,) * many]
    return [
        groups,
        (*groups, *ones),
        (*groups, rest),
        (*groups, value),
        (*groups, rest, value),
        ((size,) * many + (rest,)),
    ]


def _stops(picture: SpanPicture) -> list[Row]:
    """The ends of hops that follow one another, with their start or without."""
    (start, _), *_ = picture.hops
    if any(before[1] != after[0] for before, after in pairwise(picture.hops)):
        return []
    ends = tuple(end for _, end in picture.hops)
    return [ends, (start, *ends)]


def _of_parts(picture: Picture) -> list[Row]:
    """Three or more parts, one by one or together so far; where one of two parts is two, the other counted on by it."""
    found = relation(picture)
    if found is None:
        return []
    if len(found.parts) == 2 and min(found.parts) == 2:
        big = max(found.parts)
        return [(big, big + 1, big + 2), (big + 2, big + 1, big)]
    if len(found.parts) < _FEWEST:
        return []
    return [found.parts, (*found.parts, found.whole), tuple(accumulate(found.parts))]
