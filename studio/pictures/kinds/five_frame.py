"""The five frame."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from studio.pictures.marks import MARGIN, PLACE, MarkPicture


@dataclass(frozen=True, slots=True)
class FiveFrame(MarkPicture):
    """One row of five squares."""

    kind: ClassVar[str] = "five frame"
    about: ClassVar[str] = "one row of five squares that dots and crosses are put in"
    capacity: ClassVar[int] = 5
    larger: ClassVar[str] = "A ten frame shows up to 10."

    @classmethod
    def place(cls, index: int) -> tuple[float, float]:
        return (MARGIN + PLACE * (index + 0.5), MARGIN + PLACE / 2)

    def size(self) -> tuple[float, float]:
        return (5 * PLACE + 2 * MARGIN, PLACE + 2 * MARGIN)
