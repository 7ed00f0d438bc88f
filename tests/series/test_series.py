"""Routines and series: the shelf is right for its numbers, nothing she wrote is lost, nothing runs away."""

from __future__ import annotations

import json
import os
import random
import re
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from studio.agree import check
from studio.cli import main
from studio.errors import UnusableInput
from studio.files import shared_dir
from studio.script.model import Grade
from studio.script.reader import read
from studio.series import api
from studio.series.index import open_index
from studio.series.library import Library, fill_routine_text, load_lesson
from studio.series.lock import only_one
from studio.series.routine import read_routine
from studio.series.sandbox import compile_script, fill_script
from studio.series.situations import GRADES, SITUATIONS
from studio.series.talk import FILTERS
from tests.series.reading import levels

NAMES = sorted(Library.of().names())


@pytest.mark.parametrize("name", NAMES)
def test_a_routine_of_the_shelf_has_no_finding(name: str) -> None:
    library = Library.of()
    routine = library.get(name)
    fillings = list(routine.fillings())
    for values in random.Random(name).sample(fillings, min(10, len(fillings))):
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


def test_what_the_guide_says_of_blanks_is_so() -> None:
    guide = (shared_dir() / "routines" / "README.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| `(.+)` \| (.+) \|$", guide, re.MULTILINE)
    assert len(rows) > 10
    for written, becomes in rows:
        assert fill_script(compile_script("{{ " + written.replace("\\|", "|") + " }}", "guide"), {}) == becomes
    told = {found for row, _ in rows for found in re.findall(r"\\\|(\w+)", row)}
    assert told == set(FILTERS)
    (example,) = re.findall(r"```\n(---.*?)```", guide, re.DOTALL)
    routine = read_routine(example, "example")
    filled = fill_routine_text(routine, {"whole": 7, "part": 1}, Library.of())
    assert "Look! One frog is here." in filled and read(filled).header.title == "Partners of 7"


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
    with only_one(folder), pytest.raises(UnusableInput, match=r"series\.yaml: another build"):
        api.build_series(folder)


def test_every_situation_of_table_1_is_told_as_the_check_hears_it() -> None:
    # CCSSM Table 1 (from memory). The check names a comparison without its wording, and put together with take apart.
    library = Library.of()
    for situation in SITUATIONS:
        routine = library.get(situation.routine)
        fillings = list(routine.fillings())
        for values in random.Random(situation.name).sample(fillings, min(8, len(fillings))):
            stories = check(read(fill_routine_text(routine, values, library), routine.name)).stories
            if "both addends" in situation.name:
                assert not stories  # many answers are right, so there is none to hold the lesson to
                continue
            name = situation.name.split(" (")[0].replace("put together,", "put together/take apart,")
            assert [story.situation for story in stories] == [name], values


@pytest.mark.parametrize("name", NAMES)
def test_a_routine_is_not_above_its_grade(name: str) -> None:
    # As they are spoken, numbers with long names lift some fillings above ("seventeen" has nine letters): with numbers
    # as numerals, which is how hard the sentences are that a number stands in, none is.
    library = Library.of()
    fillings = list(library.get(name).fillings())
    for values in random.Random(name).sample(fillings, min(12, len(fillings))):
        lesson = read(fill_routine_text(library.get(name), values, library))
        assert lesson.header.grade is not None
        for level in levels(lesson, numerals=True):
            assert level < GRADES.index(lesson.header.grade) + 1, values


@pytest.mark.parametrize("grade", GRADES)
def test_a_lesson_of_the_year_is_not_above_its_grade(tmp_path: Path, grade: Grade) -> None:
    # As it is spoken: what a child hears is the whole lesson.
    api.new_series(tmp_path, "Pond Days", grade, lessons=60)
    for path in api.fill_series(tmp_path).written:
        for level in levels(load_lesson(path)):
            assert level < GRADES.index(grade) + 1, path.name


def test_a_series_from_the_command_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "pond"
    new = ["series", "new", str(folder), "--title", "Pond Days", "--lessons", "3", "--first-day", "2026-11-25"]
    assert main([*new, "--holiday", "2026-11-26 to 2026-11-27"]) == 0
    assert main(["series", "fill", str(folder)]) == 0
    capsys.readouterr()
    assert main(["series", "status", str(folder), "--json"]) == 0
    standing = json.loads(capsys.readouterr().out)["lessons"]
    assert [lesson["date"] for lesson in standing] == ["2026-11-25", "2026-11-30", "2026-12-01"]
    assert main(["series", "find", "number bond", str(folder), "--json"]) == 0
    assert {hit["kind"] for hit in json.loads(capsys.readouterr().out)} == {"shown"}
    assert main(["series", "overview", str(folder)]) == 0
    assert "Lesson 3 · 2026-12-01" in (folder / "overview.html").read_text(encoding="utf-8")
    assert main([*new]) == 2


