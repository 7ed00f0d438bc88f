"""How many syllables an English word has, near enough to share out time by."""

from __future__ import annotations

import re
from functools import lru_cache

_VOWELS = re.compile(r"[aeiouy]+")
_SILENT_END = re.compile(r"(?:[^laeiouy]|[aeiouy]l)e$|[^td]ed$|[^csxzgh]es$")
# Words of the trade that the rule gets wrong.
_KNOWN = {
    "zero": 2, "seven": 2, "eleven": 3, "seventeen": 3, "seventy": 3, "one": 1, "two": 1, "three": 1, "twelve": 1,
    "ones": 1, "lily": 2, "being": 2, "area": 3, "create": 2, "idea": 3, "sometimes": 2, "something": 2,
    "someone": 2, "everyone": 3, "another": 3, "doing": 2, "going": 2, "seeing": 2, "equals": 2, "people": 2,
    "minus": 2, "quiet": 2, "science": 2, "line": 1, "times": 1, "nineteen": 2, "ninety": 2, "cared": 1, "hundred": 2,
}  # fmt: skip
_SIGNS = {"+": 1, "-": 2, "−": 2, "=": 2, "<": 3, ">": 3, "&": 1, "%": 2}
_UNITS = (2, 1, 1, 1, 1, 1, 1, 2, 1, 1, 1, 3, 1, 2, 2, 2, 2, 3, 2, 2)  # zero … nineteen
_TENS = (0, 0, 2, 2, 2, 2, 2, 3, 2, 2)


@lru_cache(maxsize=4096)
def syllables(word: str) -> int:
    """The syllables of a word as it is said; `word` in lower case without outer punctuation. At least 1."""
    if word in _SIGNS:
        return _SIGNS[word]
    if word.isascii() and word.isdigit():
        return _number(int(word)) if len(word) <= 4 else 2 * len(word)
    return sum(_part(part) for part in re.split(r"[-\s]", word) if part) or 1


def _part(part: str) -> int:
    if part in _KNOWN:
        return _KNOWN[part]
    if part.isascii() and part.isdigit():
        return syllables(part)
    letters = re.sub(r"[^a-z]", "", part)
    groups = len(_VOWELS.findall(letters))
    if groups > 1 and _SILENT_END.search(letters) and not letters.endswith(("le", "led")):
        groups -= 1
    return max(1, groups)


def _number(value: int) -> int:
    if value < 20:
        return _UNITS[value]
    if value < 100:
        return _TENS[value // 10] + (_UNITS[value % 10] if value % 10 else 0)
    if value < 1000:
        return _UNITS[value // 100] + 2 + (1 + _number(value % 100) if value % 100 else 0)
    return _number(value // 1000) + 2 + (1 + _number(value % 1000) if value % 1000 else 0)
