"""The rekenrek."""

from __future__ import annotations

from tests.pictures.made import said, shown


def test_beads_that_are_pushed_count_and_the_others_wait() -> None:
    picture = shown("rekenrek: 7 and 2")
    assert picture.numbers == (7, 2, 9)
    assert picture.marks == {"upper": 7, "lower": 2, "waiting": 11}


def test_adding_fills_the_row_that_was_begun_and_then_the_other() -> None:
    assert shown("rekenrek: 8 and 0", "add 4").marks == {"upper": 10, "lower": 2, "waiting": 8}
    assert shown("rekenrek: 7 and 2", "add 1").marks == {"upper": 7, "lower": 3, "waiting": 10}
    assert said("rekenrek: 8 and 0", "add 4, counting") == [9, 10, 11, 12]


def test_taking_away_empties_the_lower_row_first() -> None:
    assert shown("rekenrek: 7 and 2", "take away 3").marks == {"upper": 6, "lower": 0, "waiting": 14}


def test_a_bead_travels_along_its_rod() -> None:
    def bead(spec: str) -> tuple[float, float]:
        shape = next(s for s in shown(spec).drawing().shapes if s.key == "upper bead 8")
        return shape.x, shape.y  # type: ignore[union-attr]

    before, after = bead("rekenrek: 7 and 0"), bead("rekenrek: 8 and 0")
    assert before[1] == after[1]
    assert before[0] > after[0]
