"""The form in which what is said and shown is looked for: numbers as digits, signs as signs, everything lower case,
nouns as one.

"Seven plus two equals nine." and "7+2=9" both become " 7 + 2 = 9 ", "three times two" becomes " 3 × 2 " and "Frogs!"
becomes " frog ".
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from studio.pictures.base import Picture
from studio.script.model import Details, Equation, Parts, Phrase, Term, Word
from studio.script.numberwords import to_number
from studio.series.talk import singular

_SIGNS = {
    "plus": "+", "minus": "-", "−": "-", "–": "-", "equals": "=", "equal": "=", "times": "×", "multiplied": "×", "x": "×",
    "*": "×", "divided": "÷", "/": "÷",
}  # fmt: skip
_WORD = re.compile(r"[^\W_]+(?:['’-][^\W\d_]+)*|[-+=<>×÷−–]|(?<!\w)\?|(?<!\S)[*/](?!\S)")
_BETWEEN = re.compile(r"(?<=\d)\s*([x*/])\s*(?=\d)")  # "3x2", but neither "fox" nor "**frogs**"
_BY = re.compile(r"(?<=[×÷] )by ")


def normal_said(words: Iterable[Word], written: Iterable[str] = ()) -> str:
    """The searched forms of a sentence: its words, and the statements in it as they are `written` in signs. What is
    written without a sign, such as a count, is only the words once more."""
    said = normal_text(" ".join(word.plain for word in words))
    sums = [normal_text(statement) for statement in written if set(statement) & set("=<>")]
    return " | ".join(dict.fromkeys((said, *sums)))


def normal_text(text: str) -> str:
    """The searched form of a text as it is typed."""
    spaced = _BETWEEN.sub(r" \1 ", text.lower())
    return _BY.sub("", f" {' '.join(_normal(found[0]) for found in _WORD.finditer(spaced))} ")


def normal_picture(text: str, details: Details, picture: Picture | None) -> str:
    """The searched forms of a picture: its direction as written, what it was shown with, what is read off it at last."""
    forms = [text, *_forms(details)]
    if picture is not None:
        marks = [number for number in picture.marks.values() if number]
        if len(marks) == 2 and set(picture.marks) == {"dots", "crosses"}:
            forms.append(f"{marks[0]} + {marks[1]} = {sum(marks)}")
        forms.append(" ".join(map(str, picture.numbers)))
    return " | ".join(normal_text(form) for form in dict.fromkeys(forms) if form)


def _forms(details: Details) -> Iterator[str]:
    match details:
        case Parts(whole=whole, parts=parts):
            unknown = [part for part in parts if part is None]
            known = [part for part in parts if part is not None]
            if whole is None and not unknown:
                whole = sum(known)
            elif whole is not None and len(unknown) == 1:
                parts = tuple(whole - sum(known) if part is None else part for part in parts)
            yield f"{_number(whole)} is {' and '.join(map(_number, parts))}"
            yield f"{' + '.join(map(_number, parts))} = {_number(whole)}"
        case Equation(sides=sides):
            yield " = ".join(map(_side, sides))
            solved = _solved(sides)
            if solved is not None:
                yield " = ".join(map(_side, solved))
        case Phrase(text=text):
            yield text
        case _:
            pass


def _solved(sides: tuple[tuple[Term, ...], ...]) -> tuple[tuple[Term, ...], ...] | None:
    """The equation with its one unknown found, where there is one and another side is whole."""
    unknown = [(i, j) for i, side in enumerate(sides) for j, term in enumerate(side) if term.value is None]
    whole = [side for side in sides if all(term.value is not None for term in side)]
    if len(unknown) != 1 or not whole:
        return None
    i, j = unknown[0]
    total = sum((term.value or 0) * (1 if term.sign == "+" else -1) for term in whole[0])
    rest = sum((term.value or 0) * (1 if term.sign == "+" else -1) for term in sides[i])
    value = (total - rest) * (1 if sides[i][j].sign == "+" else -1)
    side = (*sides[i][:j], Term(sides[i][j].sign, value), *sides[i][j + 1 :])
    return (*sides[:i], side, *sides[i + 1 :])


def _side(side: tuple[Term, ...]) -> str:
    shown = " ".join(f"{term.sign} {_number(term.value)}" for term in side)
    return shown.removeprefix("+ ")


def _number(value: int | None) -> str:
    return "?" if value is None else str(value)


def _normal(word: str) -> str:
    if word in _SIGNS:
        return _SIGNS[word]
    try:
        return str(to_number(word))
    except ValueError:
        return singular(word)
