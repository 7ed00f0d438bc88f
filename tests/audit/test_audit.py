"""The audit proves what the film shows, and tells what it does not show."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from studio.agree import check
from studio.audit.audit import audit
from studio.errors import UnusableInput
from studio.film.settings import FilmSettings
from studio.script.reader import read
from tests.film.material import HEADER, film_of, paced

EVERY = Path(__file__).with_name("every_kind.lesson.md")


@pytest.fixture(scope="module")
def kit(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("kit")
    film = film_of(folder, EVERY.read_text(encoding="utf-8"), settings=FilmSettings(width=1280, height=720))
    (folder / "report.json").write_text(json.dumps({"cues": [cue.as_json() for cue in film.cues]}))
    return folder


def test_every_kind_of_picture_is_proved(kit: Path) -> None:
    report = audit(kit)
    said, counted = report.marks
    assert counted == said > 500
    numerals, read = report.numerals
    assert read >= 0.98 * numerals > 0
    assert report.fine, "\n".join(report.lines())


def test_the_lesson_that_shows_every_kind_is_itself_right() -> None:
    from studio.script.kinds import KINDS

    lesson = read(EVERY.read_text(encoding="utf-8"), EVERY.name)
    assert [finding.message for finding in check(lesson).findings if finding.level == "error"] == []
    shown = {cue.moment.picture.kind for cue in paced(lesson).cues if cue.moment.picture is not None}
    assert shown == set(KINDS)


def test_small_pictures_are_proved_as_well(tmp_path: Path) -> None:
    """A line of a pixel has gaps, and a small nought is thin."""
    text = HEADER + "# Small\n[show hundred chart: 1 to 100 as chart]A hundred.\n[clear][show cards: 0 to 10]Cards.\n"
    film = film_of(tmp_path, text, settings=FilmSettings(width=1280, height=720))
    (tmp_path / "report.json").write_text(json.dumps({"cues": [cue.as_json() for cue in film.cues]}))
    report = audit(tmp_path)
    assert report.fine, "\n".join(report.lines())


@pytest.mark.parametrize("size", [(1920, 1080), (1080, 1920)])
def test_long_lines_and_whole_bars_are_proved(tmp_path: Path, size: tuple[int, int]) -> None:
    """Ticks that stand closely, numerals in two rows, hops of one under a hop of many; on a wide screen and a tall one."""
    text = HEADER + (
        "# Long\n[show number line: 0 to 50 as line]Fifty. [line: hop 0 to 5]Five. [line: hop 5 to 10]Ten. "
        "[line: mark 43]Forty-three. [line: hop 43 to 46, counting]Forty-four, forty-five, forty-six.\n"
        "[clear][show number line: 0 to 100, mark 35 as far]A hundred. [far: hop 35 to 45]Forty-five. "
        "[far: hop 45 to 47, counting]Forty-six, forty-seven. [far: hop 60 to 90]Ninety. [far: hop 71 to 72]Seventy-two. "
        "[far: count by 10]Ten, twenty, thirty, forty, fifty, sixty, seventy, eighty, ninety, a hundred.\n"
        "[clear][show compare bars: 25 and 18 as bars]Bars. [bars: fill in]Seven. [bars: circle 7]Seven more.\n"
        "[clear][show compare bars: 3 and 100]A hundred.\n"
    )
    film = film_of(tmp_path, text, settings=FilmSettings(width=size[0], height=size[1]))
    (tmp_path / "report.json").write_text(json.dumps({"cues": [cue.as_json() for cue in film.cues]}))
    report = audit(tmp_path)
    assert len(report.proofs) >= 20
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
