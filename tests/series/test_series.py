"""Routines and series: the shelf is right for its numbers, nothing she wrote is lost, nothing runs away."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from studio.agree import check
from studio.errors import UnusableInput
from studio.script.reader import read
from studio.series import api
from studio.series.index import open_index
from studio.series.library import Library, fill_routine_text
from studio.series.lock import only_one
from studio.series.routine import read_routine

NAMES = sorted(Library.of().names())


@pytest.mark.parametrize("name", NAMES)
def test_a_routine_of_the_shelf_has_no_finding(name: str) -> None:
    library = Library.of()
    routine = library.get(name)
    fillings = list(routine.fillings())
    for values in random.Random(name).sample(fillings, min(25, len(fillings))):
        findings = check(read(fill_routine_text(routine, values, library), name)).findings
        assert not [f for f in findings if f.level != "note"], values


@pytest.mark.parametrize(
    "body",
    [
        "{% for a in range(40000) %}{% for b in range(40000) %}{% endfor %}{% endfor %}",
        "{{ ''.__class__ }}", "{% include 'x' %}", "{{ 'x' * 100000000 }}", "{{ 9 ** 9 ** 9 }}", "{{ open('x') }}",
    ],
)  # fmt: skip
def test_a_routine_that_runs_away_or_reaches_out_is_refused(body: str) -> None:
    with pytest.raises(UnusableInput):
        read_routine(f"---\ntitle: x\nblanks: {{n: 1 to 2}}\n---\nHello {body}\n", "x").fill({"n": 1})


def test_what_she_wrote_stays_and_a_broken_index_is_made_again(tmp_path: Path) -> None:
    folder = tmp_path / "pond"
    api.new_series(folder, "Pond Days", "K", lessons=4)
    assert len(api.fill_series(folder).written) == 4
    lesson = sorted((folder / "lessons").iterdir())[0]
    lesson.write_text(lesson.read_text() + "My own words.\n")
    plan = folder / "plan.csv"
    mine = plan.read_text().replace("2026-09-02", "2026-09-03")
    plan.write_text(mine)
    api.plan_series(folder)
    assert plan.read_text() == mine
    assert api.fill_series(folder).written == ()
    assert lesson.read_text().endswith("My own words.\n")
    assert api.find_in_series(folder, "my own words").hits
    (folder / ".studio" / "index.sqlite").write_bytes(b"junk" * 1000)
    with open_index(folder) as index:
        assert index.remade and index.check_integrity()
    with only_one(folder), pytest.raises(UnusableInput, match="is running"):
        api.build_series(folder)
