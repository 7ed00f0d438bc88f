"""The words before and after a place in their order, as tokens: "and # make", "# and _ is #". Every number in them is a sign
(`#`), for which number it is the clues tell; in the wider ones a word that is not frequent is a sign, too (`w`; `ws` where it
ends like a plural), so that a pattern that was learned of frogs is known of kettles."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence

from studio.agree.expect.hints import Bundle, at_place
from studio.agree.expect.place import Book, Place

_REACH = 5  # words on each side
_AS_SAID = range(1, 5)
_WITH_SIGNS = range(2, 6)
"""Lengths of the patterns on one side, in words."""
_BOTH_AS_SAID = ((1, 1), (2, 1), (1, 2), (2, 2))
_BOTH_WITH_SIGNS = (*_BOTH_AS_SAID, (3, 2), (2, 3), (3, 3))
"""Words before the place and after it of the patterns that go over it."""
_BESIDE = 3  # words of the sentences beside it
_START, _END = "^", "$"
NUMBER = "#"
"""The sign for a number."""
_NUMBERS = 6
FREQUENT = frozenset(
    "the and is a are to you of it on in i how so many that we there with plus at what now up for make grade your equals my than "
    "then have them has ones tens from me all away take see frogs this by do here left it's ducks back that's less down if go out "
    "say count was as were they minus can she more number look not pond be same he first did no right double row which like still "
    "good again off story whole frame who needs before part because put had fish got snails just know full some come top other "
    "dots only otter our frog over write but little each otters day or start next would series partners when way another came today "
    "there's duck morning after well about water us goes comes let's get time let don't under last line tell too where empty side "
    "fingers big does long makes home both says every beads her will i'm bond dice i've find draw bundles end bar went sticks need "
    "snail what's its log hops numbers heron sit together hop crosses show warm below newts even sentence an think could turn hand "
    "please parts reeds nobody check small yes dragonflies his fewer hello cards something word steps bottom into going half very "
    "along said add lily pads hands here's step missing paper want eyes rest chart i'll must eggs bank shells am answer round "
    "ducklings read partner bundle card counting nothing bye oh door night those feet give leaves box boxes gone somebody odd "
    "found hear why hiding quick pencil marks middle stop question far bit path between friends short doubles wants done pairs "
    "pebbles been equal single rows pair always jump keep since ready i'd stayed mind stone ring greater own finger turtles pad "
    "beaver close these walk roll made may newt stand open their fill leaf altogether pace k".split()
)
"""The words that are most frequent in the lessons in benchmarks/lessons, without numbers."""


def patterns(place: Place) -> tuple[Bundle, Bundle]:
    """The patterns of a place, with where in its sentence it stands among the other numbers; how the sentences beside it begin
    and end."""
    lines = place.book.once(_Lines)
    kept = lines.of.get(place.index)
    if kept is None:
        kept = lines.of[place.index] = at_place(_of(place, lines))
    return kept, lines.beside(place.sentence_index)


def as_said(book: Book) -> Sequence[str]:
    """The words of a lesson, with the sign for each word of a number."""
    return book.once(_Lines).as_said


def _of(place: Place, lines: _Lines) -> list[str]:
    number, sentence = place.number, place.sentence
    at = place.index - bisect_left(place.book.case.number_starts, sentence.start)
    names = [f"@k{min(_NUMBERS, at)}/{min(_NUMBERS, len(sentence.numbers))}"]
    for mark, line, one_side, both in (
        ("@", lines.as_said, _AS_SAID, _BOTH_AS_SAID),
        ("!", lines.with_signs, _WITH_SIGNS, _BOTH_WITH_SIGNS),
    ):
        before, after = _sides(line, number.start, number.end, sentence.start, sentence.end)
        names += [f"{mark}-{'_'.join(before[-many:])}" for many in one_side if len(before) >= many]
        names += [f"{mark}+{'_'.join(after[:many])}" for many in one_side if len(after) >= many]
        names += [
            f"{mark}={'_'.join(before[-left:])}@{'_'.join(after[:right])}"
            for left, right in both
            if len(before) >= left and len(after) >= right
        ]
    return names


def _sides(line: Sequence[str], first: int, last: int, start: int, end: int) -> tuple[list[str], list[str]]:
    """What stands before word `first` and from word `last` on, in the sentence from `start` to `end`."""
    before, after = list(line[max(start, first - _REACH) : first]), list(line[last : min(end, last + _REACH)])
    if first - _REACH <= start:
        before.insert(0, _START)
    if last + _REACH >= end:
        after.append(_END)
    return before, after


class _Lines:
    """The words of a lesson with signs for numbers, and with signs for words that are not frequent, too."""

    def __init__(self, book: Book) -> None:
        self._book = book
        self._beside: dict[int, Bundle] = {}
        self.of: dict[int, Bundle] = {}
        """The patterns of each number by its index."""
        self.as_said = [word.plain for word in book.words]
        for number in book.numbers:
            self.as_said[number.start : number.end] = NUMBER * (number.end - number.start)
        self.with_signs = [_sign(word) for word in self.as_said]

    def beside(self, at: int) -> Bundle:
        """How the sentence before this one begins and ends, and how the one after it begins; the same for all its numbers."""
        kept = self._beside.get(at)
        if kept is None:
            kept = self._beside[at] = at_place(self._of_neighbours(at))
        return kept

    def _of_neighbours(self, at: int) -> Iterator[str]:
        case = self._book.case
        first, last = case.sentences_around(at, 1, 1)
        if first < at:
            before = case.sentences[first]
            asks = "?" if case.asks(before) else ""
            yield f"!p{'_'.join(self.with_signs[max(before.start, before.end - _BESIDE) : before.end])}{asks}"
            yield f"!f{'_'.join(self.with_signs[before.start : min(before.end, before.start + _BESIDE)])}{asks}"
        if last > at:
            after = case.sentences[last]
            asks = "?" if case.asks(after) else ""
            yield f"!n{'_'.join(self.with_signs[after.start : min(after.end, after.start + _BESIDE)])}{asks}"


def _sign(word: str) -> str:
    if word in FREQUENT or word == NUMBER:
        return word
    return "ws" if word.endswith("s") else "w"
