"""What a number that is said is said of: dots, crosses, empty places, the top row, tens, ones, a whole, a part."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from studio.pictures.base import Picture
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.marks import MarkPicture
from studio.pictures.wholes import WholePicture
from studio.talk.expressions import WORD
from studio.talk.model import Number
from studio.talk.speech import Speech

_PLACES = r"(?:spaces?|squares?|boxes|box|places?|spots?|holes?|rooms?|seats?|dots)"
_TOP = (
    r"(?:on (?:the )?top(?! of it )|in (?:the )?top(?: row)?|(?:along|across|in|on|fill|fills) the top(?: row)?|in the (?:first|upper) row|up top|"
    r"on the (?:first|upper) row|at the top)"
)
_BOTTOM = (
    r"(?:on (?:the )?bottom|in (?:the )?bottom(?: row)?|(?:along|across|in|on) the bottom(?: row)?|in the (?:second|lower) row|below|"
    r"underneath|on the (?:second|lower) row|at the bottom|down below|under it|in the row below)"
)

# name, pattern whose first `#` is the number
_SAID_OF: tuple[tuple[str, re.Pattern[str]], ...] = tuple(
    (name, re.compile(pattern))
    for name, pattern in (
        ("empty", r"#(?: more| little)? (?:empty|open|free|blank)(?: |s )"),
        (
            "empty",
            rf"# (?:more )?{_PLACES} (?:that )?(?:are |is |left |still )*(?:empty|open|free|blank|to fill|left to fill|left over|not filled)",
        ),
        ("empty", r"# (?:are|is) (?:empty|open|free)"),
        ("top", rf"#(?:{WORD}){{0,2}} (?:are |is |go |sit |fit |go all )?{_TOP}(?= )"),
        ("bottom", rf"#(?:{WORD}){{0,2}} (?:more )?(?:are |is |go |sit |fit )?{_BOTTOM}(?= )"),
        (
            "crosses",
            r"#(?: more| new| little| big)? crosses(?! (?:are |go |sit |is |fit )?(?:in|on|into|inside) the (?:other|first|second|top|bottom|one|last|next))",
        ),
        (
            "dots",
            r"#(?: black| round| dark| big| little| more)? dots(?! in the (?:other|first|second|top|bottom|one|last|next))",
        ),
    )
)
_TOP_ROW = re.compile(
    r"(top|first|upper|bottom|second|lower) row (?:has|is|holds|shows|gets|,|there are) (?:only )?#"
    rf"(?!(?:{WORD}){{0,2}} (?:are |is |go |sit )?(?:{_TOP}|{_BOTTOM}|in the (?:lower|second|other|upper)) )"
    # "four on the top row, three on the bottom row", "five in the upper row, three in the lower"
)
_TENS = re.compile(r"#(?: #| tens?| lines?| rods?| sticks?| long)(?: |s )")
_ONES = re.compile(r"#(?: little| small| tiny| single| more| loose)? (?:ones|one's|squares|cubes|units)(?= )")


@dataclass(frozen=True, slots=True)
class Mention:
    """A number with what it is said of."""

    number: Number
    of: str


def mentions(speech: Speech) -> Iterator[Mention]:
    """The numbers that are said of something that a picture shows."""
    text = speech.text
    for name, pattern in _SAID_OF:
        for match in pattern.finditer(text):
            yield Mention(speech.number_at[match.start()], name)
    if " row " in text:
        for match in _TOP_ROW.finditer(text):
            of = "top" if match[1] in ("top", "first", "upper") else "bottom"
            yield Mention(speech.number_at[match.end() - 1], of)
    for match in _TENS.finditer(text):
        if speech.value_at(match.start()) > 9 and " ten" not in match[0]:
            continue  # "forty-eight sticks": things, and no tens
        if text[match.start() + 2] != "#" or speech.value_at(match.start() + 2) == 10:
            yield Mention(speech.number_at[match.start()], "tens")
    for match in _ONES.finditer(text):
        yield Mention(speech.number_at[match.start()], "ones")


@lru_cache(maxsize=4096)
def told_by(picture: Picture, of: str) -> frozenset[int] | None:
    """The values that a picture allows for something said of it; None where it does not show that."""
    match picture:
        case MarkPicture():
            return _marks(picture, of)
        case Rekenrek():
            match of:
                case "top":
                    return _beads(picture.upper)
                case "bottom":
                    return _beads(picture.lower)
                case "top left":
                    return frozenset((10 - picture.upper,))
                case "bottom left":
                    return frozenset((10 - picture.lower,))
        case BaseTen():
            match of:
                case "tens":
                    return frozenset((picture.tens, picture.tens % 10))
                case "ones":
                    return frozenset((picture.ones, picture.value))
        case _:
            pass
    return None


def _beads(count: int) -> frozenset[int]:
    """What a row of beads can be said to have: all of them, the first five, those behind the first five."""
    return frozenset((count, 5, count - 5)) if count > 5 else frozenset((count,))


def _marks(picture: MarkPicture, of: str) -> frozenset[int] | None:
    total = picture.total
    match of:
        case "dots":
            if not total:
                return None
            frames = {min(10, total), total - 10} if picture.capacity == 20 and total > 10 else set()
            return frozenset({picture.dots, total} | frames)
        case "crosses":
            if not picture.crosses:
                return None
            # "One cross filled the top frame, and four crosses went below it."
            row = 10 if picture.capacity == 20 else 5
            above = max(0, min(row, total) - picture.dots)
            inside = {above, picture.crosses - above} - {0} if picture.framed else set()
            return frozenset({picture.crosses} | inside)
        case "empty" if picture.framed:
            return frozenset((picture.capacity - total, (10 - total) % 10, (5 - total) % 5))
        case "top" if total and picture.framed:
            row = 10 if picture.capacity == 20 else 5
            return frozenset((min(row, total), min(5, total), picture.dots))
        case "bottom" if total and picture.framed:
            row = 10 if picture.capacity == 20 else 5
            # "three ducks below, and the one that sleeps is a cross"
            dots = {picture.dots - row} if picture.dots > row else set()
            return frozenset({max(0, total - row), max(0, total - 5), picture.crosses} | dots)
        case "top left" | "bottom left" if picture.framed and picture.capacity == 10:
            return frozenset((5 - min(5, total) if of.startswith("top") else 5 - max(0, total - 5),))
        case "top dots" | "bottom dots" | "top crosses" | "bottom crosses" if picture.framed and picture.crosses:
            return _in_shared_rows(picture, of)
        case "top of frame 1" | "bottom of frame 1" | "top of frame 2" | "bottom of frame 2" if picture.capacity == 20:
            there = min(10, total) if of.endswith("1") else max(0, total - 10)
            return frozenset((min(5, there) if of.startswith("top") else max(0, there - 5),))
    return None


def _in_shared_rows(picture: MarkPicture, of: str) -> frozenset[int]:
    """How many dots (or crosses) the upper (or lower) rows of frames have where they stand in a row together."""
    found = set()
    for start in range(0 if of.startswith("top") else 5, picture.total, 10):
        end = min(start + 5, picture.total)
        if start < picture.dots < end:
            found.add(picture.dots - start if of.endswith("dots") else end - picture.dots)
    return frozenset(found)


# --- whole and part -------------------------------------------------------------------------------------------------

_WHOLE = re.compile(
    r"(?:whole (?:number |amount )?(?:is |was )(?:the number |called )?(#))|(?:(#)(?: [a-z]+)? is (?:the|our|my) (?:whole|total|big number))"
)
_PART = re.compile(
    r"(?:(?:part|parts|addend) (?:that |which |we |know |you |can see |is |was |must be |has to be |, |are |on the left |on the right |in the box )*(?:is |, |must be |are )(#)(?! (?:is|makes|equals) #))"
    r"|(?:(#)(?: [a-z]+)? (?:is|was|must be) (?:a |the |one |another |our |my )?(?:other |missing |unknown |first |second |known |hidden |last |new |one )?(?:part|addend))"
)


_PARTS = re.compile(
    r"(#)(?: [a-z]+)? and (#)(?: [a-z]+)? are (?:the|its|our|my|two|both|the two|its two)? ?(?:parts|addends)(?= )|parts (?:are|,) (#) and (#)(?= )"
)


def roles(speech: Speech) -> Iterator[Mention]:
    """The numbers that are said to be the whole or a part."""
    text = speech.text
    if " whole" in text or " total" in text:
        for match in _WHOLE.finditer(text):
            yield Mention(speech.number_at[max(match.start(1), match.start(2))], "whole")
    if " part" in text or " addend" in text:
        for match in _PARTS.finditer(text):
            for group in range(1, 5):
                if match[group]:
                    yield Mention(speech.number_at[match.start(group)], "part")
        for match in _PART.finditer(text):
            yield Mention(speech.number_at[max(match.start(1), match.start(2))], "part")


def in_role(picture: Picture, role: str) -> frozenset[int] | None:
    """The values a picture of a whole and its parts allows for a role; None where it has none."""
    from studio.agree.looks import relation

    if not isinstance(picture, WholePicture) and picture.kind not in ("number sentence",):
        return None
    found = relation(picture)
    if found is None:
        if isinstance(picture, WholePicture) and role == "whole" and picture.whole is not None:
            return frozenset((picture.whole,))
        return None
    return frozenset((found.whole,)) if role == "whole" else frozenset(found.parts)
