"""The filters of a routine: numbers as a teacher says them.

Each is a plain function of its first argument (what stands before the `|`); a new filter is one more function with an
entry in `FILTERS`. A wrong value raises ValueError with a sentence.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from studio.script.numberwords import to_words

LARGEST = 999_999
_ORDINALS = {"one": "first", "two": "second", "three": "third", "five": "fifth", "eight": "eighth", "nine": "ninth",
             "twelve": "twelfth"}  # fmt: skip
# Words whose plural is not made by rule; pond words first.
_NOUNS = {"fish": "fish", "goose": "geese", "mouse": "mice", "leaf": "leaves", "die": "dice", "foot": "feet",
          "bus": "buses", "cookie": "cookies"}  # fmt: skip
_PLURALS = {**_NOUNS, "is": "are", "was": "were", "has": "have", "does": "do", "goes": "go"}
_SINGULARS = {many: one for one, many in _NOUNS.items()}


def words(number: Any) -> str:
    """8 → "eight"."""
    return to_words(_whole(number, "words"))


def ordinal(number: Any) -> str:
    """3 → "third", 21 → "twenty-first"."""
    start, joint, last = _split_last(words(number))
    if last in _ORDINALS:
        return start + joint + _ORDINALS[last]
    return start + joint + (last[:-1] + "ieth" if last.endswith("y") else last + "th")


def plural(noun: Any, number: Any = 2) -> str:
    """ "frog" with 3 → "frogs", with 1 → "frog"; "lily pad", "goose" and "dragonfly" have theirs."""
    if not isinstance(noun, str) or not noun:
        raise ValueError("'plural' stands after a word, like 'frog'|plural(n).")
    return noun if _whole(number, "plural") == 1 else _many(noun)


def singular(noun: str) -> str:
    """ "frogs" → "frog", "geese" → "goose", "dragonflies" → "dragonfly"; a word that is none of many stays."""
    if noun in _SINGULARS:
        return _SINGULARS[noun]
    if len(noun) < 4 or noun.endswith(("ss", "us", "is")):
        return noun
    if noun.endswith("ies") and len(noun) > 4:
        return noun[:-3] + "y"
    if noun.endswith(("shes", "ches", "sses", "xes")):
        return noun[:-2]
    return noun.removesuffix("s")


def counted(number: Any, noun: Any) -> str:
    """3 with "frog" → "three frogs", 1 → "one frog", 0 → "zero frogs"."""
    return f"{words(number)} {plural(noun, number)}"


def verb(word: Any, number: Any) -> str:
    """The verb for that many: "hops" with 1 → "hops", with 3 → "hop"; "is" → "are", "has" → "have"."""
    if not isinstance(word, str) or not word:
        raise ValueError("'verb' stands after the word for one, like 'hops'|verb(n).")
    if _whole(number, "verb") == 1:
        return str(word)
    first, space, rest = str(word).partition(" ")
    if first in _PLURALS:
        return _PLURALS[first] + space + rest
    for ending, cut in (("ies", 3), ("shes", 2), ("ches", 2), ("sses", 2), ("xes", 2), ("s", 1)):
        if first.endswith(ending):
            return f"{first[:-cut]}{'y' if ending == 'ies' else ''}{space}{rest}"
    return str(word)


def capital(text: Any) -> str:
    """The first letter large: "five frogs" → "Five frogs"."""
    said = str(text)
    return said[:1].upper() + said[1:]


def partners(whole: Any) -> list[tuple[int, int]]:
    """The partners to a whole: 6 → (0, 6), (1, 5), (2, 4), (3, 3) (FACTS: common practice)."""
    number = _whole(whole, "partners", 1000)
    return [(part, number - part) for part in range(number // 2 + 1)]


def count_on_to(part: Any, whole: Any) -> str:
    """The further numbers when counting on: 5 to 8 → "six, seven, eight" (the part itself is not counted)."""
    start, end = _whole(part, "count_on_to"), _whole(whole, "count_on_to")
    return _row(range(start + 1, end + 1))


def count_back_to(whole: Any, part: Any) -> str:
    """The further numbers when counting back: 8 to 5 → "seven, six, five"."""
    start, end = _whole(whole, "count_back_to"), _whole(part, "count_back_to")
    return _row(range(start - 1, end - 1, -1))


def tally_count(number: Any) -> str:
    """Tallies are counted by fives, then by ones: 12 → "five, ten, eleven, twelve"."""
    total = _whole(number, "tally_count")
    fives = total // 5 * 5
    return _row([*range(5, fives + 1, 5), *range(fives + 1, total + 1)])


def ten_count(number: Any) -> str:
    """Tens, then ones: 23 → "ten, twenty, twenty-one, twenty-two, twenty-three"."""
    total = _whole(number, "ten_count")
    tens = total // 10 * 10
    return _row([*range(10, tens + 1, 10), *range(tens + 1, total + 1)])


def tens(number: Any) -> int:
    """How many tens: 47 → 4."""
    return _whole(number, "tens") // 10


def ones(number: Any) -> int:
    """How many ones beside the tens: 47 → 7."""
    return _whole(number, "ones") % 10


def listed(items: Any) -> str:
    """ "frogs, ducks and otters"; numbers are said as words."""
    said = [words(item) if isinstance(item, int) else str(item) for item in items]
    return ", ".join(said[:-1]) + (" and " if len(said) > 1 else "") + said[-1] if said else ""


def length(items: Any) -> int:
    """How many there are in a list."""
    return len(items)


FILTERS: dict[str, Callable[..., Any]] = {
    function.__name__: function
    for function in (words, ordinal, plural, counted, verb, capital, partners, count_on_to, count_back_to, tally_count,
                     ten_count, tens, ones, listed, length)
}  # fmt: skip


def _row(numbers: Iterable[int]) -> str:
    values = list(numbers)
    if len(values) > 200:
        raise ValueError(f"A count of {len(values)} numbers is too long to say.")
    return ", ".join(map(to_words, values))


def _whole(value: Any, name: str, most: int = LARGEST) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise ValueError(f"'{name}' needs a whole number, not '{str(value)[:40]}'.")
    if not 0 <= value <= most:
        raise ValueError(f"'{name}' needs a number from 0 to {most:,}, not {value}.")
    return value


def _split_last(text: str) -> tuple[str, str, str]:
    for joint in ("-", " "):
        start, found, last = text.rpartition(joint)
        if found and " " not in last:
            return start, found, last
    return "", "", text


def _many(noun: str) -> str:
    start, space, last = noun.rpartition(" ")
    if last in _PLURALS:
        return start + space + _PLURALS[last]
    if last.endswith("y") and last[-2:-1] not in "aeiou":
        return noun[:-1] + "ies"
    return noun + ("es" if last.endswith(("s", "x", "ch", "sh")) else "s")
