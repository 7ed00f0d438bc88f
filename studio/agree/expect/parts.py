"""What a picture is made of: each part with a short name, so that it can be learned which words go with which part."""

from __future__ import annotations

from collections.abc import Iterator

from studio.pictures.base import Picture
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.cards import Cards
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.kinds.dice import Dice
from studio.pictures.kinds.more_and_less import MoreAndLess
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.kinds.tally import Tally
from studio.pictures.kinds.word import Word
from studio.pictures.marks import MarkPicture
from studio.pictures.ringed import UnknownsPicture
from studio.pictures.spans import SpanPicture
from studio.pictures.wholes import WholePicture

Parts = tuple[tuple[str, int], ...]
_ROW = 5
_FRAME = 10
_NAMED = 3  # dice, addends, cards that have a name of their own


def parts(picture: Picture) -> Parts:
    """Pairs of the name of a part and its number; a number may come under several names."""
    return (*_parts(picture), *_unknown(picture))


def _parts(picture: Picture) -> Iterator[tuple[str, int]]:
    match picture:
        case MarkPicture():
            yield from _of_marks(picture)
        case Rekenrek():
            for side, beads in (("u", picture.upper), ("l", picture.lower)):
                yield f"r{side}", beads
                yield f"r{side}5", max(0, beads - _ROW)
                yield f"r{side}m", _FRAME - beads
            yield "rtot", picture.upper + picture.lower
            yield "rmis", 2 * _FRAME - picture.upper - picture.lower
        case Tally():
            yield "tb", picture.value // 5
            yield "tr", picture.value % 5
            yield "tf", picture.value // 5 * 5
            yield "tt", picture.value
        case BaseTen():
            yield "bt", picture.tens
            yield "bo", picture.ones
            yield "bT", 10 * picture.tens
            yield "bp", picture.tens + picture.ones
            yield "bv", picture.value
        case Dice():
            yield "dn", len(picture.values)
            yield "ds", sum(picture.values)
            yield "d2", sum(picture.values[:2])
            for at, value in enumerate(picture.values[:_NAMED]):
                yield f"d{'abc'[at]}", value
        case Cards():
            yield "cn", len(picture.faces)
            yield "ca", picture.faces[0]
            yield "cz", picture.faces[-1]
            for value in picture.hidden[:_NAMED]:
                yield "ch", value
        case CompareBars():
            yield "vu", picture.upper
            yield "vl", picture.lower
            yield "vd", abs(picture.upper - picture.lower)
            yield "vs", picture.upper + picture.lower
            yield "vn", 2
        case MoreAndLess():
            yield "ml", picture.value - 1
            yield "mv", picture.value
            yield "mm", picture.value + 1
            yield "mn", 2
            yield "m1", 1
        case WholePicture():
            yield "wn", len(picture.parts)
            if picture.whole is not None:
                yield "ww", picture.whole
            for at, part in enumerate(picture.parts[:_NAMED]):
                if part is not None:
                    yield f"w{'abc'[at]}", part
        case NumberSentence():
            for side, terms in zip("lr", picture.sides, strict=False):
                for at, term in enumerate(terms[:_NAMED]):
                    if term.value is not None:
                        yield f"s{side}{at}{term.sign}", term.value
        case SpanPicture():
            yield from _of_span(picture)
        case Word():
            for value in picture.numbers:
                yield "kv", value
                yield "kt", value // 10
                yield "ko", value % 10
                yield "kT", value // 10 * 10
        case _:
            return


def _unknown(picture: Picture) -> Iterator[tuple[str, int]]:
    if isinstance(picture, UnknownsPicture):
        for answer in picture.answers:
            yield "q", answer


def _of_marks(picture: MarkPicture) -> Iterator[tuple[str, int]]:
    total = picture.total
    yield "ft", total
    if picture.dots and picture.crosses:
        yield "fd", picture.dots
        yield "fc", picture.crosses
    yield "fr", total // _ROW
    yield "fo", total % _ROW
    yield "f5", total // _ROW * _ROW
    if not picture.framed:
        return
    if total < _FRAME:
        yield "fa", min(_ROW, total)
        yield "fb", max(0, total - _ROW)
        yield "fT", _FRAME - total
    else:
        yield "fA", _FRAME
        yield "fB", total - _FRAME
        yield "fF", total // _FRAME
        yield "fM", 2 * _FRAME - total
    if total < _ROW:
        yield "fV", _ROW - total
    yield "fe", picture.capacity - total
    yield "fn", max(1, picture.capacity // _FRAME)


def _of_span(picture: SpanPicture) -> Iterator[tuple[str, int]]:
    yield "ps", picture.start
    yield "pe", picture.end
    yield "pn", picture.end - picture.start
    if picture.marked:
        yield "pm", picture.marked[-1]
    if picture.lit:
        yield "pl", picture.lit[-1]
    if picture.hops:
        first, last = picture.hops[0], picture.hops[-1]
        yield "ph", len(picture.hops)
        yield "pd", abs(last[1] - first[0])
        yield "pj", abs(last[1] - last[0])
        yield "pa", first[0]
        yield "pz", last[1]
