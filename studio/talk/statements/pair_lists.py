"""Lists of sums: "two and eight, three and seven, four and six. All of them make ten.", "10 and 4. 7 and 7.
5 and 5 and 4."

Every sum has the same whole: the one that is named before or after the list, else the one that most of them have.
In a rhyme, other words stand between ("Nine and one, in the sun! Eight and two, morning dew!"); there the parts must go up and
down by one.
Values: parts, whole.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

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

_RHYMED = re.compile(r"(?<=[.,?¶§] )# and #(?= [,.])")
_VERSE = 60  # characters from one pair of a rhyme to the next
_FEWEST = 4  # pairs of a rhyme

_DIGIT = 9  # the greatest


def find(speech: Speech) -> Iterator[Statement]:
    """One statement for each sum of a list of two or more, and of a rhyme."""
    yield from _lists(speech)
    yield from _rhymes(speech)


def _lists(speech: Speech) -> Iterator[Statement]:
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


def _rhymes(speech: Speech) -> Iterator[Statement]:
    """The pairs of a rhyme of which one part goes up and the other one down, where one number at most does not."""
    verses: list[re.Match[str]] = []
    for match in (*_RHYMED.finditer(speech.text), None):
        between = speech.text[verses[-1].end() : match.start()] if verses and match else ""
        if verses and (match is None or len(between) > _VERSE or any(mark in between for mark in "#?§")):
            yield from _rhyme(speech, verses)
            verses = []
        if match is not None:
            verses.append(match)


def _rhyme(speech: Speech, verses: Sequence[re.Match[str]]) -> Iterator[Statement]:
    pairs = [[number.value for number in speech.numbers_in(*verse.span())] for verse in verses]
    gaps = [speech.text[one.end() : other.start()] for one, other in pairwise(verses)]
    if len(pairs) < _FEWEST or all(not any(letter.isalpha() for letter in gap) for gap in gaps):
        return  # a plain list: see above
    for way in (-1, 1):
        firsts, _ = Counter(one - way * at for at, (one, _) in enumerate(pairs)).most_common(1)[0]
        seconds, _ = Counter(other + way * at for at, (_, other) in enumerate(pairs)).most_common(1)[0]
        meant = [[firsts + way * at, seconds - way * at] for at in range(len(pairs))]
        if sum(said != right for pair in zip(pairs, meant, strict=True) for said, right in zip(*pair, strict=True)) > 1:
            continue
        whole = firsts + seconds
        for verse, (one, other) in zip(verses, pairs, strict=True):
            written = f"{one} + {other} = {whole}"
            yield speech.statement("partners", (one, other, whole), one + other == whole, *verse.span(), written)


def _plus(parts: list[int]) -> str:
    return " + ".join(map(str, parts))


def _whole_in(match: re.Match[str]) -> int:
    """Where the whole stands that is named after the list."""
    return match.start(match.lastgroup or 0)
