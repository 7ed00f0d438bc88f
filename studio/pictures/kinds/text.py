"""Words on the screen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar, Self

from studio.pictures.base import CannotShow, Picture, Step
from studio.pictures.metrics import balanced, cannot_write, text_width
from studio.pictures.shapes import Drawing, Words
from studio.script.model import Change, Details, Phrase

SIZE = 72.0
LEADING = 96.0
MARGIN = 20.0
WIDTH = 1100.0
MOST = 160


@dataclass(frozen=True, slots=True)
class Text(Picture):
    """Words as they were written, in lines; `numbers` are those written in digits."""

    text: str

    kind: ClassVar[str] = "text"
    about: ClassVar[str] = "any words, as they are written"

    @classmethod
    def of(cls, details: Details) -> Self:
        if not isinstance(details, Phrase):
            raise cls.misfit(details)
        text = " ".join(details.text.split())
        if not text:
            raise CannotShow("A text needs words.")
        if letter := cannot_write(text):
            raise CannotShow(f"The pictures have no letter {letter}; write it without.")
        if len(text) > MOST:
            raise CannotShow(f"A text has room for {MOST} letters and this one has {len(text)}; use fewer words.")
        if text_width(max(text.split(), key=len), SIZE) > WIDTH:
            raise CannotShow("A word of the text is too long for one line; write a shorter one.")
        return cls(text)

    @property
    def lines(self) -> tuple[str, ...]:
        """The words in lines."""
        return tuple(balanced(self.text, SIZE, WIDTH))

    @property
    def numbers(self) -> tuple[int, ...]:
        return tuple(int(word) for word in "".join(c if c.isdecimal() else " " for c in self.text).split())

    @property
    def marks(self) -> Mapping[str, int]:
        return {}

    def steps(self, change: Change) -> tuple[Step, ...]:
        raise self.refuse(change)

    def drawing(self) -> Drawing:
        lines = self.lines
        width = max(text_width(line, SIZE) for line in lines) + 2 * MARGIN
        words = tuple(
            Words(
                role="words",
                key=f"line {index}",
                x=width / 2,
                y=MARGIN + LEADING * (index + 0.78),
                text=line,
                size=SIZE,
                fill="ink",
            )
            for index, line in enumerate(lines)
        )
        return Drawing(width, LEADING * len(lines) + 2 * MARGIN, words)

    def description(self) -> str:
        return f"Text: {self.text}"
