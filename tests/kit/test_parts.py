"""The files of the kit: all there, each what it says it is, read back by readers that are not ours."""

from __future__ import annotations

import io
import json
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import numpy as np
import pytest
import webvtt
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from studio.captions.text import tidy
from studio.errors import UnusableInput
from studio.kit import KitContents, write_parts
from studio.kit.description import description_text
from studio.kit.frames import film_frames
from studio.kit.pages import index_page
from studio.kit.pictures import final_pictures, slug
from studio.kit.poster import main_picture, poster_png
from studio.kit.report import report_page
from studio.kit.report_json import report_values
from studio.kit.transcript import transcript_page
from studio.pictures.themes import load_theme
from tests.kit.making import POND, contents_of, hostile_contents, small_film

NAMES = {
    "captions.vtt", "captions.srt", "chapters.vtt", "chapters.txt", "descriptions.vtt", "transcript.html", "index.html",
    "poster.png", "handout.pdf", "description.txt", "pictures", "report.html", "report.json",
}  # fmt: skip


@pytest.fixture(scope="module")
def pond() -> KitContents:
    return contents_of(POND)


def test_every_part_of_the_kit_is_written_and_nothing_else(tmp_path, pond):
    told = []
    written = write_parts(pond, tmp_path, lambda done, what: told.append((done, what)))
    assert {path.name for path in tmp_path.iterdir()} == NAMES
    assert all(path.stat().st_size > 0 for path in written)
    assert told[-1][0] == 1.0 and [done for done, _ in told] == sorted(done for done, _ in told)


def test_the_same_lesson_gives_the_same_bytes(tmp_path):
    folders = [tmp_path / name for name in "ab"]
    for folder in folders:
        folder.mkdir()
        write_parts(contents_of(POND), folder)
    one, other = ({p.relative_to(f): p.read_bytes() for p in f.rglob("*") if p.is_file()} for f in folders)
    assert one == other


def test_odd_texts_stay_inside_their_files(tmp_path):
    contents = hostile_contents()
    write_parts(contents, tmp_path)
    captions = webvtt.read(str(tmp_path / "captions.vtt"))
    assert len(captions) == len(contents.captions.captions)
    assert len(webvtt.read(str(tmp_path / "chapters.vtt"))) == len(contents.chapters)
    lines = (tmp_path / "chapters.txt").read_text(encoding="utf-8").splitlines()
    assert len(lines) == len(contents.chapters) and lines[0].startswith("0:00 ")
    assert json.loads((tmp_path / "report.json").read_text(encoding="utf-8"))["chapters"][1]["title"] == "7 --> 9"


@pytest.mark.parametrize(
    "script",
    [
        "---\ntitle: Short\n---\nHello.\n",
        "---\ntitle: No numbers\n---\n# The pond\nLook at the frogs. They swim.\n",
        "---\ntitle: Bare\nneeds: []\n---\n# A\n# B\nSeven.\n[show ten frame: 7 dots]\n# C\n",
    ],
)
def test_a_lesson_with_next_to_nothing_in_it_has_a_whole_kit(tmp_path, script):
    write_parts(contents_of(script), tmp_path)
    assert NAMES - {"pictures"} <= {path.name for path in tmp_path.iterdir()}


def test_report_json_has_the_keys_that_are_promised_and_room_for_more(pond):
    cue = {
        "time": 1.0,
        "picture": "frame",
        "kind": "ten frame",
        "numbers": [7],
        "marks": {"dots": 7},
        "box": [0, 0, 9, 9],
    }
    extras = {"theme": "warm paper", "duration": "not this one"}
    values = report_values(replace(pond, cues=(cue,), extras=extras, audit={"checked": 1, "right": 1, "wrong": []}))
    assert values["duration"] == pytest.approx(pond.sheet.duration, abs=0.001)
    assert values["fps"] == 30 and values["cues"] == [cue] and values["theme"] == "warm paper"
    assert [c["title"] for c in values["chapters"]] == [s.title for s in pond.lesson.segments]
    assert values["chapters"][0]["start"] == 0
    assert values["audit"]["right"] == 1
    json.dumps(values)


def test_pictures_are_as_they_stand_in_the_end(pond):
    finals = {final.name: final.picture for final in final_pictures(pond.sheet)}
    assert list(finals)[:3] == ["01-frame", "02-bond", "03-double-ten-frame"]
    assert finals["01-frame"].marks == {"dots": 7, "crosses": 2}
    assert finals["02-bond"].numbers == (9, 7, 2)
    assert next(p for n, p in finals.items() if n.endswith("sentence")).numbers == (7, 2, 9)


