"""How wide words are, for laying pictures out without opening a font.

The figures are the larger of the advance widths of ABeeZee and Lexend, in thousandths of the em, rounded up to twenty:
words set in either never come out wider than this. Both have the letters of Western Europe (Latin-1).
"""

from __future__ import annotations

CAPITAL = 0.7
"""Height of capitals and numerals in parts of the em, alike in both fonts."""

_WIDTHS = {
    220: "'",
    260: "’‘",
    280: "ij",
    300: " ,.:;|",
    320: "!",
    360: "l",
    380: "()",
    400: "ft",
    420: '"[]r{}',
    460: "*“”•",
    480: "Is",
    500: "`z",
    520: "?",
    540: "c",
    560: "/\\",
    580: "Tkvx",
    600: "+-12356789<=>L^ehny~×–−",
    620: "04EFou",
    640: "$PSabdpq",
    660: "JYZg€",
    680: "C",
    700: "ABRX_",
    720: "V",
    740: "&KU",
    760: "#D",
    780: "GH…",
    800: "NOQ",
    820: "w",
    880: "M—",
    900: "%©®¼½¾",
    920: "æ",
    940: "m",
    980: "Æ",
    1000: "W",
    1060: "@",
}
_WIDTH_OF = {letter: width / 1000 for width, letters in _WIDTHS.items() for letter in letters}
_OTHER = 0.8


def text_width(text: str, size: float) -> float:
    """The greatest width of `text` on one line, in the units of `size` (the em)."""
    return size * sum(_WIDTH_OF.get(letter, _OTHER) for letter in text)


def cannot_write(text: str) -> str:
    """The first letter of `text` that the pictures' fonts do not have; "" where they have all."""
    return next((letter for letter in text if letter not in _WIDTH_OF and not "\xa1" <= letter <= "\xff"), "")


def wrapped(text: str, size: float, width: float) -> list[str]:
    """`text` in lines no wider than `width`; a word that is wider alone stands on a line of its own."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def balanced(text: str, size: float, width: float) -> list[str]:
    """`text` in as few lines no wider than `width` as will do, nearly alike in length: no word is left over alone."""
    lines = wrapped(text, size, width)
    low, high = 0.0, width
    for _ in range(12):
        middle = (low + high) / 2
        tried = wrapped(text, size, middle)
        if len(tried) == len(lines) and all(text_width(line, size) <= middle for line in tried):
            lines, high = tried, middle
        else:
            low = middle
    return lines
