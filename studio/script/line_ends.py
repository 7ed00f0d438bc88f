"""Scripts in which a line is a thought ("13 in the nest / 4 more come / 13 and 4 is 17"): whoever types in haste, or on a
telephone, leaves the full stops out. Read on over the ends of such lines, two thoughts would be one sum."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from studio.script.numberwords import ONES, TENS

_FEWEST = 4
_SHARE = 0.6
"""A script has such lines where so many at least, and this share of those that end in no sign, would have had room for the next
line's first word: where text is broken at a margin there is none."""
_DIRECTION = re.compile(r"\[[^\[\]]*\]")
_SIGN_AT_END = re.compile(r"[^\w\s\]%°&]\Z")
_UNFINISHED = frozenset(
    "a an the my your our his her its their and or but plus minus of to from at by with than as because if while until "
    "simply i'm it's that's there's".split()
)
_BEFORE_A_NUMBER = frozenset(
    "is are was were has have had with make makes made equal equals add get gets only just than on in".split()
)
_IS_NUMBER = rf"(?:\d|(?:{'|'.join((*ONES, *TENS))})\b)"
_NUMBER = re.compile(_IS_NUMBER, re.IGNORECASE)
_GOES_ON = re.compile(
    rf"[\W_]+(?:\s|\Z)|(?:plus|minus|than)\b|(?:is|are|makes?|made|equals?)\s+{_IS_NUMBER}", re.IGNORECASE
)


def line_ends(lines: Sequence[str], start: int) -> frozenset[int]:
    """The rows of `lines[start:]` at whose end a sentence ends though no sign says so."""
    pairs = [*_breaks(lines, start)]
    beside = [(lines[row], lines[following]) for row, following in pairs if following == row + 1]
    width = max((len(line) for line, _ in beside), default=0)
    roomy = sum(len(line) + 1 + len(following.split(maxsplit=1)[0]) <= width for line, following in beside)
    if roomy < max(_FEWEST, _SHARE * len(beside)):
        return frozenset()
    return frozenset(row for row, following in pairs if _ends(_words(lines[row]), _words(lines[following])))


def _words(line: str) -> str:
    """What is said in a line."""
    return _DIRECTION.sub("", line).strip()


def _breaks(lines: Sequence[str], start: int) -> Iterator[tuple[int, int]]:
    """The rows that end in no sign, each with the row in which the words of its paragraph go on."""
    last: int | None = None
    for row in range(start, len(lines)):
        line = lines[row]
        if not line or line.isspace() or line.lstrip()[0] == "#":
            last = None
        elif words := _words(line):
            if last is not None:
                yield last, row
            last = None if _SIGN_AT_END.search(words) else row


def _ends(words: str, following: str) -> bool:
    """Is what is said in a line a whole thought, if the next goes on with these words?"""
    last = words.split()[-1].lower()
    if last in _UNFINISHED or _GOES_ON.match(following):
        return False
    return last not in _BEFORE_A_NUMBER or not _NUMBER.match(following)
