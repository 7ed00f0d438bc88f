"""The ten frame."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from studio.pictures.marks import MARGIN, PLACE, MarkPicture


@dataclass(frozen=True, slots=True)
class TenFrame(MarkPicture):
    """Two rows of five squares, the top row filled first."""

    kind: ClassVar[str] = "ten frame"
    about: ClassVar[str] = "two rows of five squares that dots and crosses are put in"
    capacity: ClassVar[int] = 10
    larger: ClassVar[str] = "A double ten frame shows up to 20."

    @classmethod
    def place(cls, index: int) -> tuple[float, float]:
        row, column = divmod(index, 5)
        return (MARGIN + PLACE * (column + 0.5), MARGIN + PLACE * (row + 0.5))

    def size(self) -> tuple[float, float]:
        return (5 * PLACE + 2 * MARGIN, 2 * PLACE + 2 * MARGIN)
