"""Words made comparable: lower case, without punctuation, contractions spread out, numerals as number words."""

from __future__ import annotations

import re
from difflib import SequenceMatcher
from functools import cache

ONES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
    "eighteen nineteen"
).split()
TENS = {20: "twenty", 30: "thirty", 40: "forty", 50: "fifty", 60: "sixty", 70: "seventy", 80: "eighty", 90: "ninety"}
VALUE: dict[str, int] = {
    **{word: value for value, word in enumerate(ONES)},
    **{word: value for value, word in TENS.items()},
    "hundred": 100,
}
"""The number words of one word each, with their values."""

NUMBER_WORD = {value: word for word, value in VALUE.items()}

FILLERS = frozenset("um uh er erm hm hmm mm mhm ah oh huh".split())

SIGNS = {
    "+": frozenset({"plus", "and", "add"}),
    "×": frozenset({"times"}),
    "*": frozenset({"times"}),
    "÷": frozenset({"divided"}),
    "/": frozenset({"divided"}),
    "-": frozenset({"minus", "take", "less", "subtract"}),
    "−": frozenset({"minus", "take", "less", "subtract"}),
    "–": frozenset({"minus", "take", "less", "subtract"}),
    "=": frozenset({"equals", "is", "makes", "make", "equal", "are"}),
    "<": frozenset({"less", "fewer", "smaller"}),
    ">": frozenset({"more", "greater", "bigger"}),
    "?": frozenset({"what", "something", "how"}),
}
"""How the signs of a number sentence are said (common practice, no source)."""

_SOUND_ALIKE = """
two: to too | four: for fore | eight: ate | one: won | ten: tin | six: sex sick sicks | three: tree free | zero: zeros
nine: nein | eleven: leven | here: hear | there: their they're | know: no | see: sea | some: sum | whole: hole
right: write | our: are | by: buy bye | add: ad | pair: pear | bear: bare | through: threw | way: weigh
"""
ALIKE: dict[str, str] = {
    alias: entry.split(":")[0].strip()
    for line in _SOUND_ALIKE.strip().splitlines()
    for entry in line.split("|")
    for alias in entry.split(":")[1].split()
}
"""Words that sound the same, each with the one that a lesson more likely has."""

_LONG = {
    "let's": "let us", "lets": "let us", "it's": "it is", "that's": "that is", "what's": "what is",
    "there's": "there is", "here's": "here is", "he's": "he is", "she's": "she is", "who's": "who is",
    "how's": "how is", "where's": "where is", "i'm": "i am", "can't": "can not", "won't": "will not",
    "cannot": "can not", "gonna": "going to", "okay": "ok",
}  # fmt: skip
_SOUNDS = str.maketrans({**dict.fromkeys("aeiouyhw'-"), **dict(zip("bcdgjmqvz", "pktksnkfs", strict=True))})
_ENDINGS = (("n't", " not"), ("'ll", " will"), ("'re", " are"), ("'ve", " have"), ("'d", " would"))
_JOINED = re.compile(r"(?<=\w)[-–—,](?=\w)")
_PIECE = re.compile(r"[a-z]+(?:'[a-z]+)?|\d+|[-+=<>?−–]")


def tokens(text: str) -> tuple[str, ...]:
    """The comparable words of a written word: `"Twenty-three,"` and `"23"` both give `("twenty", "three")`."""
    plain = text.lower().replace("’", "'").replace("‘", "'").strip()
    if plain in SIGNS:
        return (plain,)
    found: list[str] = []
    for piece in _PIECE.findall(plain):
        if piece in SIGNS:
            continue
        if piece.isdigit():
            found += spoken(int(piece))
            continue
        if piece in _LONG:
            found += _LONG[piece].split()
            continue
        for ending, long in _ENDINGS:
            if piece.endswith(ending):
                piece = piece.removesuffix(ending) + long
                break
        found += piece.replace("'", "").split()
    return tuple(found)


def apart(text: str) -> str:
    """A text with the numbers of a count apart that were written as one word: `Seven-eight-nine.` and
    `seven,eight,nine.` both give `seven, eight, nine.`; `twenty-three` is one number and stays."""
    return " ".join(_apart(word) for word in text.split())


def _apart(word: str) -> str:
    numbers: list[str] = []
    last = 0
    for piece in _JOINED.split(word):
        said = tokens(piece)
        value = VALUE.get(said[0], 100) if len(said) == 1 else 100
        if value == 100 or (piece[:1].isdigit() and piece.strip(".?!") != str(value)):
            return word
        if last in TENS and 0 < value < 10:
            numbers[-1] += f"-{piece}"
        else:
            numbers.append(piece)
        last = value
    return ", ".join(numbers)


def spoken(number: int) -> list[str]:
    """The words of a number up to 999 (beyond, its digits one by one)."""
    if number < 20:
        return [ONES[number]]
    if number < 100:
        ten, one = number // 10 * 10, number % 10
        return [TENS[ten]] + ([ONES[one]] if one else [])
    if number < 1000:
        rest = number % 100
        return [ONES[number // 100], "hundred"] + (spoken(rest) if rest else [])
    return [ONES[int(digit)] for digit in str(number)]


def same(script: str, heard: str) -> bool:
    """Whether two comparable words are the same word, or sound the same."""
    if script == heard or heard in SIGNS.get(script, ()):
        return True
    return ALIKE.get(heard, heard) == ALIKE.get(script, script)


def sound_alike(one: str, other: str) -> bool:
    """Whether two comparable words have much the same consonants, and so may be taken for one another where sound is
    lossy or far away: "eight" and "it", "nine" and "online"."""
    first, second = _consonants(one), _consonants(other)
    if min(len(first), len(second)) < 2:
        # "it" is no "two": of a single consonant it matters whether it opens the word.
        return bool(first) and first == second and (one[0] in "aeiou") == (other[0] in "aeiou")
    return SequenceMatcher(None, first, second, autojunk=False).ratio() > 0.7


@cache
def _consonants(word: str) -> str:
    """The consonants of a word as they sound, voiced and unvoiced ones alike; "gh" is silent in the number words."""
    for letters, sound in (("gh", ""), ("ph", "f"), ("x", "ks"), ("ck", "k")):
        word = word.replace(letters, sound)
    return word.translate(_SOUNDS)


def alike(one: str, other: str) -> float:
    """How alike two spellings are, 0 to 1 (Ratcliff and Obershelp, from the standard library)."""
    return SequenceMatcher(None, one, other, autojunk=False).ratio()
