"""A word on writing lines."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Picture, Step
from studio.pictures.metrics import cannot_write, text_width
from studio.pictures.shapes import Drawing, Line, Words
from studio.script.model import Change, Details, Phrase
from studio.script.numberwords import to_number

SIZE = 180.0
TOP = 0.74 * SIZE
"""Tall letters (b, d, h, l) reach this far above the base line, in both fonts."""
MIDDLE = 0.525 * SIZE
"""Short letters (a, e, n) reach this far, in both fonts."""
BELOW = 0.24 * SIZE
MARGIN = 24.0
LINE = 4.0
LONGEST = 26
"""Enough for "one hundred and seventeen", the longest name of a number to 120."""


@dataclass(frozen=True, slots=True)
class Word(Picture):
    """A word to write: a top line, a dashed midline and a base line."""

    text: str

    kind: ClassVar[str] = "word"
    about: ClassVar[str] = "a word on writing lines, with a dashed midline for the short letters"

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, Phrase):
            raise cls.misfit(details)
        text = " ".join(details.text.split())
        if letter := cannot_write(text):
            raise CannotShow(f"The pictures have no letter {letter}; write it without.")
        if not 1 <= len(text) <= LONGEST:
            raise CannotShow(f"The writing lines have room for 1 to {LONGEST} letters; this has {len(text)}.")
        return cls(text)

    @property
    def numbers(self) -> tuple[int, ...]:
        """The number that the word names, if it names one."""
        try:
            return (to_number(self.text),)
        except ValueError:
            return ()

    @property
    def marks(self) -> Mapping[str, int]:
        return {}

    def steps(self, change: Change) -> tuple[Step, ...]:
        raise self.refuse(change)

    def drawing(self) -> Drawing:
        width = max(text_width(self.text, SIZE) + 4 * MARGIN, 460.0)
        base = MARGIN + TOP
        left, right = MARGIN, width - MARGIN

        def line(key: str, y: float, dash: float = 0.0) -> Line:
            return Line(
                role="writing line", key=key, x1=left, y1=y, x2=right, y2=y, fill="quiet", width=LINE, dash=dash
            )

        # The lines lie just outside the letters, so that they do not cover what tells a letter from another.
        return Drawing(
            width,
            base + BELOW + MARGIN,
            (
                line("top", base - TOP - LINE / 2),
                line("midline", base - MIDDLE - LINE / 2, 14.0),
                line("base", base + LINE / 2),
                Words(
                    role="word", key="word", x=width / 2, y=base, text=self.text, size=SIZE, fill="ink", face="writing"
                ),
            ),
        )

    def description(self) -> str:
        return f"Word on writing lines: {self.text}"
