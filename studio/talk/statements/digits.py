"""How many tens or ones a number has: "fifty-four has five tens", "there are four ones in fourteen"; and which digit two
numbers share: "sixteen and six, they both have a six"; what a digit is worth: "the two means two tens".

Values: the number, how many; the two numbers, the digit; the digit, what it is worth.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.talk.claims import MEANS
from studio.talk.model import Statement
from studio.talk.speech import Speech

_HAS = re.compile(
    r"# (?:has|have|is made of|needs|shows) (?:only |exactly )?# (?:more |extra |single )?(tens?|ones?)(?= (?:[.,]|and # (?:has|have|is)|but))"
)
_SHARED = re.compile(r"# and #(?: ,)? (?:they |these )?(?:both have (?:a|an) #|have (?:a|an) # in common)(?= [.,])")
_IN = re.compile(r"# (tens?|ones?) (?:are )?in #(?= [.,])")
_TENS = r"(?:tens?|lines?|rods?|sticks?|longs?|bundles?|strips?|bars?|towers?)"
_ONES = r"(?:ones?|squares?|cubes?|units?)"
_DIGIT = re.compile(
    rf"(?<= the )# {MEANS}(?: (?:only|a|an|all|these|those))*(?P<many> #)(?: (?:whole|full|long|single|little|small|loose|extra))?"
    rf"(?: (?:(?P<tens>{_TENS})|{_ONES}|(?P<ten>#)(?: {_TENS})?))?(?= [.,?])"
)
_ENDS = re.compile(
    r"#(?: [.,?])?(?: ¶)?(?: (?!(?:row|column|chart|line|count|counting|every|each|and|next|first|they|all|that) )[a-z']+){0,3}"
    r"(?: [.,?])?(?: (?:yes|no|because|so|since))?(?: ,)? (?:it )?ends (?:in|with|on) (?:a )?#(?= [.,?]| so )"
)
_LAST = re.compile(  # "Will thirty-five be said when we count by fives from zero? Yes, its last digit is five."
    r"(?<=[.?¶§] )(?:(?:will|would|is|does|and|what|how|about|so|take) ){0,3}(?P<number>#)(?= )(?! #)[^.?§]{0,60}(?:[.?] (?:¶ )?[^.?§#]{0,20})? "
    r"its last digit is (?:an? )?(?P<digit>#)(?= [.,?])"
)
_TEN = 10
_ONE_OF_THEM = (" only ", " just ", " this ", " that ", " other ", " which ")


def find(speech: Speech) -> Iterator[Statement]:
    for match in _HAS.finditer(speech.text):
        offset = match[0].index("#", 1)
        number, many = speech.value_at(match.start()), speech.value_at(match.start() + offset)
        if number == 1 and speech.text.endswith(_ONE_OF_THEM, 0, match.start()):
            continue  # "Two of the cards have four tens. Only one has three tens."
        yield _make(speech, match, number, many)
    for match in _IN.finditer(speech.text):
        number, many = speech.value_at(match.end() - 1), speech.value_at(match.start())
        yield _make(speech, match, number, many)
    for match in _DIGIT.finditer(speech.text):
        digit, many = speech.value_at(match.start()), speech.value_at(match.start("many") + 1)
        if digit > 9 or (match["ten"] and speech.value_at(match.start("ten")) != 10):
            continue
        worth = 10 * many if match["tens"] or match["ten"] else many
        fitting = (10 * digit,) if match["tens"] or match["ten"] else (digit, 10 * digit, 100 * digit)
        yield speech.statement(
            "digit", (digit, worth), worth in fitting, match.start(), match.end(), f"{digit} means {worth}"
        )
    for match in _ENDS.finditer(speech.text):
        number, many = (one.value for one in speech.numbers_in(match.start(), match.end()))
        if many < _TEN <= number:
            yield _ending(speech, number, many, *match.span())
    for match in _LAST.finditer(speech.text):
        start = match.start("number")
        number, digit = speech.value_at(start), speech.value_at(match.start("digit"))
        if digit < _TEN:
            yield _ending(speech, number, digit, start, match.end())
    for match in _SHARED.finditer(speech.text):
        one, other, digit = (number.value for number in speech.numbers_in(match.start(), match.end()))
        if digit > 9:
            continue  # "Thirteen and fourteen both have a ten"
        holds = all(str(digit) in str(number) for number in (one, other))
        yield speech.statement(
            "shared digit", (one, other, digit), holds, match.start(), match.end(), f"{one} and {other} have {digit}"
        )


def _ending(speech: Speech, number: int, digit: int, start: int, end: int) -> Statement:
    return speech.statement("ones", (number, digit), number % _TEN == digit, start, end, f"{number} ends in {digit}")


def _make(speech: Speech, match: re.Match[str], number: int, many: int) -> Statement:
    unit = "tens" if match[1].startswith("ten") else "ones"
    holds = number // 10 == many if unit == "tens" else many in (number % 10, number)
    return speech.statement(unit, (number, many), holds, match.start(), match.end(), f"{number} has {many} {unit}")
