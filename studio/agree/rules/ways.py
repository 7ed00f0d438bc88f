"""A number that is shown in several ways one after another is the same each time."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from studio.agree.case import Appearance, Case
from studio.agree.denials import one_is_odd
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.more_and_less import MoreAndLess
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.kinds.tally import Tally
from studio.pictures.kinds.word import Word
from studio.pictures.marks import MarkPicture
from studio.pictures.spans import SpanPicture
from studio.script.model import Show

NAME = "the same number each time"
_ENOUGH = 3  # pictures of different kinds that agree
_SOON = 3  # sentences


def find(case: Case) -> Iterator[Finding]:
    by_segment: dict[int, list[tuple[int, Appearance]]] = {}
    for appearance in case.pictures:
        value = _value(appearance.picture)
        if value and isinstance(appearance.moment.direction, Show) and id(appearance) not in case.growing:
            by_segment.setdefault(appearance.moment.direction.segment, []).append((value, appearance))
    for shown in by_segment.values():
        kinds: dict[int, set[str]] = {}
        for value, appearance in shown:
            kinds.setdefault(value, set()).add(appearance.picture.kind)
        (value, _), *_ = Counter({value: len(found) for value, found in kinds.items()}).most_common(1)
        others = [appearance for other, appearance in shown if other != value]
        if len(kinds[value]) < _ENOUGH or len(others) != 1:
            continue
        other = others[0]
        direction = other.moment.direction
        if other.picture.kind in kinds[value] or _said_with(case, other) or direction.place.line in case.excused:
            continue
        index = case.sentence_index(other.moment.word)
        if one_is_odd(case, *case.sentences_around(index, _SOON, _SOON)):
            continue
        yield Finding(NAME, "error", direction.place.line, direction.place.column, "", direction.text,
                      f"Line {direction.place.line} shows {_value(other.picture)}; the other pictures of this segment "
                      f"show {value}.", f"Show {value}, or say {_value(other.picture)} with it.")  # fmt: skip


def _value(picture: Picture) -> int | None:
    match picture:
        case BaseTen() | Tally() | MoreAndLess():
            return picture.value
        case Word() if picture.numbers:
            return picture.numbers[0]
        case Rekenrek():
            return picture.upper + picture.lower
        case MarkPicture():
            return picture.total
        case SpanPicture() if len(picture.marked) == 1:
            return picture.marked[0]
        case _:
            return None


def _said_with(case: Case, appearance: Appearance) -> bool:
    """Whether its number is said in the sentences around it."""
    index = case.sentence_index(appearance.moment.word)
    value = _value(appearance.picture)
    return any(value in sentence.values for sentence in case.sentences[max(0, index - 1) : index + 3])
