"""A nought that is on the screen is spoken of: a frame without a dot, a row without a bead, none that come or go. Where
nobody says nought, none, nothing, empty or the like with it, and nothing is put there later, the nought is a slip
("[show ten frame: 0 dots and 2 crosses] Six up and two down")."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Appearance, Case
from studio.findings import Finding
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.kinds.tally import Tally
from studio.pictures.marks import MarkPicture
from studio.script.model import Add, Show, TakeAway

NAME = "nought is told"
_WRITTEN = re.compile(r"\b0\b")
_BEFORE = 1  # sentence
_AFTER = 3  # sentences
_NOTHING = frozenset(
    "zero zeros zeroes nought noughts none nothing nowhere empty bare blank clear no nobody nobody's no-one neither "
    "nor not gone left away missing asleep hidden isn't aren't wasn't weren't hasn't haven't".split()
)
_ONE_SORT = frozenset("all every everybody everyone only alone still yet never without full same".split())
"""Words that tell of one sort of marks that there is nothing beside it ("All seven are dots")."""
_ITSELF = frozenset((1, 2, 5, 10, 20))
_BOXES = frozenset("box boxes square squares space spaces row rows column columns place places hole holes".split())
"""What is told of a frame itself, whatever is in it."""
_YOURS = frozenset("your yours you yourself draw drawing imagine pretend".split())
"""Said of an empty picture that the children fill themselves."""


def find(case: Case) -> Iterator[Finding]:
    for seen in case.pictures:
        direction = seen.moment.direction
        if not _is_nought(case, seen) or direction.place.line in case.excused:
            continue
        index = case.sentence_index(seen.moment.word)
        first, last = case.sentences_around(index, _BEFORE, _AFTER)
        start, here = case.sentences[first].start, case.sentences[index].start
        end = min(case.sentences[last].end, max(seen.until, case.sentences[index].end))
        told = case.numbers_between(start, end)
        if not case.numbers_between(here, end) or not all(number.value for number in told):
            continue
        shows_some = not isinstance(direction, Show) or any(seen.shows)
        if case.says(start, end, _NOTHING | _ONE_SORT if shows_some else _NOTHING | _YOURS):
            continue
        if not shows_some and {number.value for number in told} <= _ITSELF and case.says(start, end, _BOXES):
            continue  # "This is a ten frame. It has ten boxes, in two rows of five."
        if case.is_excused(here, end):
            continue
        message, instead = _words(seen)
        yield Finding(NAME, "error", direction.place.line, direction.place.column, "", direction.text,
                      f"Line {direction.place.line} {message}, but nobody says so there.", instead)  # fmt: skip


def _words(seen: Appearance) -> tuple[str, str]:
    match seen.change:
        case Add():
            return "adds 0", "Add as many as you say."
        case TakeAway():
            return "takes 0 away", "Take away as many as you say."
        case _:
            return f"shows {seen.picture.description()}", "Show the number that you say, or say that there is none."


def _is_nought(case: Case, seen: Appearance) -> bool:
    """Whether a step that is written with a 0 adds none, takes none away or shows none where some can be, and nothing
    comes or goes there later. A second row of beads may stay empty without a word."""
    picture, direction = seen.picture, seen.moment.direction
    if not _WRITTEN.search(direction.text):
        return False
    if not isinstance(direction, Show):
        return isinstance(seen.change, Add | TakeAway) and not seen.change.count
    if id(seen) in case.growing:
        return False
    match picture:
        case MarkPicture():
            return not (picture.dots and picture.crosses)
        case Rekenrek():
            return not picture.upper
        case BaseTen() | Tally():
            return not picture.value
        case _:
            return False
