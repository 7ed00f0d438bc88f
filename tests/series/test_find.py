"""Finding in a series: what was said is found however it was said, and what could not be searched is told."""

from __future__ import annotations

from pathlib import Path

import pytest

from studio.cli import main
from studio.series import api
from studio.series.talk import plural, singular

HEADER = "---\ntitle: Frogs\nnumber: {number}\n---\n# Pond\n\n"


def say(folder: Path, number: int, words: str) -> Path:
    path = folder / "lessons" / f"frogs-{number}.lesson.md"
    path.write_text(HEADER.format(number=number) + words + "\n")
    return path


@pytest.fixture
def pond(tmp_path: Path) -> Path:
    api.new_series(tmp_path, "Pond Days", lessons=2)
    return tmp_path


@pytest.mark.parametrize(
    ("query", "said"),
    [("lily pad", "Green lily pads float."), ("frogs", "One frog swims."), ("goose", "Look at the geese."),
     ("dragonfly", "Dragonflies rest."), ("4 + 1", "Four and one make five."), ("5 = 4 + 1", "Five is four and one."),
     ("7 - 2", "Seven take away two leaves five."), ("four + one", "One more than four is five."),
     ("3 × 2", "Three times two is six."), ("3 times 2", "3 × 2 = 6."), ("3x2", "3 * 2"), ("three x two", "3x2"),
     ("three multiplied by two", "3 × 2 = 6."), ("6 ÷ 2", "Six divided by two is three."),
     ("6 divided by 2", "6/2 = 3."), ("six / two", "6 ÷ 2"), ("How many frogs?", "How many frogs?"),
     ("7 + ? = 9", "7 + ? = 9.")],
)  # fmt: skip
def test_one_and_many_and_a_sum_are_found_however_they_are_said(pond: Path, query: str, said: str) -> None:
    say(pond, 1, said)
    say(pond, 2, "The otter is asleep. Otters sleep a lot. Six and three make nine. Count down: three, two. Six, two.")
    assert [(hit.number, hit.text) for hit in api.find_in_series(pond, query).hits] == [(1, said)]


@pytest.mark.parametrize("noun", ["frog", "lily", "goose", "dragonfly", "fox", "bus", "cookie", "grass", "finch", "pie",
                                  "leaf", "toad", "fish", "tree", "house", "toe", "horse"])  # fmt: skip
def test_one_of_many_is_the_one_it_was(noun: str) -> None:
    assert singular(plural(noun)) == noun == singular(noun)


def test_a_lesson_that_cannot_be_read_is_told_where_it_is_not_searched_and_keeps_its_number(
    pond: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    say(pond, 1, "Frogs hop.")
    say(pond, 2, "[show ten frame 4 dots]\nFrogs hop.")
    assert main(["series", "find", "frog", str(pond), "--page"]) == 0
    told = capsys.readouterr().out
    assert "1 lesson could not be read and was not searched:\nfrogs-2.lesson.md: Line 7" in told
    assert "1 lesson could not be read" in (pond / "found.html").read_text(encoding="utf-8")
    standings = api.series_status(pond).lessons
    assert [(standing.number, standing.state) for standing in standings] == [(1, "written"), (2, "cannot be read")]
    (outcome,) = api.build_series(pond, ["2"]).outcomes
    assert outcome.state == "failed" and "Line 7" in outcome.message
