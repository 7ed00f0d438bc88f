"""Dots and crosses without a frame, in ten-frame order."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from studio.pictures.marks import MARGIN, PLACE, MarkPicture

GAP = 40.0
"""Between one ten and the next below it; twice that between one twenty and the next beside it."""


@dataclass(frozen=True, slots=True)
class Dots(MarkPicture):
    """Rows of five, a gap after each ten; after twenty a new block begins beside the first."""

    kind: ClassVar[str] = "dots"
    bare: ClassVar[bool] = True
    about: ClassVar[str] = "dots and crosses in rows of five, a small gap after each ten"
    capacity: ClassVar[int] = 50
    framed: ClassVar[bool] = False
    larger: ClassVar[str] = "Base ten shows larger numbers."

    @classmethod
    def place(cls, index: int) -> tuple[float, float]:
        block, within = divmod(index, 20)
        row, column = divmod(within, 5)
        x = MARGIN + PLACE * (column + 0.5) + block * (5 * PLACE + 2 * GAP)
        return (x, MARGIN + PLACE * (row + 0.5) + (GAP if row > 1 else 0))

    def size(self) -> tuple[float, float]:
        last = max(self.total, 1) - 1
        block, within = divmod(last, 20)
        row = 3 if block else within // 5
        width = 5 * PLACE * (block + 1) + block * 2 * GAP + 2 * MARGIN
        return (width, PLACE * (row + 1) + (GAP if row > 1 else 0) + 2 * MARGIN)
