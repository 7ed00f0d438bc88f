"""Two sums or differences that are laid against each other, and then what they make, in the same order: "Six plus six against five
plus eight. [wait 5 s] Twelve against thirteen.", "Nine minus two or four plus four? Seven or eight."

Values: of each the two numbers and what they make.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.talk.model import Statement
from studio.talk.speech import Speech

_SIGN = r"(?:plus|minus|take away|less)"
_AGAINST = r"(?:, )?(?:against|versus|or|and) (?:the )?"
_LAID = re.compile(
    rf"# (?P<one>{_SIGN}) # {_AGAINST}# (?P<other>{_SIGN}) # [.?,] (?:[.,] )?(?:¶ )?# {_AGAINST}#(?= [.,?¶§])"
)


def find(speech: Speech) -> Iterator[Statement]:
    """Each of the two by itself; the words are those of both."""
    for match in _LAID.finditer(speech.text):
        a, b, c, d, *made = (number.value for number in speech.numbers_in(*match.span()))
        for sign, first, second, told in ((match["one"], a, b, made[0]), (match["other"], c, d, made[1])):
            plus = sign == "plus"
            yield speech.statement(
                "sum" if plus else "difference",
                (first, second, told),
                (first + second if plus else first - second) == told,
                match.start(),
                match.end(),
                f"{first} {'+' if plus else '-'} {second} = {told}",
            )
