"""The double ten frame."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from studio.pictures.marks import MARGIN, PLACE, MarkPicture

GAP = 40.0


@dataclass(frozen=True, slots=True)
class DoubleTenFrame(MarkPicture):
    """Two ten frames, one above the other; the upper is filled first."""

    kind: ClassVar[str] = "double ten frame"
    about: ClassVar[str] = "two ten frames, one above the other, for numbers up to twenty"
    capacity: ClassVar[int] = 20
    larger: ClassVar[str] = "Dots show up to 50."

    @classmethod
    def place(cls, index: int) -> tuple[float, float]:
        row, column = divmod(index, 5)
        return (MARGIN + PLACE * (column + 0.5), MARGIN + PLACE * (row + 0.5) + (GAP if row > 1 else 0))

    def size(self) -> tuple[float, float]:
        return (5 * PLACE + 2 * MARGIN, 4 * PLACE + GAP + 2 * MARGIN)
