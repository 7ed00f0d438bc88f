"""Numbers in captions, written as the series sets it.

"words to ten": numbers up to ten as words, larger ones as numerals; a larger one that opens a sentence stays a word,
and a count is written in one way throughout ("9, 10, 11"; Captioning Key, from memory). "digits": numerals always.
A number that stands by a sign (7 + 2) is a numeral in every style. What is no plain number ("a dozen", "the next
one", "third") stays as it was said.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from studio.captions.model import Numerals
from studio.captions.tokens import Token
from studio.script.model import Place, Word
from studio.talk.model import Number
from studio.talk.numbers import UNITS, find_numbers, plain_of

_WORD_OF = {value: word for word, value in UNITS.items()}
_NOT_PLAIN = frozenset({"a", "an", "half", "none", "dozen", "pair"})
_OUTER = re.compile(r"^(\W*)(.*?)(\W*)$", re.DOTALL)
SIGNS = frozenset("+-−–=<>×÷")


def write_numerals(tokens: list[Token], style: Numerals) -> list[Token]:
    """The tokens with their numbers in that style; the words of one number become one token."""
    if style == "as said":
        return tokens
    words = _as_words(tokens)
    numbers = [
        n for n in find_numbers(words) if n.form in ("word", "digits") and words[n.start].plain not in _NOT_PLAIN
    ]
    found: list[Token] = []
    position = 0
    for run in _runs(numbers, tokens):
        as_digits = style == "digits" or (len(run) > 1 and any(number.value > 10 for number in run))
        for number in run:
            found.extend(tokens[position : number.start])
            found.extend(_written(tokens, number, as_digits))
            position = number.end
    return [*found, *tokens[position:]]


def _as_words(tokens: Sequence[Token]) -> list[Word]:
    """The tokens as words; a wait or a long silence parts them like a full stop would."""
    sentence = 0
    words = []
    for index, token in enumerate(tokens):
        if opens_sentence(tokens, index):
            sentence += 1
        words.append(Word(index, token.text, plain_of(token.text), Place(1, 1), sentence, 0, 0, glued=token.glued))
    return words


def opens_sentence(tokens: Sequence[Token], index: int) -> bool:
    """Whether a sentence begins with that token."""
    token = tokens[index]
    return index == 0 or token.new_sentence or token.new_segment or token.after_wait or tokens[index - 1].ends_sentence


def _runs(numbers: list[Number], tokens: Sequence[Token]) -> list[list[Number]]:
    """Numbers that follow each other directly within a sentence, as in a count."""
    runs: list[list[Number]] = []
    for number in numbers:
        joins = runs and runs[-1][-1].end == number.start and not opens_sentence(tokens, number.start)
        if joins:
            runs[-1].append(number)
        else:
            runs.append([number])
    return runs


def _written(tokens: list[Token], number: Number, as_digits: bool) -> list[Token]:
    own = tokens[number.start : number.end]
    by_sign = any(
        0 <= position < len(tokens) and tokens[position].text in SIGNS for position in (number.start - 1, number.end)
    )
    opens = opens_sentence(tokens, number.start)
    if number.value > 10 and not as_digits and not by_sign and opens:
        return own
    opening = _parts(own[0].text)[0]
    closing = _parts(own[-1].text)[2]
    if as_digits or by_sign or number.value > 10:
        text = str(number.value)
    else:
        text = _WORD_OF[number.value]
        text = text.capitalize() if opens else text
    words = sum(token.words for token in own)
    return [replace(own[0], text=opening + text + closing, end=max(own[-1].end, own[0].end), words=words)]


def _parts(text: str) -> tuple[str, str, str]:
    match = _OUTER.match(text)
    return (match[1], match[2], match[3]) if match else ("", text, "")