def test_a_saved_picture_is_checked_and_printed_where_it_is_used(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    api.new_series(tmp_path, "Pond Days", lessons=1)
    assert main(["series", "save", "pond frame", str(tmp_path), "--picture", "ten frame: {{ n }} dots as pond",
                 "--blank", "n=0 to 10"]) == 0  # fmt: skip
    lesson = tmp_path / "lessons" / "seven.lesson.md"
    text = '---\ntitle: Seven\n---\n# Seven\n\n[show {{ use("pond frame", n=7) }}]\nHere are seven dots.\n'
    lesson.write_text(text)
    assert main(["check", str(lesson)]) == 0
    assert main(["handout", str(lesson), "-o", str(tmp_path / "seven.pdf")]) == 0
    lesson.write_text(text.replace("n=7", "n=8"))
    capsys.readouterr()
    assert main(["check", str(lesson)]) == 1
    assert "8" in capsys.readouterr().out


def test_check_proves_a_routine_with_all_its_numbers(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    routine = tmp_path / "one-more.routine.md"
    text = (
        "---\ntitle: One more\nblanks:\n  n: 1 to 5\n---\n# One\n\n{{ n|words }} plus one equals {{ (n + 1)|words }}.\n"
    )
    routine.write_text(text)
    main(["check", str(routine)])
    assert "each of its 5 combinations" in capsys.readouterr().out
    routine.write_text(text.replace("(n + 1)", "6"))
    assert main(["check", str(routine)]) == 1
    assert "n = 1, and 3 more" in capsys.readouterr().out  # right for 5 only


@pytest.mark.parametrize(("header", "has"), [("number: 6\n", "the number 6"), ("", "no number")])
def test_a_file_in_the_way_of_a_planned_lesson_is_named_and_left_alone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], header: str, has: str
) -> None:
    api.new_series(tmp_path, "Pond Days", lessons=3)
    api.fill_series(tmp_path)
    moved = tmp_path / "lessons" / "pond-days-002.lesson.md"
    moved.write_text(moved.read_text().replace("number: 2\n", header))
    (tmp_path / "lessons" / "pond-days-003.lesson.md").unlink()
    mine = moved.read_text()
    told = f"Lesson 2 cannot be written: {moved.name} stands in its place and has {has}."
    capsys.readouterr()
    assert main(["series", "fill", str(tmp_path)]) == 1
    assert told in capsys.readouterr().out and moved.read_text() == mine
    assert (tmp_path / "lessons" / "pond-days-003.lesson.md").is_file()  # the others come
    assert any(note.startswith(told) for note in api.series_status(tmp_path).notes)
    moved.rename(moved.with_name("moved.lesson.md"))
    assert main(["series", "fill", str(tmp_path)]) == 0
    assert moved.is_file() and not [n for n in api.series_status(tmp_path).notes if "cannot be written" in n]


@pytest.fixture
def shut(tmp_path: Path) -> Iterator[Path]:
    """A series that can be read and not written to (by whoever runs this: an administrator could all the same)."""
    folder = Path(tempfile.mkdtemp()) / "pond"
    administrator = hasattr(os, "geteuid") and os.geteuid() == 0
    try:
        api.new_series(folder, lessons=2)
        api.fill_series(folder)
        shutil.rmtree(folder / ".studio")
        folder.parent.chmod(0o755)
        folder.chmod(0o555)
        if administrator:
            os.seteuid(65534)
        if os.access(folder, os.W_OK, effective_ids=os.access in os.supports_effective_ids):
            pytest.skip("this system lets everyone write")
        yield folder
    finally:
        if administrator:
            os.seteuid(0)
        folder.chmod(0o755)
        shutil.rmtree(folder.parent)


def test_a_series_that_may_only_be_read_is_searched_and_its_lessons_are_told(
    shut: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["series", "status", str(shut)]) == 0
    assert "Pond: 2 written." in capsys.readouterr().out
    assert main(["series", "find", "the number of the day is two", str(shut)]) == 0
    assert "is said once" in capsys.readouterr().out
    for verb in ("fill", "build", "overview"):
        assert main(["series", verb, str(shut)]) == 2
        told = capsys.readouterr().err
        assert "this place may not be written to" in told and "--out" not in told
    assert not (shut / ".studio").exists()


def test_a_series_without_a_title_is_called_after_its_folder(tmp_path: Path) -> None:
    assert main(["series", "new", str(tmp_path / "lily-pad_days"), "--lessons", "1"]) == 0
    assert api.series_status(tmp_path / "lily-pad_days").title == "Lily Pad Days"
