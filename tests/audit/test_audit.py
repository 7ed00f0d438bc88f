"""The audit proves what the film shows, and tells what it does not show."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from studio.agree import check
from studio.audit.audit import audit
from studio.audit.frames import frames_at
from studio.audit.report import read_report
from studio.errors import UnusableInput
from studio.film.footage import look_at
from studio.film.settings import FilmSettings
from studio.pictures.themes import INKS
from studio.script.reader import read
from tests.conftest import ROOT
from tests.film.material import HEADER, film_of, paced, record

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


CUE = {
    "time": 0.5, "picture": "pads", "kind": "ten frame", "numbers": [3], "marks": {"dots": 3}, "box": [10, 10, 80, 40],
}  # fmt: skip
JUNK = [None, True, -1, 1.5, 10**400, float("nan"), "zz", "#fff", [], [1, 2], ["x"], {}, {"dots": None}, {"dots": -3}]


@pytest.mark.parametrize("key", [*CUE, "cues", "theme", "colours", "ink"])
def test_a_damaged_report_is_one_plain_sentence(tmp_path: Path, key: str) -> None:
    """Whatever stands in one place of it: nothing is proved by it, and nothing breaks."""
    colours = dict.fromkeys(INKS, "#102030")
    right = {"time": "1.5", "picture": "'zz' '#fff'", "numbers": "[] [1, 2]", "marks": "{}", "cues": "[]"}
    for junk in (value for value in JUNK if repr(value) not in right.get(key, "")):
        report: dict[str, Any] = {"cues": [dict(CUE)], "theme": {"colours": dict(colours)}}
        place = {"cues": report, "theme": report, "colours": report["theme"], "ink": report["theme"]["colours"]}
        place.get(key, report["cues"][0])[key] = junk
        (tmp_path / "report.json").write_text(json.dumps(report))
        with pytest.raises(UnusableInput, match=r"report\.json: this file is damaged; build the kit again\."):
            read_report(tmp_path)


@pytest.mark.parametrize("text", [b"", b"[]", b"null", b'{"cues": 5}', b"[" * 100_000, b"\xff\xfe\x00", b"\x00"])
def test_a_report_that_is_none_is_one_plain_sentence(tmp_path: Path, text: bytes) -> None:
    (tmp_path / "report.json").write_bytes(text)
    with pytest.raises(UnusableInput, match="damaged"):
        read_report(tmp_path)


def test_no_cues_are_believed_only_where_there_are_no_pictures(tmp_path: Path) -> None:
    (tmp_path / "report.json").write_text('{"cues": []}')
    (tmp_path / "lesson.mp4").symlink_to(ROOT / "assets_demo" / "pond-09.take.mp4")
    report = audit(tmp_path)
    assert report.fine and report.lines() == ["This film shows no pictures: there is nothing to count."]
    (tmp_path / "pictures").mkdir()
    (tmp_path / "pictures" / "01-pads.svg").write_text("<svg/>")
    with pytest.raises(UnusableInput, match="damaged"):
        audit(tmp_path)


def test_a_smaller_film_is_another_one(kit: Path, tmp_path: Path) -> None:
    (tmp_path / "report.json").symlink_to(kit / "report.json")
    record(tmp_path / "lesson.mp4", 1, size=(320, 180))
    with pytest.raises(UnusableInput, match="another film"):
        audit(tmp_path)


def test_a_kit_whose_name_has_a_colon_is_opened(kit: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """FFmpeg takes what stands before a colon for a protocol."""
    (tmp_path / "9:30-kit").symlink_to(kit)
    monkeypatch.chdir(tmp_path)
    assert next(frames_at(Path("9:30-kit/lesson.mp4"), [0.0])).any()
    assert look_at(Path("9:30-kit/lesson.mp4")).size is not None


def test_a_folder_that_is_no_kit_is_told(tmp_path: Path) -> None:
    with pytest.raises(UnusableInput, match=r"report\.json"):
        audit(tmp_path)
