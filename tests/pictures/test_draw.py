"""`draw`: one picture as a file, read back by others."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from PIL import Image

from studio.errors import UnusableInput
from studio.pictures.draw import draw, landing, picture_of
from studio.pictures.shapes import Words
from studio.pictures.themes import load_theme
from tests.pictures.counting import count
from tests.pictures.made import shown
from tests.pictures.test_painters import EXAMPLES

SPEC = "ten frame: 7 dots and 2 crosses"


def test_svg_is_xml(tmp_path: Path) -> None:
    root = ElementTree.parse(draw(SPEC, tmp_path / "frame.svg", size=600)).getroot()
    assert root.get("width") == "600"


def test_png_is_transparent_and_true(tmp_path: Path) -> None:
    image = Image.open(draw(SPEC, tmp_path / "frame.png", size=800))
    assert image.mode == "RGBA" and image.width == 800
    assert image.getpixel((1, 1))[3] == 0  # type: ignore[index]
    assert image.info["Description"] == "Ten frame: 7 dots and 2 crosses, 9 in all"
    page = Image.new("RGB", image.size, "white")
    page.paste(image, (0, 0), image)
    assert count(page, "ten frame") == {"dots": 7, "crosses": 2}


def test_pdf_can_be_searched(tmp_path: Path) -> None:
    from pypdf import PdfReader

    path = draw("number sentence: 7 + ? = 9", tmp_path / "sentence.pdf", changes=["fill in"], size=400)
    page = PdfReader(path).pages[0]
    assert page.extract_text().split() == ["7", "+", "2", "=", "9"]
    assert float(page.mediabox.width) == pytest.approx(300, abs=0.5)


def test_gif_lays_one_mark_after_another(tmp_path: Path) -> None:
    image = Image.open(draw("ten frame: 3 dots", tmp_path / "frame.gif"))
    counts = []
    for frame in range(image.n_frames):  # type: ignore[attr-defined]
        image.seek(frame)
        if image.info["duration"] > 200:
            counts.append(count(image.convert("RGB"), "ten frame")["dots"])
    assert counts == [0, 1, 2, 3]


@pytest.mark.parametrize(
    ("spec", "sort", "counts"),
    [
        ("dice: 2 and 3", "pips", [0, 1, 2, 3, 4, 5]),
        ("rekenrek: 3 and 2", "upper", [0, 1, 2, 3, 3, 3]),
        ("rekenrek: 3 and 2", "lower", [0, 0, 0, 0, 1, 2]),
        ("number path: 0 to 10, mark 7", "marked", [0, 1]),
        ("compare bars: 3 and 2", "upper", [0, 1, 2, 3, 3, 3]),
        ("cards: 1 to 3", "cards", [3]),
    ],
)
def test_what_lands_are_the_things_that_tell_the_amount(spec: str, sort: str, counts: list[int]) -> None:
    stages = landing(shown(spec))
    assert [sum(shape.counts == sort for shape in stage.shapes) for stage in stages] == counts
    assert stages[-1] == shown(spec).drawing()


def test_however_much_lands_it_does_so_in_forty_steps() -> None:
    many = shown("number line: 0 to 100", *(f"mark {number}" for number in range(1, 51)))
    for picture in (many, shown("base ten: 99"), shown("rekenrek: 10 and 10")):
        stages = landing(picture)
        assert 10 < len(stages) <= 1 + 40
        assert stages[-1] == picture.drawing()


def test_a_numeral_is_never_of_the_colour_of_what_it_stands_on() -> None:
    """A white numeral stands on its mark from the first."""
    for stage in landing(shown("number path: 0 to 10, mark 7")):
        white = {shape.text for shape in stage.shapes if isinstance(shape, Words) and shape.fill == "card"}
        assert white == {shape.key.split()[1] for shape in stage.shapes if shape.role == "mark"}


def test_a_picture_of_numerals_is_a_gif_that_stands(tmp_path: Path) -> None:
    assert Image.open(draw("number sentence: 7 + 2 = 9", tmp_path / "a.gif")).n_frames == 1  # type: ignore[attr-defined]


def test_gif_shows_the_changes(tmp_path: Path) -> None:
    path = draw("ten frame: 7 dots", tmp_path / "frame.gif", changes=["add 2 crosses, counting"])
    image = Image.open(path)
    image.seek(image.n_frames - 1)  # type: ignore[attr-defined]
    assert count(image.convert("RGB"), "ten frame") == {"dots": 7, "crosses": 2}


def test_the_paper_of_a_gif_is_the_paper_of_its_theme(tmp_path: Path) -> None:
    image = Image.open(draw("base ten: 11", tmp_path / "tens.gif", changes=["take away 2"], size=300))
    for frame in range(image.n_frames):  # type: ignore[attr-defined]
        image.seek(frame)
        assert image.convert("RGB").getpixel((image.width - 3, image.height - 3)) == load_theme().colour("paper")


@pytest.mark.parametrize("kind", EXAMPLES)
def test_every_kind_is_a_pdf_whose_numerals_can_be_searched(kind: str, tmp_path: Path) -> None:
    """What a PDF reader (pypdf) finds on the page is what the picture's numerals and words say."""
    from pypdf import PdfReader

    spec, *changes = EXAMPLES[kind]
    drawing = picture_of(spec, changes)[-1].drawing()
    pages = PdfReader(draw(spec, tmp_path / "picture.pdf", changes=changes)).pages
    assert len(pages) == 1
    written = Counter("".join(shape.text for shape in drawing.shapes if isinstance(shape, Words)).replace(" ", ""))
    assert Counter("".join(pages[0].extract_text().split())) == written


