"""Lists of partners: "two and eight, three and seven, four and six. All of them make ten."

Every pair has the same whole: the one that is named before or after the list, else the one that most of them have.
Values: part, part, whole.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from studio.talk.expressions import NOUN, STOP
from studio.talk.model import Statement
from studio.talk.speech import Speech
from studio.talk.topics import wholes

_PAIR = rf"#(?: (?!(?:{STOP}) )[a-z]+)? (?:and|plus) #(?: (?!(?:{STOP}) )[a-z]+)?"
_LIST = re.compile(
    rf"(?:(?<=[,.?¶§] )|(?<=is )|(?<=are )|(?<=have )|(?<=or ))(?:or |and |also )?{_PAIR}(?: (?:, |\. (?:¶ )?)(?:and |or |then |also |even )*{_PAIR})+(?= [,.?])"
)
_ONE = re.compile(r"(#)(?: [a-z]+)? (?:and|plus) (#)")
_AFTER = re.compile(
    rf" [.,] (?:¶ )?(?:(?:they|these|those|all|both|each|every|and|so|of|them|pair|pairs|one|the|parts|partners|always|together|three|four|five|six) )*(?:make|makes|add up to|adds up to|are partners of|are partners to|is|are)(?: (?:ways to make|all|the|partners of|names for|exactly))* (#){NOUN} [.,]"
)


def find(speech: Speech) -> Iterator[Statement]:
    """One statement for each pair of a list of two or more."""
    text = speech.text
    named = None
    for match in _LIST.finditer(text):
        pairs = [(pair.start(1), pair.start(2)) for pair in _ONE.finditer(text, match.start(), match.end())]
        if len(pairs) < 2:
            continue
        sums = [speech.value_at(a) + speech.value_at(b) for a, b in pairs]
        if named is None:
            named = {number.start: number.value for number in wholes(speech)}
        whole = _named_after(speech, match.end())
        if whole is None:
            first = speech.word_at(match.start())
            near = [value for start, value in named.items() if 0 <= first - start <= 40
                    and speech.words[start].segment == speech.words[first].segment]  # fmt: skip
            whole = near[-1] if near else None
        if whole is None:
            (value, votes), *_ = Counter(sums).most_common(1)
            if votes == 1 or votes < len(sums) - 1:
                continue
            whole = value
        elif whole not in sums and len(sums) < 3:
            continue
        for a, b in pairs:
            one, other = speech.value_at(a), speech.value_at(b)
            first, last = speech.span(a, b + 1)
            word = speech.words[first]
            yield Statement("partners", (one, other, whole), one + other == whole, first, last, word.place.line,
                            word.place.column, speech.said(a, b + 1), f"{one} + {other} = {whole}")  # fmt: skip
        after = _AFTER.match(text, match.end())
        if after and len(set(sums)) == 1 and sums[0] != speech.value_at(after.start(1)):
            number = speech.number_at[after.start(1)]
            yield Statement("partners", (speech.value_at(pairs[0][0]), speech.value_at(pairs[0][1]), number.value), False,
                            number.start, number.end, number.line, number.column, number.text,
                            f"{sums[0]} = {number.value}")  # fmt: skip


def _named_after(speech: Speech, offset: int) -> int | None:
    match = _AFTER.match(speech.text, offset)
    return speech.value_at(match.start(1)) if match else None
