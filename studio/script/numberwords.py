"""Number words as they are written: "seven", "twenty-one", "a hundred and five", up to "one thousand"."""

from __future__ import annotations

ONES = (
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
)
TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")

_VALUES = {word: value for value, word in enumerate(ONES)} | {word: 10 * (i + 2) for i, word in enumerate(TENS)}


def to_number(text: str) -> int:
    """The value of digits or of a number word; letter case, hyphens and "and" do not count.

    Raises ValueError for anything else.
    """
    if text.isdecimal():
        return int(text)
    words = text.lower().replace("-", " ").split()
    if all(word in ("and", "a") for word in words):
        raise ValueError(f"there is no number in '{text}'")
    total = current = 0
    for word in words:
        if word == "hundred":
            current = 100 * max(current, 1)
        elif word == "thousand":
            total, current = 1000 * max(current, 1), 0
        elif word in _VALUES:
            current += _VALUES[word]
        elif word not in ("and", "a"):
            raise ValueError(f"'{text}' is not a number")
    return total + current


def to_words(value: int) -> str:
    """A whole number from 0 to 999,999 in words, without "and" ("one hundred five"), tens and ones hyphened."""
    if not 0 <= value < 1_000_000:
        raise ValueError(f"{value} is not between 0 and 999,999")
    if value < 20:
        return ONES[value]
    if value < 100:
        return TENS[value // 10 - 2] + (f"-{ONES[value % 10]}" if value % 10 else "")
    size, name = (1000, "thousand") if value >= 1000 else (100, "hundred")
    rest = value % size
    return f"{to_words(value // size)} {name}" + (f" {to_words(rest)}" if rest else "")