def test_a_picture_that_is_shown_again_under_its_name_is_another_picture():
    script = "---\ntitle: T\n---\n[show ten frame: 3 dots]\nThree.\n[show ten frame: 5 dots]\nFive.\n"
    assert [final.picture.numbers for final in final_pictures(contents_of(script).sheet)] == [(3,), (5,)]


def test_svg_and_png_of_a_picture_look_alike(tmp_path, pond):
    """resvg (a renderer that is not ours) draws the SVG; both are compared pixel by pixel."""
    resvg = pytest.importorskip("resvg_py", reason="resvg-py is not installed")
    write_parts(pond, tmp_path)
    for name in ("01-frame", "02-bond"):
        png = Image.open(tmp_path / "pictures" / f"{name}.png").convert("RGB")
        drawn = bytes(resvg.svg_to_bytes(svg_path=str(tmp_path / "pictures" / f"{name}.svg"), width=png.width))
        svg = Image.open(io.BytesIO(drawn)).convert("RGB").resize(png.size)
        difference = np.abs(np.asarray(png, float) - np.asarray(svg, float)).mean()
        assert difference < 2.0


@pytest.mark.parametrize("name", ["Ten Frame!", "  ", "../../etc", "ضفادع", "x" * 200])
def test_a_picture_name_makes_a_plain_file_name(name):
    assert 0 < len(slug(name)) <= 60 and set(slug(name)) <= set("abcdefghijklmnopqrstuvwxyz0123456789-")


def test_the_poster_has_its_size_its_title_and_its_number(pond):
    image = Image.open(io.BytesIO(poster_png(pond)))
    assert image.size == (1280, 720)
    read = _read(image)
    assert "Partners of" in read and "Lesson 12" in read and "9" in read.split()


def test_the_numeral_of_the_poster_is_that_of_its_picture():
    # The first picture has a 4 in it (four crosses) and shows 9.
    first = "[show ten frame: 5 dots and 4 crosses as frame]\nFive and four make nine.\n[clear]\n"
    second = "[show ten frame: 4 dots as frame]\nFour frogs are here.\n"
    for body, about, numeral in ((first + second, "4 dots", True), (first, "9 in all", False)):
        contents = contents_of(f"---\ntitle: The number 4\n---\n{body}")
        picture = main_picture(contents)
        assert picture is not None and about in picture.description()
        card = Image.open(io.BytesIO(poster_png(contents))).crop((660, 0, 1280, 720))
        assert ("4" in _read(card)) == numeral


def test_the_poster_gives_no_answer_away():
    asked = "[show number bond: 9 is 4 and ? as bond]\nWhat is the other part?\n[wait 5 s]\n[bond: fill in 5]\nFive."
    picture = main_picture(contents_of(f"---\ntitle: Guess the bond\n---\n{asked}"))
    assert picture is not None and picture.numbers == (9, 4)


def test_a_long_title_and_a_long_series_fit_the_poster():
    long = "Frogs and ducks swim at the pond "
    for title, series in ((long * 9, ""), ("x" * 300, long), ("7", long * 9), ("7", "x" * 300)):
        contents = contents_of(POND)
        header = replace(contents.lesson.header, title=title.strip(), series=series.strip())
        lesson = replace(contents.lesson, header=header)
        image = np.asarray(Image.open(io.BytesIO(poster_png(replace(contents, lesson=lesson)))).convert("RGB"), int)
        paper = image[0, 0]
        edges = np.concatenate(
            [image[:, :40].reshape(-1, 3), image[:, -40:].reshape(-1, 3), image[-40:].reshape(-1, 3)]
        )
        assert np.abs(edges - paper).max() == 0
        between = image[:600, 620:660].reshape(-1, 3)
        assert np.abs(between - paper).max() == 0


def test_the_poster_has_the_colours_of_the_theme(pond):
    dark = load_theme("dark board")
    image = Image.open(io.BytesIO(poster_png(replace(pond, theme=dark)))).convert("RGB")
    assert image.getpixel((5, 5)) == dark.colour("paper")


def _read(image: Image.Image) -> str:
    """What an OCR reads on the picture."""
    rapid = pytest.importorskip("rapidocr_onnxruntime", reason="rapidocr-onnxruntime is not installed")
    found, _ = rapid.RapidOCR()(np.asarray(image.convert("RGB"))[:, :, ::-1])
    return "\n".join(text for _, text, _ in found or [])


def test_the_description_tells_what_a_family_needs(pond):
    text = description_text(pond)
    for part in ("Partners of nine at the pond", "Lesson 12", "- nine small counters", "0:00 Partners", "1.OA.C.6"):
        assert part in text
    assert "partners of 9" in text and "number of the day is 14" in text