def test_changes_are_followed() -> None:
    assert [p.numbers for p in picture_of("ten frame: 7 dots", ["add 2 crosses, counting"])] == [
        (7,),
        (7, 1, 8),
        (7, 2, 9),
    ]


@pytest.mark.parametrize(
    ("spec", "name", "words"),
    [
        ("ten frame: 11 dots", "a.png", "0 to 10"),
        ("ten frme: 7 dots", "a.png", "Did you mean 'ten frame'"),
        ("dots: 51", "a.png", "^dots: 51: Dots can show 0 to 50, not 51. Base ten shows"),
        ("cards: a, b", "a.png", "Write it like '0 to 8'"),
        ("hundred chart: 1 to 121", "a.png", "0 to 120, not 121"),
        ("text: " + "frog " * 100, "a.png", r"room for 160 letters and this one has 499"),
        ("dots: 99999999999999999999", "a.png", "too large"),
        ("", "a.png", "which picture"),
        (SPEC, "a.jpg", r"\.svg, \.png, \.pdf or \.gif"),
        (SPEC, "a.png/b.png", "a file stands"),
    ],
)
def test_what_cannot_be_drawn_gets_a_sentence_and_the_old_file_stays(
    tmp_path: Path, spec: str, name: str, words: str
) -> None:
    old = tmp_path / "a.png"
    old.write_bytes(b"old")
    with pytest.raises(UnusableInput, match=words):
        draw(spec, tmp_path / name)
    assert old.read_bytes() == b"old"
    assert [path.name for path in tmp_path.iterdir()] == ["a.png"]


@pytest.mark.parametrize("size", [0, -5, 100_000])
def test_a_size_out_of_range_is_refused(tmp_path: Path, size: int) -> None:
    with pytest.raises(UnusableInput, match="pixels wide"):
        draw(SPEC, tmp_path / "a.png", size=size)


def test_a_direction_can_be_copied_out_of_a_script() -> None:
    assert picture_of("[show ten frame: 7 dots]") == picture_of("ten frame: 7 dots")
    plain = picture_of("ten frame: 5 dots", ["add 3"])
    assert (
        picture_of("ten frame: 5 dots", ["[ten frame: add 3]"])
        == picture_of("ten frame: 5", [" [pond:add 3] "])
        == plain
    )


def test_the_theme_is_followed(tmp_path: Path) -> None:
    image = Image.open(draw(SPEC, tmp_path / "a.png", theme="dark board"))
    colours = {tuple(colour[:3]) for colour in np.asarray(image).reshape(-1, 4)[::7] if colour[3] == 255}
    assert (0x63, 0xB8, 0xF0) in colours
