"""Dice."""

from __future__ import annotations

import pytest

from studio.pictures.base import CannotShow
from studio.pictures.kinds import make
from studio.pictures.kinds.dice import FACES
from studio.script.model import NumberList
from tests.pictures.made import said, shown


def test_each_face_has_its_pips_and_looks_the_same_upside_down() -> None:
    for value, pips in FACES.items():
        assert len(pips) == value
        assert {(-x, -y) for x, y in pips} == set(pips)


def test_the_total_is_read_off_two_dice() -> None:
    assert shown("dice: 6 and 6").numbers == (6, 6, 12)
    assert said("dice: 2 and 1", "count") == [1, 2, 3]


def test_a_die_shows_one_to_six() -> None:
    with pytest.raises(CannotShow, match="1 to 6"):
        make("dice", NumberList((7,)))
