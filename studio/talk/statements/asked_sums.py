"""Sums that are asked for in few words: "Six and one? Seven.", "What about five and two? That's seven, too.", "What do two fives
make? Ten."

Values: parts, whole. An answer that is one of the parts or their difference may be to another question ("Nine and twelve? Twelve.").
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.talk.model import Statement
from studio.talk.no_claims import answered_in_turn
from studio.talk.numbers import PLURALS
from studio.talk.speech import Speech

_ASKED = re.compile(
    r"(?<=[.?¶§,] )(?:(?:what about|how about|and|so|now|or|,) )*(?<!# , )(?P<sum># and #(?: and #)?)(?: is| are| makes?| gives?)? \? (?:¶ )?"
    r"(?:(?:[a-z']+ ){1,3}, (?=that is |it is ))?(?:(?:yes|right|that is|it is|that makes|makes|they make|only|another|,) )*#(?= (?:too )?(?:\.|,(?! #)))"
)
_EQUAL = re.compile(
    r" what (?:do|would|will|are|is) # (twos|threes|fours|fives|sixes|sevens|eights|nines|tens)(?: make| come to)? \? (?:¶ )?"
    r"(?:(?:yes|right|that is|it is|that makes|they make|,) )*#(?= [.,])"
)
_OTHER = re.compile(
    r" (?:between|apart|difference|far|greater|greatest|bigger|biggest|more|less|fewer|smaller|smallest|missing|order|odd|even) "
)
_LONGEST = 160  # characters before it that may tell what is asked


_MOST = 12  # equal parts


def find(speech: Speech) -> Iterator[Statement]:
    text = speech.text
    for match in _EQUAL.finditer(text):
        many, whole = (number.value for number in speech.numbers_in(*match.span()))
        if 2 <= many <= _MOST:
            equal = (PLURALS[match[1]],) * many
            written = f"{' + '.join(map(str, equal))} = {whole}"
            yield speech.statement("sum", (*equal, whole), sum(equal) == whole, match.start() + 1, match.end(), written)
    for match in _ASKED.finditer(text):
        begin = max(0, text.rfind("§", 0, match.start()), match.start() - _LONGEST)
        if _OTHER.search(text, begin, match.start() + 1):
            continue
        start = match.start("sum")
        if answered_in_turn(text, start, match.end() - 1):
            continue
        *parts, whole = (number.value for number in speech.numbers_in(start, match.end()))
        if sum(parts) != whole and (whole in parts or whole == abs(parts[0] - parts[1])):
            continue
        yield speech.statement(
            "sum", (*parts, whole), sum(parts) == whole, start, match.end(), f"{' + '.join(map(str, parts))} = {whole}"
        )
