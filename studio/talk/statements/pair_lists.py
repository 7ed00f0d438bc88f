"""Lists of sums: "two and eight, three and seven, four and six. All of them make ten.", "10 and 4. 7 and 7.
5 and 5 and 4."

Every sum has the same whole: the one that is named before or after the list, else the one that most of them have.
Values: parts, whole.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from studio.talk.expressions import NOUN, STOP
from studio.talk.model import Statement
from studio.talk.speech import Speech
from studio.talk.topics import wholes

_THING = rf"(?: (?!(?:{STOP}) )[a-z]+)?"
_SUM = rf"#{_THING}(?: (?:and|plus) #{_THING})+"
_LIST = re.compile(
    rf"(?:(?<=[,.?¶§] )|(?<=is )|(?<=are )|(?<=have )|(?<=or ))(?:or |and |also )?{_SUM}(?: (?:, |\. (?:¶ )?)(?:and |or |then |also |even )*{_SUM})+(?= [,.?])"
)
_ONE = re.compile(_SUM)
_AFTER = re.compile(
    rf" [.,] (?:¶ )?(?:(?:they|these|those|all|both|each|every|and|so|of|them|pair|pairs|one|the|parts|partners|always|together|three|four|five|six) )*(?:make|makes|add up to|adds up to|are partners of|are partners to|is|are)(?: (?:ways to make|all|the|partners of|names for|exactly))* (?P<whole>#){NOUN} [.,]|"
    rf" [.,] (?:and )?(?:all|both|each|always|every)(?: of (?:them|these))? (?P<all>#){NOUN} [.,]|"
    r" [.,] (?:¶ )?(?:so |and )?(?:the|their) (?:ones|digits) (?:(?:are|all|both|always) )*(?:partners (?:of|to|for)|make|add up to) (?P<ones>#) [.,]"
)

_DIGIT = 9  # the greatest


def find(speech: Speech) -> Iterator[Statement]:
    """One statement for each sum of a list of two or more."""
    text = speech.text
    named = None
    for match in _LIST.finditer(text):
        sums = [
            (one.start(), one.end(), [number.value for number in speech.numbers_in(*one.span())])
            for one in _ONE.finditer(text, match.start(), match.end())
        ]
        if len(sums) < 2:
            continue
        totals = [sum(parts) for _, _, parts in sums]
        if named is None:
            named = {number.start: number.value for number in wholes(speech)}
        ending = _AFTER.match(text, match.end())
        if ending and ending["ones"] and max(part for _, _, parts in sums for part in parts) > _DIGIT:
            ending = None  # "12 and 8, 15 and 5: the ones are partners of 10"
        whole = after = speech.value_at(_whole_in(ending)) if ending else None
        if whole is None:
            first = speech.word_at(match.start())
            near = [value for start, value in named.items() if 0 <= first - start <= 40
                    and speech.words[start].segment == speech.words[first].segment]  # fmt: skip
            whole = near[-1] if near else None
        if whole is None:
            (value, votes), *_ = Counter(totals).most_common(1)
            if votes == 1 or votes < len(totals) - 1:
                continue
            whole = value
        elif whole not in totals and len(sums) < 3 and (after is None or len({*totals}) > 1):
            continue
        for start, end, parts in sums:
            yield speech.statement(
                "partners", (*parts, whole), sum(parts) == whole, start, end, f"{_plus(parts)} = {whole}"
            )
        if ending and len(set(totals)) == 1 and totals[0] != speech.value_at(_whole_in(ending)):
            number = speech.number_at[_whole_in(ending)]
            yield Statement("partners", (*sums[0][2], number.value), False, number.start, number.end, number.line,
                            number.column, number.text, f"{totals[0]} = {number.value}")  # fmt: skip


def _plus(parts: list[int]) -> str:
    return " + ".join(map(str, parts))


def _whole_in(match: re.Match[str]) -> int:
    """Where the whole stands that is named after the list."""
    return match.start(match.lastgroup or 0)
