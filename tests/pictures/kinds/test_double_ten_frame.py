"""The double ten frame."""

from __future__ import annotations

from tests.pictures.made import said, shown


def test_a_teen_number_fills_one_frame_and_begins_the_other() -> None:
    # CCSSM 1.NBT.B.2: 11 to 19 are one ten and 1 to 9 ones.
    marks = [shape for shape in shown("double ten frame: 14 dots").drawing().shapes if shape.counts]
    rows = sorted({mark.y for mark in marks})  # type: ignore[union-attr]
    assert len(rows) == 3
    assert rows[2] - rows[1] > rows[1] - rows[0]
    assert sum(mark.y == rows[2] for mark in marks) == 4  # type: ignore[union-attr]


def test_counting_on_passes_ten() -> None:
    assert said("double ten frame: 8 dots", "add 5 crosses, counting") == [9, 10, 11, 12, 13]
