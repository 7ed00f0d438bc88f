"""Pictures that pile up are told, once for each pile."""

from __future__ import annotations

import pytest

from studio.agree import check
from studio.script.reader import read

_KINDS = ("ten frame: 7 dots", "tally: 7", "dots: 7", "base ten: 7", "number line: 0 to 10, mark 7", "dice: 4 and 3")


def _pile(many: int, said: str = "Here is seven.") -> str:
    return "".join(f"[show {kind}]\n{said}\n\n" for kind in _KINDS[:many])


def notes(body: str) -> list[tuple[int, str, str]]:
    found = check(read("---\ntitle: Pond\n---\n" + body)).findings
    return [(one.line, one.level, one.message) for one in found if one.rule == "crowded screen"]


def test_five_pictures_at_once_are_a_note_where_the_fifth_comes() -> None:
    assert notes(_pile(4)) == []
    assert notes(_pile(6)) == [(16, "note", "Five pictures are on the screen at once, and each becomes small.")]


@pytest.mark.parametrize("away", ["[clear]\n", "[hide tally]\n[hide dots]\n"])
def test_each_pile_is_told_once(away: str) -> None:
    assert len(notes(_pile(5) + away)) == 1
    assert len(notes(_pile(5) + "[clear]\nAgain.\n" + _pile(6))) == 2


def test_what_is_cleared_or_takes_the_place_of_another_is_no_pile() -> None:
    assert notes(_pile(3) + "[clear]\n" + _pile(3)) == []
    assert notes("".join(f"[show dots: {number} as pond]\nHere are {number}.\n\n" for number in range(1, 8))) == []


def test_pictures_that_come_together_are_counted_together() -> None:
    ((_, _, message),) = notes("".join(f"[show {kind}]\n" for kind in _KINDS) + "All of them show seven.\n")
    assert message.startswith("Six pictures")
