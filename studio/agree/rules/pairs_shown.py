"""Two numbers that are shown side by side (bars, dice, rows of beads, dots and crosses) are told side by side. Where a
sentence with the picture tells one of them with a number that is not there, and the other is not told at all, one of
the two is a slip ("11 is more than 8", over bars of 1 and 8)."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.looks import structure, visible
from studio.agree.wording import row
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.kinds.dice import Dice
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.marks import MarkPicture
from studio.script.model import Show
from studio.talk.model import Number

NAME = "pair as told"
_REACH = 3  # sentences
_AND = " and "


def find(case: Case) -> Iterator[Finding]:
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
                and not case.is_excused(sentence.start, sentence.end)
            ):
                (other,) = others
                yield Finding(
                    NAME, "error", direction.place.line, direction.place.column, "", direction.text,
                    f"Line {direction.place.line} shows {row(pair)}, and {row([there, other])} are told with it.",
                    f"Show {row([there, other])}, or tell what is shown.",
                )  # fmt: skip
                break


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
