"""A number that the words around the place name as a part of another or as its neighbour: its tens or its ones ("a 9 sits in
the ones place"), what it ends in, the digit in its word ("six, teen"), what stands above it, below it, beside it on a chart,
ten more and ten less; and a number in pieces ("ten on the left and two over", "thirty and four more, thirty-four"). The other
number is looked for in the sentence ("s"), in the sentences next to it ("p"), in the topic, the title and the newest picture
("t")."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain

from studio.agree.case import Sentence
from studio.agree.expect.hints import Hint, named
from studio.agree.expect.place import Book, Place, by_word
from studio.script.model import Word

_AHEAD = 6  # words before a number in which the part may be named
_SHORT = 4  # words of a sentence that answers the one before
_NUMBERS = 3  # of a sort of source
_BEST = ("s", "t", "p")
"""Sorts of source, the most telling first."""
_ALL_DIGITS = 12  # up to it, the word of a number does not tell its digits

_DIRECT: Mapping[str, str] = by_word(
    {
        "T": "ten tens rod rods stick sticks longs",
        "O": "ones square squares cube cubes unit units single singles loose",
        "W": "teen letter letters",
    }
)
"""Words right behind a number that make it a part."""

_CUES: Mapping[str, str] = by_word(
    {
        "T": "tens rods sticks",
        "O": "ones squares cubes loose",
        "E": "ends end digit digits",
        "^": "above over",
        "v": "under below beneath underneath",
        "<": "before left previous",
        ">": "after right next",
        "b": "between neighbour neighbours neighbor neighbors",
    }
)
"""Words before a number, or in the question before, that name what it is to another."""

_STEPS: Mapping[str, tuple[int, ...]] = {
    "^n": (-10,), "^q": (-10,), "vn": (-10,), "vq": (10,), "<q": (-1,), ">q": (1,), "bq": (1, -1),
}  # fmt: skip
"""By cue and its place: how far the number can lie from the other one."""


def find(place: Place) -> Iterator[Hint]:
    for cue in _cues(place):
        met: set[str] = set()
        for source, value in sources_of(place):
            for found, name in _named(cue, value):
                if name + source not in met:  # the nearest of each sort
                    met.add(name + source)
                    yield found, named(f"Vp{name}:{source}")
    if place.preceding or place.following:
        yield from _pieces(place)


_Sources = tuple[tuple[str, int], ...]


def _sources(book: Book) -> dict[int, _Sources]:
    """What is kept for places, by their index."""
    return {}


def _sources_around(book: Book) -> dict[tuple[int, int, int], _Sources]:
    """What is kept for sentences, by their index, the newest picture and a number of the topic."""
    return {}


def _topics(book: Book) -> dict[int, tuple[list[tuple[int, int]], frozenset[int]]]:
    """What is kept for segments."""
    return {}


def sources_of(place: Place) -> _Sources:
    """The numbers near the place that its number may be a part of, each once for a sort of source, the nearest first; made
    once for a place."""
    kept = place.book.once(_sources)
    found = kept.get(place.index)
    if found is None:
        found = _around(place)
        if place.others:
            found = (*_same(place), *found)
        kept[place.index] = found
    return found


def _same(place: Place) -> list[tuple[str, int]]:
    """The nearest numbers of the sentence."""
    others, start = place.others, place.number.start
    if len(others) == 1:
        return [("s", others[0].value)]
    nearest = sorted([(abs(other.start - start), at, other.value) for at, other in enumerate(others)])
    return [("s", value) for value in dict.fromkeys([value for _, _, value in nearest[:_NUMBERS]])]


def _around(place: Place) -> _Sources:
    """The numbers of the sentences beside; what the segment is about and what the newest picture shows. Made once for a
    sentence and a picture."""
    book, start = place.book, place.number.start
    topic, starts = _topic(book, place.segment)
    screen = book.screen(start, start + 1)
    key = place.sentence_index, id(screen[0].picture) if screen else 0, start if start in starts else -1
    kept = book.once(_sources_around)
    found = kept.get(key)
    if found is None:
        near = dict.fromkeys(chain(_beside(place, -1), _beside(place, 1), _beside(place, -2)))
        told = dict.fromkeys([value for at, value in topic if at != start])
        if screen:
            told.update(dict.fromkeys(book.look(screen[0].picture).essential[:_NUMBERS]))
        found = kept[key] = (
            *[("p", value) for value in [*near][: _NUMBERS + 1]],
            *[("t", value) for value in [*told][: 2 * _NUMBERS]],
        )
    return found


def _beside(place: Place, step: int) -> Sequence[int]:
    """The numbers of a sentence beside, the nearest first."""
    said = place.said_beside(step)
    return said[:2] if step > 0 else said[:-3:-1]


def _topic(book: Book, segment: int) -> tuple[list[tuple[int, int]], frozenset[int]]:
    """What a segment is about, each with the word where it is said (-1: in a title); and these words."""
    kept = book.once(_topics)
    found = kept.get(segment)
    if found is None:
        said = [(number.start, number.value) for number in book.case.topic_numbers.get(segment, ())][:_NUMBERS]
        titles = (*sorted(book.titles.get(segment, ())), *book.case.header_numbers)
        topic = [*said, *((-1, value) for value in titles[:_NUMBERS])]
        found = kept[segment] = topic, frozenset([start for start, _ in said])
    return found


class Said:
    """Where words of a sort are said in a lesson."""

    __slots__ = ("at", "sorts")

    def __init__(self, words: Iterable[Word], sorts: Mapping[str, str]) -> None:
        found = [(at, sorts[word.plain]) for at, word in enumerate(words) if word.plain in sorts]
        self.at = [at for at, _ in found]
        self.sorts = [sort for _, sort in found]

    def before(self, end: int, start: int) -> tuple[int, str]:
        """The last of them from word `start` to before word `end`, and its sort ("": there is none)."""
        found = bisect_left(self.at, end) - 1
        return (self.at[found], self.sorts[found]) if found >= 0 and self.at[found] >= start else (-1, "")

    def behind(self, start: int, end: int) -> tuple[int, str]:
        """The first of them from word `start` to before word `end`, and its sort ("": there is none)."""
        found = bisect_left(self.at, start)
        return (self.at[found], self.sorts[found]) if found < len(self.at) and self.at[found] < end else (-1, "")


def _cues_said(book: Book) -> Said:
    return Said(book.words, _CUES)


def answered(place: Place) -> Sentence | None:
    """The sentence before a place in its segment, where that of the place is a short answer."""
    index = place.sentence_index
    if place.number.start - place.sentence.start > _SHORT or not index:
        return None
    before = place.book.case.sentences[index - 1]
    return before if before.segment == place.segment else None


def _cues(place: Place) -> Iterator[str]:
    """What names a part, with where it stands: "a" right behind the number, "n" right before it, "b" before it, "q" in the
    question before, which the place's sentence answers."""
    words, number, sentence = place.book.words, place.number, place.sentence
    if place.after.word in _DIRECT:
        yield _DIRECT[place.after.word] + "a"
    elif number.end < len(words) and words[number.end].plain == "teen":  # "six, teen"
        yield "Wa"
    cues = place.book.once(_cues_said)
    at, cue = cues.before(number.start, max(number.start - _AHEAD, sentence.start))
    if cue:
        yield cue + ("n" if number.start - at <= 2 else "b")
        return
    before = answered(place)
    if before is not None and place.book.case.asks(before):
        _, cue = cues.before(before.end, max(before.start, before.end - 2 * _AHEAD))
        if cue:
            yield cue + "q"


