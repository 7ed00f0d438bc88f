"""The handout, read back by pypdf and poppler, and measured in millimetres on the page."""

from __future__ import annotations

import io
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from PIL import Image
from pypdf import PdfReader

from studio.errors import UnusableInput
from studio.handout import handout_pdf, make_handout
from studio.handout.facts import lesson_facts
from studio.handout.make import LINE_BANDS, TAIL, printable
from studio.script.model import Lesson
from studio.script.reader import read
from tests.kit.making import HOSTILE_TITLES, POND

DPI = 300
MM = DPI / 25.4

needs_poppler = pytest.mark.skipif(
    shutil.which("pdftoppm") is None or shutil.which("pdftotext") is None, reason="poppler-utils is not installed"
)


def lesson_of(body: str, header: str = "title: At the pond") -> Lesson:
    return read(f"---\n{header}\n---\n{body}\n", "test.lesson.md")


def page_image(pdf: bytes, page: int, dpi: int = DPI) -> Image.Image:
    command = ["pdftoppm", "-r", str(dpi), "-f", str(page), "-l", str(page), "-png", "-"]
    return Image.open(io.BytesIO(subprocess.run(command, input=pdf, capture_output=True, check=True).stdout))


def text_of(pdf: bytes) -> str:
    command = ["pdftotext", "-layout", "-", "-"]
    return subprocess.run(command, input=pdf, capture_output=True, check=True).stdout.decode()


