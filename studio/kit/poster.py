"""`poster.png`: 1280 × 720, the lesson's main picture or number, its title and its place in the series."""

from __future__ import annotations

import re
from collections import Counter
from contextlib import suppress
from pathlib import Path

from studio.handout.make import printable
from studio.handout.typeset import typeset
from studio.kit.contents import KitContents
from studio.kit.pictures import final_pictures
from studio.pictures.base import Picture
from studio.pictures.painters.svg import svg
from studio.pictures.themes import hexadecimal
from studio.script.numberwords import to_number

WIDTH, HEIGHT = 1280, 720
_POSTER = Path(__file__).parent / "poster.typ"

# What makes a poster, best first; words and cards say little from afar.
_BEST = ("ten frame", "double ten frame", "number bond", "five frame", "dots", "rekenrek", "base ten", "bar")


def poster_png(contents: KitContents) -> bytes:
    """The poster as the bytes of a PNG."""
    header = contents.lesson.header
    theme = contents.theme
    picture = main_picture(contents)
    number = _number(contents, picture)
    values = {
        "paper": hexadecimal(theme.colour("paper")),
        "card": hexadecimal(theme.colour("card")),
        "ink": hexadecimal(theme.colour("ink")),
        "quiet": hexadecimal(theme.colour("quiet")),
        "title": printable(header.title),
        "above": printable(header.series),
        "lesson": f"Lesson {header.number}" if header.number is not None else None,
        "svg": svg(picture.drawing(), theme, description=picture.description()) if picture is not None else None,
        "numeral": str(number) if number is not None else None,
        "tall": picture is not None and _is_tall(picture),
    }
    return typeset(_POSTER, values, "png")


def _wanted(contents: KitContents) -> list[int]:
    """The numbers that a poster may be about, best first: those of the title, that of the day, the whole."""
    titled = []
    for word in re.findall(r"[^\W_]+(?:-[^\W\d_]+)?", contents.lesson.header.title):
        with suppress(ValueError):
            titled.append(to_number(word))
    return [number for number in (*titled, contents.facts.number, contents.facts.whole) if number is not None]


def _number(contents: KitContents, picture: Picture | None) -> int | None:
    """The numeral on the poster: the lesson's, if the picture beside it shows that number in all."""
    wanted = _wanted(contents)
    return next((number for number in wanted if picture is None or number == _in_all(picture)), None)


def _in_all(picture: Picture) -> int | None:
    """The greatest number of a picture: its total, or its whole."""
    return max(picture.numbers, default=None)


def _is_tall(picture: Picture) -> bool:
    """Whether a picture needs the whole card, or has its number in it already."""
    drawing = picture.drawing()
    return drawing.height > 0.75 * drawing.width or picture.kind in ("number bond", "bar")


def main_picture(contents: KitContents) -> Picture | None:
    """The picture that stands for the lesson: of the kinds that read well from afar the one with the lesson's number,
    else the one that is used most. It gives no answer away."""
    finals = [final.untold for final in final_pictures(contents.sheet)]
    fit = [picture for picture in finals if picture.kind in _BEST]
    if not fit:
        return None
    wanted = _wanted(contents)
    kinds = Counter(picture.kind for picture in fit)

    def worth(picture: Picture) -> tuple[int, int, int]:
        place = next((at for at, number in enumerate(wanted) if number == _in_all(picture)), len(wanted))
        return -place, kinds[picture.kind], -_BEST.index(picture.kind)

    return max(fit, key=worth)