def _named(cue: str, value: int) -> Iterator[tuple[int, str]]:
    """What a number has as the part or the neighbour that is named, each with its name."""
    if cue[0] in "TO" and cue[1] in "bn":  # "the tens went from 4": too seldom
        return
    match cue[0]:
        case "T" if value > 9:
            yield value // 10, cue
        case "O" if value > 9:
            yield value % 10, cue
        case "E" if value > 9:
            yield value % 10, cue + "o"
            yield value // 10, cue + "t"
        case "W" if value > _ALL_DIGITS:
            yield (value % 10 if value < 20 else value // 10), cue
        case _:
            for step in _STEPS.get(cue, ()):
                yield value + step, f"{cue}{step}"


def _joined(link: str) -> str:
    """How a number next to the place is joined to it: "j" closely, "e" by equals, "S" in another sentence, "x" otherwise."""
    return "e" if "E" in link else "j" if link in ("0", "A") else "S" if link.startswith("S") else "x"


def _pieces(place: Place) -> Iterator[Hint]:
    """The other piece of a number in tens and ones, where one piece is said next to the place; and the whole where both are."""
    preceding, following = place.preceding, place.following
    to_last = _joined(place.link(-1)) if preceding else "x"
    to_next = _joined(place.link(0)) if following else "x"
    sides: list[tuple[str, int]] = []
    if to_last in "jS" and (preceding[-1] < 10 or preceding[-1] % 10 == 0):
        sides.append((f"p{to_last}", preceding[-1]))
    if to_next in "jS" and (following[0] < 10 or following[0] % 10 == 0):
        sides.append((f"n{to_next}", following[0]))
    # A piece is tens, or a digit; and only a number that has tens and ones is in pieces.
    wholes = [source for source in sources_of(place) if source[1] > 10 and source[1] % 10] if sides else []
    if wholes:
        best: dict[tuple[int, str], str] = {}
        for side, mate in sides:
            for source, whole in wholes:
                for value, piece in _other_piece(whole, mate, place.after.word):
                    key = value, piece + side
                    if key not in best or _BEST.index(source) < _BEST.index(best[key]):
                        best[key] = source
        for (value, name), source in best.items():
            yield value, named(f"VpX{name}:{source}")
    if len(preceding) > 1:
        ones, tens = sorted(preceding[-2:])
        if 0 < ones < 10 <= tens and tens % 10 == 0 and _joined(place.link(-2)) == "j":
            yield tens + ones, named("VpX+:" + to_last)
    if to_next == "j" and len(following) > 1:
        near, whole = following[:2]
        if whole > 10 and near == whole % 10:
            yield whole // 10 * 10, named("VpX=t:" + _joined(place.link(1)))
        elif whole > 10 and near == whole // 10 * 10:
            yield whole % 10, named("VpX=o:" + _joined(place.link(1)))


def _other_piece(whole: int, mate: int, thing: str) -> Iterator[tuple[int, str]]:
    """What goes with a piece of a number, by the piece that it is."""
    tens, ones = whole // 10 * 10, whole % 10
    if mate not in (tens, ones, tens // 10):
        return
    part = _DIRECT.get(thing, "")
    if mate == tens:
        yield ones, "o"
    elif mate == ones:
        yield (tens // 10, "d") if part == "T" else (tens, "t")
    elif mate == tens // 10 and part == "O":
        yield ones, "e"