def runs(flags: np.ndarray) -> list[tuple[int, int]]:
    """First and last index of each run of True."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], flags.astype(int), [0]])))
    return [(int(a), int(b) - 1) for a, b in edges.reshape(-1, 2)]


def middles(flags: np.ndarray) -> list[float]:
    return [(a + b) / 2 / MM for a, b in runs(flags)]


@pytest.fixture(scope="module")
def pond() -> bytes:
    return handout_pdf(read(POND, "pond.lesson.md"))


@pytest.mark.parametrize(("paper", "size"), [("letter", (215.9, 279.4)), ("a4", (210.0, 297.0))])
def test_the_paper_has_its_size(paper, size):
    """US Letter is 8.5 × 11 inches, A4 210 × 297 mm (ISO 216)."""
    for page in PdfReader(io.BytesIO(handout_pdf(read(POND), paper))).pages:
        box = page.mediabox
        assert (float(box.width) * 25.4 / 72, float(box.height) * 25.4 / 72) == pytest.approx(size, abs=0.1)


def test_a_sheet_cards_and_a_page_for_the_grown_up_take_a_page_each(pond):
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(pond)).pages]
    assert len(pages) == 3
    assert "Draw the story" in pages[0] and "Number cards 0 to 9" in pages[1] and "For the grown-up" in pages[2]


def test_every_font_is_embedded(pond):
    reader = PdfReader(io.BytesIO(pond))
    names = set()
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():
            descendant = font.get_object()["/DescendantFonts"][0].get_object()
            descriptor = descendant["/FontDescriptor"]
            assert {"/FontFile2", "/FontFile3"} & set(descriptor)
            names.add(str(descendant["/BaseFont"]).split("+")[1])
    assert names == {"ABeeZee-Regular"}


@needs_poppler
def test_the_grown_up_finds_answers_what_to_have_ready_and_cautions(pond):
    text = "".join(text_of(pond).split())
    for part in (
        "0 and 9; 1 and 8; 2 and 7; 3 and 6; 4 and 5", "9 is 7 and 2", "7 + 2 = 9", "14 is 1 ten and 4 ones.",
        "One less than 14 is 13. One more than 14 is 15.", "nine small counters", "1.OA.C.6", "choke", "under three",
        "Scissors", "rules of your school",
    ):  # fmt: skip
        assert part.replace(" ", "") in text


@needs_poppler
def test_partners_that_are_gone_through_one_by_one_are_told_in_one_line():
    bonds = "".join(f"[show number bond: 5 is {part} and {5 - part}]\nLook.\n" for part in range(3))
    pdf = handout_pdf(lesson_of(bonds + "[show number sentence: 2 + 3 = 5]\nTwo plus three equals five."))
    text = "".join(text_of(pdf).split())
    assert "0and5;1and4;2and3" in text and "2+3=5" in text and "5is" not in text


@needs_poppler
def test_the_child_s_sheet_gives_no_answer_away(pond):
    first = PdfReader(io.BytesIO(pond)).pages[0].extract_text()
    assert not any(letter.isdigit() for letter in first.replace("Lesson 12", ""))
    assert "?" not in first


@needs_poppler
@pytest.mark.parametrize("grade", ["K", "1", "2"])
def test_writing_lines_are_as_far_apart_as_the_grade_needs(grade):
    lesson = lesson_of("[show word: nine]\nNine.", f"title: Nine\ngrade: {grade}")
    dark = np.asarray(page_image(handout_pdf(lesson), 1).convert("L")) < 128
    left, right = int(17 * MM), int(dark.shape[1] - 17 * MM)
    share = dark[: int((40 + 2 * (LINE_BANDS[grade] + TAIL)) * MM), left:right].mean(axis=1)  # above the space to draw
    whole = middles(share > 0.95)
    dashed = middles((share > 0.35) & (share < 0.75))
    assert len(whole) >= 2 and len(whole) == 2 * len(dashed)
    band = LINE_BANDS[grade]
    for top, middle, base in zip(whole[::2], dashed, whole[1::2], strict=True):
        assert base - top == pytest.approx(band, abs=0.3)
        assert middle - top == pytest.approx(band / 2, abs=0.3)
    assert all(after - before >= 5 for before, after in zip(whole[1::2], whole[2::2], strict=False))


@needs_poppler
@pytest.mark.parametrize(("whole", "size"), [(9, (42.0, 60.0)), (20, (34.0, 44.0))])
def test_cards_run_from_0_to_the_whole_and_can_be_held(whole, size):
    lesson = lesson_of(f"[show cards: 0 to {whole}]\nLook.")
    pdf = handout_pdf(lesson)
    number = next(n for n, p in enumerate(PdfReader(io.BytesIO(pdf)).pages, 1) if "Number cards" in p.extract_text())
    page = PdfReader(io.BytesIO(pdf)).pages[number - 1].extract_text()
    assert [int(word) for word in page.split("grown-up.")[1].split()] == list(range(whole + 1))
    dark = np.asarray(page_image(pdf, number).convert("L")) < 160
    rows = middles(dark[:, int(30 * MM) : int(dark.shape[1] - 30 * MM)].mean(axis=1) > 0.45)
    columns = middles(dark[int(rows[0] * MM) : int(rows[-1] * MM)].mean(axis=0) > 0.45)
    assert np.diff(columns) == pytest.approx(size[0], abs=0.4)
    assert np.diff(rows) == pytest.approx(size[1], abs=0.4)
    assert (len(columns) - 1) * (len(rows) - 1) >= whole + 1


@needs_poppler
def test_a_counter_fits_a_place_of_the_ten_frame():
    """A place is 15 mm: small counters are about half an inch across (common practice, no source)."""
    dark = np.asarray(page_image(handout_pdf(lesson_of("[show ten frame: 7 dots]\nSeven.")), 1).convert("L")) < 128
    top, left = int(40 * MM), int(17 * MM)
    frame = dark[top : top + int(36 * MM), left : left + int(84 * MM)]
    inside = frame[:, frame.mean(axis=0) > 0.05]
    columns = middles(frame.mean(axis=0) > 0.35)
    assert np.diff(columns) == pytest.approx([15.0] * 5, abs=0.4) and inside.size


@needs_poppler
def test_nothing_is_coloured_and_little_is_black(pond):
    for number in (1, 2, 3):
        page = np.asarray(page_image(pond, number, 100).convert("RGB"), int)
        assert np.abs(page - page.mean(axis=2, keepdims=True)).max() <= 1
        assert (page < 128).mean() < 0.04


def test_only_what_the_lesson_uses_is_on_the_sheet():
    def sheet(body: str) -> str:
        return PdfReader(io.BytesIO(handout_pdf(lesson_of(body)))).pages[0].extract_text()

    bond = sheet("[show number bond: 9 is 7 and 2]\nNine is seven and two.")
    assert "Number bond" in bond and "Ten frame" not in bond and "word" not in bond and "story" not in bond
    assert "Draw what you found out" in sheet("Look at the frogs.")
    assert "Draw the story" in sheet("# A story problem\nLook at the frogs.")


def test_a_lesson_without_a_whole_has_no_cards():
    reader = PdfReader(io.BytesIO(handout_pdf(lesson_of("Look at the frogs."))))
    assert len(reader.pages) == 2


BOND_9 = "[show number bond: 9 is 7 and ? as bond]\nNine.\n[bond: fill in]\nTwo.\n"


@pytest.mark.parametrize(
    ("body", "whole", "number", "cards"),
    [
        ("# Partners of nine\n" + BOND_9, 9, None, 9),
        ("Today we find the number bonds for nine.\n" + BOND_9, 9, None, 9),
        (BOND_9 + "[show number bond: 9 is 5 and 4]\nFive and four.", 9, None, 9),
        (BOND_9 + "[show number sentence: 4 + ? = 9]\nFour plus five.", 9, None, 9),
        (BOND_9, None, None, None),  # one sum is not yet a lesson on the partners of its number
        ("[show number sentence: 9 - 7 = 2]\nTwo.\n[show number sentence: 9 - 4 = 5]\nFive.", None, None, None),
        ("[show cards: 0 to 8]\nLook.", None, None, 8),
        ("[show cards: 3, 5, 8]\nLook.", None, None, None),
        ("# Partners of one hundred\n[show number bond: 100 is 60 and 40]\nLook.", None, None, None),
        ("# Number of the day: 14\nLook.", None, 14, None),
        ("Today's number is twelve.", None, 12, None),
        ("[show dots: 12]\n[show double ten frame: 12 dots]\n[show tally: 12]\nTwelve.", None, 12, None),
        ("[show word: twelve]\n[show double ten frame: 12 dots]\nTwelve.", None, 12, None),
        ("[show dots: 12]\n[show double ten frame: 12 dots]\nTwelve.", None, None, None),
        ("[show word: seven]\nSeven.\n# Then\n[show ten frame: 7 dots]\nSeven.", None, None, None),
        ("[show number bond: ? = ? and ?]\n[show number sentence: ? + ? = ?]\n[show bar: ? is ? and ?]\nLook.",
         None, None, None),
        ("Look at the frogs.", None, None, None),
    ],
)  # fmt: skip
def test_the_whole_the_number_of_the_day_and_the_cards_are_those_that_the_lesson_works_with(body, whole, number, cards):
    facts = lesson_facts(lesson_of(body))
    assert (facts.whole, facts.number, facts.cards) == (whole, number, cards)


def test_every_pair_of_partners_is_there_once():
    """To six they are 0 and 6, 1 and 5, 2 and 4, 3 and 3 (common practice, no source)."""
    facts = lesson_facts(lesson_of("# Partners of six\nLook."))
    assert facts.partners == ((0, 6), (1, 5), (2, 4), (3, 3))


def test_one_less_and_one_more_are_answered_for_the_numbers_that_are_asked():
    body = "[show more and less: 12]\nTwelve.\n[clear]\n[show more and less: 119]\nNow this.\n[more and less: fill in]\nLook."
    assert [answer for _, answer in lesson_facts(lesson_of(body)).answers] == [
        "One less than 12 is 11. One more than 12 is 13.", "One less than 119 is 118. One more than 119 is 120.",
    ]  # fmt: skip
    assert not lesson_facts(lesson_of("# Number of the day: 9\n[show word: nine]\nNine.")).answers


@needs_poppler
@pytest.mark.parametrize("title", HOSTILE_TITLES)
def test_what_a_person_writes_is_set_and_never_run(title):
    lesson = read(POND)
    segments = tuple(replace(segment, title=title) for segment in lesson.segments)
    odd = replace(lesson, header=replace(lesson.header, title=title, series=title, needs=(title,)), segments=segments)
    pdf = handout_pdf(odd)
    assert PdfReader(io.BytesIO(pdf)).metadata.title.strip() == printable(title).strip()
    letters = [letter for letter in "".join(printable(title).replace("\u200b", "").split()) if letter.isascii()]
    found = "".join(text_of(pdf).replace("\u200b", "").split())
    assert "".join(letters) in "".join(letter for letter in found if letter.isascii())


def test_the_same_lesson_gives_the_same_paper(pond):
    assert handout_pdf(read(POND, "pond.lesson.md")) == pond


def test_a_place_that_cannot_be_written_gets_a_plain_sentence(tmp_path: Path):
    (tmp_path / "file").write_text("x")
    with pytest.raises(UnusableInput):
        make_handout(read(POND), tmp_path / "file" / "handout.pdf")
    good = tmp_path / "handout.pdf"
    make_handout(read(POND), good, "a4")
    assert good.read_bytes().startswith(b"%PDF")


def test_a_question_that_the_lesson_leaves_open_is_answered_for_the_grown_up():
    facts = lesson_facts(
        lesson_of("[show number bond: 9 is 7 and ?]\nNine.\n[show number sentence: 13 - ? = 9]\nThirteen.")
    )
    assert [answer for _, answer in facts.answers] == ["9 is 7 and 2", "13 - 4 = 9"]


@settings(max_examples=40)
@given(st.text(max_size=120), st.text(max_size=40))
@example("池塘边的青蛙", "🐸")
@example("🐸", "")
def test_no_text_stops_the_paper(title, need):
    lesson = lesson_of("[show ten frame: 7 dots]\nSeven.")
    header = replace(lesson.header, title=title, needs=(need,), series=need, standards=(title,))
    assert len(PdfReader(io.BytesIO(handout_pdf(replace(lesson, header=header)))).pages) == 2


def test_every_kind_of_picture_has_its_place_on_paper_or_none():
    """A kind that comes new must not stop the paper."""
    from studio.pictures.kinds import CLASSES

    details = {"text": "frogs", "word": "nine", "number bond": "9 is 7 and ?", "bar": "9 is 7 and ?", "cards": "0 to 9",
               "number sentence": "7 + ? = 9", "dice": "6 and 3", "compare bars": "9 and 7", "rekenrek": "7 and 2",
               "number path": "0 to 10", "number line": "0 to 10", "hundred chart": "1 to 30", "five frame": "4",
               "tally": "9", "base ten": "9", "more and less": "9", "ten frame": "9 dots"}  # fmt: skip
    for kind in CLASSES:
        pdf = handout_pdf(lesson_of(f"[show {kind}: {details.get(kind, '9 dots')}]\nNine."))
        assert len(PdfReader(io.BytesIO(pdf)).pages) in (2, 3)
