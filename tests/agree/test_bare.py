"""Lessons as they are first written, from which the networks learn, too."""

from __future__ import annotations

import csv
from pathlib import Path
from types import ModuleType

import pytest

from studio.agree.reading import case_of
from studio.script.reader import read
from tests.programs import BENCHMARKS, program


@pytest.fixture(scope="module")
def bare() -> ModuleType:
    return program("bare")


def test_every_word_is_kept_and_no_picture(bare: ModuleType, tmp_path: Path) -> None:
    paths = sorted((BENCHMARKS / "lessons").glob("*.lesson.md"))[::300]
    written = bare.bare_lessons(paths, tmp_path / "bare")
    assert len(written) > 15
    for path in written:
        before = read((BENCHMARKS / "lessons" / path.name).read_text("utf-8"), path.name)
        after = read(path.read_text("utf-8"), path.name)
        assert [word.text for word in after.words] == [word.text for word in before.words]
        assert not case_of(after).pictures


def test_a_number_that_takes_no_part_is_listed_where_it_stands_now(bare: ModuleType, tmp_path: Path) -> None:
    text = "---\ntitle: Boots\n---\n\n# Pond\n\n[show dots: 4]\n[wait 3 s]\nFour frogs. [note: slowly] It is half past six.\n"
    (tmp_path / "a.lesson.md").write_text(text)
    (tmp_path / "free.csv").write_text("lesson,line,word,occurrence\na.lesson.md,9,six,1\n")
    (path,) = bare.bare_lessons([tmp_path / "a.lesson.md"], tmp_path / "bare")
    (row,) = csv.DictReader((path.parent / "free.csv").open(encoding="utf-8"))
    assert row["word"] in path.read_text("utf-8").split("\n")[int(row["line"]) - 1]


def test_a_lesson_with_a_mistake_on_purpose_is_left_out(bare: ModuleType, tmp_path: Path) -> None:
    text = "---\ntitle: Slip\n---\n\n# Pond\n\n[note: on purpose, a slip]\nTwo and two make five.\n"
    (tmp_path / "b.lesson.md").write_text(text)
    assert bare.bare_lessons([tmp_path / "b.lesson.md"], tmp_path / "bare") == []
