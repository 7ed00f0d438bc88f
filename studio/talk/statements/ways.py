"""A number told in several ways, in a row of sums and differences of which none says what it makes: "Forty and ten. Thirty and
twenty. Fifty-one minus one.", "I wrote thirty and fifteen, and forty-six minus one." All of them make the same. Where there are sums
alone, `pair_lists.py` finds them.

Values: the parts and the whole; of a difference the whole, what is taken away, and what is left.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from studio.talk.model import Statement
from studio.talk.speech import Speech

_LEAD = (
    r"(?:(?:or|and|also|so|maybe|first|next|another|i|we|you|my|mine|ours|it|too|like|here|one|is|are|i have|i'd have|would|have|had|got|"
    r"could|say|of|way|was|were|ones|others) )*"
)
_FOUND = (
    r"(?:(?:wrote|written|took|taken|chose|chosen|found|made|picked|thought|used|got|have|put|like) (?:of |down )?)"
)
_WAY = re.compile(
    rf"(?<=[.,?¶§] ){_LEAD}(?P<found>{_FOUND})?(?:down )?# (?P<sign>and|plus|minus|take away) #(?: (?:and|plus) #)*(?= [.,¶§])"
)
_FAR = 50  # characters from one way to the next
_FEWEST, _AFTER_FOUND = 3, 2
_OFTEN = 3  # times that the number itself is said before two ways of it
_BACK = 3000  # characters


@dataclass(frozen=True, slots=True)
class _Way:
    """Where it stands in the text, from its first number on, its numbers, and whether one is taken away from the other."""

    start: int
    end: int
    values: tuple[int, ...]
    minus: bool
    found: bool

    @property
    def made(self) -> int:
        return self.values[0] - self.values[1] if self.minus else sum(self.values)


def find(speech: Speech) -> Iterator[Statement]:
    row: list[_Way] = []
    for way in (*_ways(speech), None):
        if row and (way is None or not _goes_on(speech.text[row[-1].end : way.start])):
            yield from _of_row(speech, row)
            row = []
        if way is not None:
            row.append(way)


def _ways(speech: Speech) -> Iterator[_Way]:
    for match in _WAY.finditer(speech.text):
        values = tuple(number.value for number in speech.numbers_in(*match.span()))
        minus = match["sign"] in ("minus", "take away")
        if minus and len(values) > 2:
            continue
        start = speech.text.index("#", match.start())
        yield _Way(start, match.end(), values, minus, match["found"] is not None)


def _goes_on(between: str) -> bool:
    return len(between) < _FAR and not any(mark in between for mark in "#?§")


def _of_row(speech: Speech, row: list[_Way]) -> Iterator[Statement]:
    whole = _whole(speech, row)
    if whole is None or not any(way.minus or way.found for way in row):  # plain sums in a row: `pair_lists.py`
        return
    for way in row:
        written = f"{way.values[0]} - {way.values[1]}" if way.minus else " + ".join(map(str, way.values))
        yield speech.statement(
            "difference" if way.minus else "partners", (*way.values, whole), way.made == whole, way.start, way.end,
            f"{written} = {whole}",
        )  # fmt: skip


def _whole(speech: Speech, row: list[_Way]) -> int | None:
    """What all ways of a row but one make, and in a short row not the first or last (there the odd one may be asked for); of
    two that were found, what has been said so often that they must be ways of it."""
    (whole, votes), *_ = Counter(way.made for way in row).most_common(1)
    others = [at for at, way in enumerate(row) if way.made != whole]
    if len(row) >= _FEWEST and len(others) < 2 and len({way.values for way in row}) >= _FEWEST:
        inside = not others or 0 < others[0] < len(row) - 1
        return whole if inside or votes >= _FEWEST else None
    if len(row) < _AFTER_FOUND or not row[0].found:
        return None
    back = max(0, row[0].start - _BACK)
    begin = max(back, speech.text.rfind("§", back, row[0].start))
    said = Counter(number.value for number in speech.numbers_in(begin, row[0].start))
    often = [way.made for way in row if said[way.made] >= _OFTEN]
    return often[0] if len({*often}) == 1 else None
