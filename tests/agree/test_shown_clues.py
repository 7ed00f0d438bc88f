"""What points to a number in a direction."""

from __future__ import annotations

import pytest

from studio.agree.expect.shown.clues import clues
from studio.agree.expect.shown.families import family
from studio.agree.expect.shown.place import ShownPlace
from studio.agree.expect.shown.suspects import places
from tests.agree.minded import case_of

LESSON = """---
title: The pond
---
# Partners of nine
We look for partners of nine.
[show number sentence: {0} - ? = 6 as sum] Nine frogs sat here. [sum: fill in] Three went away.
[show dots: {1} dots as log] Some frogs. [log: add {2} crosses, counting] Eight, nine. Nine in all.
[show number path: {3} to {4}, mark {5} as path] Start at four. [path: hop {6} to {7}, counting] Five, six, seven.
[show base ten: {8} as blocks] One ten and seven ones. [show cards: {9}, 2, 3 as cards] Which card? [cards: turn over {10}] Two!
"""
RIGHT = (9, 7, 2, 0, 10, 4, 4, 7, 17, 1, 2)


def found(numbers: tuple[int, ...]) -> list[ShownPlace]:
    return places(case_of(LESSON.format(*numbers)))


def blanks() -> list[int]:
    """Where each number of `RIGHT` is among the numbers in the directions."""
    marked = [place.value for place in found(tuple(range(21, 32)))]
    return [marked.index(value) for value in range(21, 32)]


@pytest.mark.parametrize("blank", range(len(RIGHT)))
@pytest.mark.parametrize("wrong", [1, 3, 8])
def test_no_number_of_a_direction_speaks_for_itself(blank: int, wrong: int) -> None:
    """What points to a number at a place is the same whether it stands there or another."""
    slipped = (*RIGHT[:blank], RIGHT[blank] + wrong, *RIGHT[blank + 1 :])
    at = blanks()[blank]
    right, other = found(RIGHT)[at], found(slipped)[at]
    assert (right.value, other.value) == (RIGHT[blank], RIGHT[blank] + wrong)
    assert sorted(clues(right)) == sorted(clues(other))


@pytest.mark.parametrize(
    ("blank", "begin"),
    [
        (0, "bls:"),  # 9 - 3 = 6, where 3 is what is said when the unknown is filled in
        (1, "rece:"),  # nine at the end of the count, less the two that came
        (2, "rerunc:"),  # nine at the end of the count, less the seven that were there
        (3, "rmh<ten:"),
        (4, "rmh>ten:"),  # the next ten after seven
        (6, "rnb"),  # the number before the count
        (7, "rne"),  # where the count ends
        (8, "aXo"),  # one ten and seven ones
    ],
)
def test_the_right_number_is_pointed_to(blank: int, begin: str) -> None:
    """Each by a sum that can be done by hand."""
    place = found(RIGHT)[blanks()[blank]]
    assert RIGHT[blank] in {value for value, name in clues(place) if name.startswith(begin)}


def test_every_clue_has_a_family() -> None:
    for place in found(RIGHT):
        for _, name in clues(place):
            family(name)