def test_frames_are_those_on_the_screen_at_their_times(tmp_path):
    film = tmp_path / "lesson.mp4"
    small_film(film, 20.0)
    frames = film_frames(film, [0.2, 10.1, 19.8])
    import base64

    for time, url in frames.items():
        image = Image.open(io.BytesIO(base64.b64decode(url.split(",")[1])))
        assert np.asarray(image.convert("L")).mean() == pytest.approx(255 * int(time * 2) / 40, abs=6)
    assert set(frames) == {0.2, 10.1, 19.8}


def test_a_film_that_cannot_be_read_takes_no_report_away(tmp_path, pond):
    film = tmp_path / "lesson.mp4"
    film.write_bytes(b"no film")
    assert film_frames(film, [1.0]) == {}
    assert "What was proved" in report_page(pond, film)


def test_the_verdict_follows_findings_audit_and_retakes(pond):
    from studio.findings import Finding
    from studio.listen.model import Retake

    clean = replace(pond, findings=())
    error = Finding("r", "error", 0, 0, "", "", "Wrong.", "")
    warning = replace(error, level="warning")
    retake = Retake(0, 1, None, "", "", "Noise.")
    assert "agree." in report_page(clean)
    assert "1 thing is wrong" in report_page(replace(clean, findings=(error, warning)))
    assert "Nothing is wrong; 1 thing" in report_page(replace(clean, findings=(warning,)))
    assert "1 place to record again" in report_page(replace(clean, retakes=(retake,)))
    assert "1 place to record again" in report_page(replace(clean, findings=(warning,), retakes=(retake,)))
    audit = {"checked": 5, "right": 4, "wrong": [{"time": 3, "picture": "frame", "message": "6 dots instead of 7."}]}
    page = report_page(replace(clean, audit=audit))
    assert "does not show what it should in 1 place" in page and "6 dots instead of 7." in page


def test_what_was_noticed_about_the_recording_is_in_both_reports(pond):
    from studio.listen.model import Retake

    retake = Retake(1.5, 3.0, 9, "Seven frogs.", "Eleven frogs.", "The script says “seven”.")
    kit = replace(pond, retakes=(retake,), noticed=("take.wav: the sound is clipped.",))
    page, values = report_page(kit), report_values(kit)
    assert "take.wav: the sound is clipped." in page and "Eleven frogs." in page and "Line 9, " in page
    assert values["noticed"] == ["take.wav: the sound is clipped."]
    assert values["retakes"] == [retake.as_json()] and values["retakes"][0]["line"] == 9


def test_a_folder_that_cannot_be_written_gets_a_plain_sentence(tmp_path: Path, pond):
    blocked = tmp_path / "file"
    blocked.write_text("x")
    with pytest.raises(UnusableInput, match=r"a file stands where a folder is needed"):
        write_parts(pond, blocked)


def test_times_of_the_recording_become_times_of_the_film(pond):
    from studio.findings import Finding
    from studio.timing.cuesheet import Piece

    pieces = (Piece(0, 3, None), Piece(3, 5, 0.5), Piece(8, 4, None), Piece(12, 6, 7.0))
    sheet = replace(pond.sheet, pieces=pieces, recorded=True, duration=18.0)
    found = tuple(
        Finding("r", "error", n, 0, "", "", "Wrong.", "", t) for n, t in enumerate([0.5, 5.0, 6.0, 8.0, 99.0])
    )
    contents = replace(pond, sheet=sheet, findings=found)
    assert [f.time for f in contents.all_findings] == [3.0, 7.5, 12.0, 13.0, 18.0]


@settings(max_examples=25)
@given(st.text(max_size=120))
def test_no_text_stops_a_page(title):
    contents = contents_of("---\ntitle: T\n---\n# A\n[show ten frame: 7 dots]\nSeven.\n")
    lesson = replace(contents.lesson, header=replace(contents.lesson.header, title=title, needs=(title,), series=title))
    sheet = replace(contents.sheet, segments=tuple(replace(s, title=title) for s in contents.sheet.segments))
    contents = replace(contents, lesson=lesson, sheet=sheet)
    for page in (index_page(contents), transcript_page(contents), report_page(contents)):
        parsed = Titles()
        parsed.feed(page)
        assert parsed.headings[0] in (tidy(title), "What was checked")
        assert parsed.scripts <= 1
    poster_png(contents)


class Titles(HTMLParser):
    """The first headings of a page, and how many scripts it has, as Python's own parser reads them."""

    def __init__(self) -> None:
        super().__init__()
        self.headings: list[str] = []
        self.scripts = 0
        self.inside = False

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self.scripts += tag == "script"
        if tag == "h1":
            self.inside = True
            self.headings.append("")

    def handle_endtag(self, tag: str) -> None:
        self.inside = self.inside and tag != "h1"

    def handle_data(self, data: str) -> None:
        if self.inside:
            self.headings[-1] += data
