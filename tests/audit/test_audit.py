"""The audit proves what the film shows, and tells what it does not show."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from studio.audit.audit import audit
from studio.errors import UnusableInput
from studio.film.settings import FilmSettings
from tests.film.material import film_of

EVERY = Path(__file__).with_name("every_kind.lesson.md")


@pytest.fixture(scope="module")
def kit(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("kit")
    film = film_of(folder, EVERY.read_text(encoding="utf-8"), settings=FilmSettings(width=1920, height=1080))
    (folder / "report.json").write_text(json.dumps({"cues": [cue.as_json() for cue in film.cues]}))
    return folder


def test_every_kind_of_picture_is_proved(kit: Path) -> None:
    report = audit(kit)
    said, counted = report.marks
    assert counted == said > 500
    numerals, read = report.numerals
    assert read >= 0.98 * numerals > 0
    assert report.fine, "\n".join(report.lines())


def test_a_report_that_says_something_else_is_not_proved(kit: Path, tmp_path: Path) -> None:
    report = json.loads((kit / "report.json").read_text())
    (tmp_path / "lesson.mp4").symlink_to(kit / "lesson.mp4")
    frame = next(cue for cue in report["cues"] if cue["kind"] == "ten frame")
    frame["marks"]["dots"] += 1
    bond = next(cue for cue in report["cues"] if cue["kind"] == "number bond")
    bond["numbers"][0] += 1
    (tmp_path / "report.json").write_text(json.dumps({"cues": [frame, bond]}))
    wrong = audit(tmp_path)
    assert wrong.proved == 0
    assert "dots" in wrong.lines()[1]


def test_a_folder_that_is_no_kit_is_told(tmp_path: Path) -> None:
    with pytest.raises(UnusableInput, match=r"report\.json"):
        audit(tmp_path)
