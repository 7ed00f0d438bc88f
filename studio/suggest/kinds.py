"""Which picture has room for what is talked of, and how its details are written."""

from __future__ import annotations

from studio.suggest.ideas import Part

_DRAWN = frozenset("dots draw drawing drew dot circles paper".split())
_BY_HAND = frozenset("draw drawing drew paper".split())
_FRAME = frozenset("frame frames box boxes".split())


def marks_kind(total: int, cue: frozenset[str]) -> str | None:
    """The picture of dots that has room for a total."""
    if total > 50:
        return None
    if cue & _DRAWN and not cue & _FRAME:
        return "dots"
    return "ten frame" if total <= 10 else "double ten frame" if total <= 20 else "dots"


def frame_kind(part: Part, word: int, total: int) -> str | None:
    """The same for what is talked of at a word: in the frame that she has named, if she has."""
    named = part.frame_named(part.sentence_of(word).end)
    if total <= 5 and named == "five":
        return "five frame"
    cue = part.around(word, 3, 1)
    if named in ("ten", "double") and not cue & _BY_HAND:
        return marks_kind(total, _FRAME)
    return marks_kind(total, cue)


def dots(number: int) -> str:
    """Details with so many dots."""
    return "empty" if not number else f"{number} dot{'s' if number != 1 else ''}"


def mark_words(number: int, mark: str) -> str:
    """ "3 crosses", "1 dot"."""
    one = {"crosses": "cross", "dots": "dot"}[mark]
    return f"{number} {one if number == 1 else mark}"


def row_of_numbers(part: Part, word: int, low: int, high: int) -> tuple[str, str]:
    """The kind and the ends of the path or line that has room for some numbers: the one that was named last, if it has."""
    last = part.row_named(part.sentence_of(word).end)
    if last is not None and last[1] <= low and high <= last[2] <= last[1] + 20:
        return last[0], f"{last[1]} to {last[2]}"
    named = part.around(word, 8, 1)
    line = "line" in named and "path" not in named
    if high <= 20:
        return ("number line" if line else "number path"), f"0 to {10 if high <= 10 else 20}"
    return "number line", f"{low - low % 10} to {high + -high % 10}"
