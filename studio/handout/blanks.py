"""Blank versions of the pictures that a lesson uses, for the child to fill in on paper.

A kind with a blank is one line in `PANELS`; what is not there has no place on paper.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace

from studio.handout.facts import LessonFacts
from studio.pictures.base import CannotShow, Picture
from studio.pictures.kinds import make
from studio.pictures.painters.svg import svg
from studio.pictures.shapes import Drawing, Words
from studio.pictures.themes import load_theme
from studio.script.model import Details, Equation, Marks, Parts, Show, Span

UNIT = 0.15
"""Millimetres on paper for one unit of a picture: a place for a counter is 15 mm."""
SMALLER = 0.12
"""The same for bonds and bars, which a number is written into, and no counter laid: a blank is 13 to 18 mm."""
FULL, HALF = 176.0, 84.0
"""The widths that a panel may have, in millimetres."""
HEADING = 6.5
"""The height of a panel's title, in millimetres."""

# What need not stand on paper beside what it is a part of.
_INCLUDED = {"ten frame": "double ten frame"}
_IN_FORMS, _MOST_FORMS = frozenset({"number sentence", "number bond", "bar"}), 3
"""Kinds of which every form that the lesson uses stands on the sheet (7 + 2 = 9, 9 - 7 = 2), and of how many."""
_OF_THE_DAY = ("more and less", "word", "base ten", "tally", "dots", "dice")


@dataclass(frozen=True, slots=True)
class Panel:
    """A piece of the sheet. `sort`: "picture" (`svg`), "lines" (to write on), "space" (to draw in), "tens" (a space for
    tens and one for ones), "numeral" (a box for a number), "less" (one less, the number, one more). `width` and
    `height` are in millimetres, without the title."""

    sort: str
    title: str
    wide: bool = False
    svg: str = ""
    width: float = 0.0
    height: float = 0.0
    about: str = ""


def panels(facts: LessonFacts) -> list[Panel]:
    """The panels of the child's sheet: the number of the day first, then in the order of the lesson."""
    found: list[Panel] = []
    if facts.number is not None:
        found.append(Panel("numeral", "The number of the day", height=24.0))
    used = [show for show in _used(facts) if show.kind not in _INCLUDED or _INCLUDED[show.kind] not in facts.kinds]
    count: Counter[str] = Counter()
    for show in sorted(used, key=lambda s: _OF_THE_DAY.index(s.kind) if s.kind in _OF_THE_DAY else len(_OF_THE_DAY)):
        builder = PANELS.get(show.kind)
        new = [panel for panel in builder(show) if panel not in found] if builder is not None else []
        count[show.kind] += len(new)
        if count[show.kind] <= _MOST_FORMS:
            found.extend(new)
    return found


def _used(facts: LessonFacts) -> list[Show]:
    """The first direction of each kind of picture; of the kinds that come in forms, every direction."""
    firsts = {show.kind: show for show in reversed(facts.shows)}
    return [show for show in facts.shows if show.kind in _IN_FORMS or firsts[show.kind] is show]


def _picture(title: str, about: str, unit: float = UNIT) -> Callable[[Show], list[Panel]]:
    """A panel with the emptied picture."""

    def build(show: Show) -> list[Panel]:
        try:
            picture = make(show.kind, _emptied(show.details))
        except CannotShow:
            return []
        return [_panel(picture, title, about, unit)]

    return build


def _panel(picture: Picture, title: str, about: str, unit: float) -> Panel:
    drawing = _without_answers(picture)
    width = min(FULL, drawing.width * unit)
    height = drawing.height * width / drawing.width
    paper = svg(drawing, load_theme("print"), words=True)
    return Panel("picture", title, width > HALF, paper, round(width, 2), round(height, 2), about)


def _emptied(details: Details) -> Details:
    match details:
        case Marks():
            return Marks(0)
        case Parts(_, parts):
            return Parts(None, (None,) * len(parts))
        case Equation(sides):
            return Equation(tuple(tuple(replace(term, value=None) for term in side) for side in sides))
        case Span(start, end):
            return Span(start, end)
        case _:
            return details


def _without_answers(picture: Picture) -> Drawing:
    """The picture's drawing without what the child puts in, and without the question marks."""
    drawing = picture.drawing()
    kept = tuple(shape for shape in drawing.shapes if not (isinstance(shape, Words) and shape.role == "unknown"))
    return replace(drawing, shapes=kept)


def _lines(show: Show) -> list[Panel]:
    return [Panel("lines", "Write the word", wide=True)]


def _space(title: str, height: float) -> Callable[[Show], list[Panel]]:
    return lambda show: [Panel("space", title, height=height)]


def _tens(show: Show) -> list[Panel]:
    return [Panel("tens", "Draw the tens and ones", height=42.0)]


def _more_and_less(show: Show) -> list[Panel]:
    return [Panel("less", "One less, one more", height=29.0)]


PANELS: dict[str, Callable[[Show], list[Panel]]] = {
    "five frame": _picture("Five frame", "an empty five frame"),
    "ten frame": _picture("Ten frame", "an empty ten frame"),
    "double ten frame": _picture("Ten frames", "an empty double ten frame"),
    "dots": _space("Draw the dots", 42.0),
    "tally": _space("Make tally marks", 30.0),
    "dice": _space("Draw the dice", 30.0),
    "base ten": _tens,
    "more and less": _more_and_less,
    "word": _lines,
    "number bond": _picture("Number bond", "an empty number bond", SMALLER),
    "number sentence": _picture("Number sentence", "an empty number sentence"),
    "bar": _picture("Bar", "an empty bar", SMALLER),
    "number path": _picture("Number path", "a number path"),
    "number line": _picture("Number line", "a number line"),
    "hundred chart": _picture("Hundred chart", "a hundred chart"),
}
