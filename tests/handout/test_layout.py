"""The child's sheet takes one page wherever that can be."""

from __future__ import annotations

import io
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from studio.handout import handout_pdf
from studio.handout.blanks import HEADING, Panel, panels
from studio.handout.facts import lesson_facts
from studio.handout.layout import GAP, MARGIN, SHEET_HEAD, STORY_HEIGHTS, fit_page, head_height
from studio.script.reader import read
from studio.series.library import Library, fill_routine_text

PAPER, LINE = 279.4, 20.0
panel_values = st.one_of(
    st.builds(Panel, st.just("space"), st.sampled_from("abcdef"), height=st.floats(10, 60)),
    st.builds(Panel, st.just("picture"), st.sampled_from("ghijkl"), st.booleans(), height=st.floats(5, 70)),
    st.just(Panel("lines", "Write the word", True)),
)


@given(st.lists(panel_values, max_size=8), st.booleans())
def test_every_panel_is_on_the_sheet_once_and_what_fits_a_page_is_on_one(
    given_panels: list[Panel], story: bool
) -> None:
    groups, space = fit_page(given_panels, story, PAPER, LINE)
    placed = [panel for group in groups for column in group for panel in column]
    assert Counter(p.title for p in placed) == Counter(p.title for p in given_panels)
    assert all(len(left) == 1 and not right for left, right in groups if left[0].wide)
    assert (space is not None) == story

    def height(column: list[Panel]) -> float:
        return sum((p.height * LINE + 1 if p.sort == "lines" else p.height) + HEADING + GAP for p in column)

    used = sum(max(height(left), height(right)) for left, right in groups)
    free = PAPER - 2 * MARGIN - SHEET_HEAD
    if space is not None and space.height < STORY_HEIGHTS[2] and used <= free:
        assert used + HEADING + GAP + space.height + LINE + 2 <= free or space.height == STORY_HEIGHTS[0]
    for panel in placed:  # a space may become lower, and nothing else changes its size
        before = [p.height for p in given_panels if p.title == panel.title]
        assert panel.sort in ("lines", "space") or panel.height in before


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize(
    ("routine", "values"),
    [
        ("number of the day", {"n": 17}),
        ("number of the day to 99", {"n": 46}),
        ("partners warm up", {"whole": 8, "part": 5}),
        ("story add to change unknown", {"start": 8, "all": 13, "animal": "frog"}),
    ],
)
def test_the_sheet_of_a_routine_is_one_page(routine: str, values: dict[str, int | str], paper: str) -> None:
    library = Library.of()
    lesson = read(fill_routine_text(library.get(routine), values, library))
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(handout_pdf(lesson, paper))).pages]  # type: ignore[arg-type]
    assert "Number cards" in pages[1] or "For the grown-up" in pages[1]


def test_a_story_that_has_no_room_has_a_page_of_its_own_to_draw_in() -> None:
    panels = [Panel("picture", name, height=60.0) for name in "abcdef"]
    _, space = fit_page(panels, True, PAPER, LINE)
    assert space is not None and space.height == STORY_HEIGHTS[2] and space.lines == 3


def test_scissors_are_told_of_where_there_is_something_to_cut() -> None:
    for body, cut in (("[show ten frame: 4 dots]\nFour.", False), ("[show cards: 0 to 5]\nFive.", True)):
        lesson = read(f"---\ntitle: Cards\n---\n{body}\n")
        last = PdfReader(io.BytesIO(handout_pdf(lesson))).pages[-1].extract_text()
        assert ("Scissors" in last) == cut and "choke" in last
    lesson = read("---\ntitle: Cards\nneeds: scissors and glue\n---\nFour.\n")
    assert "Scissors" in PdfReader(io.BytesIO(handout_pdf(lesson))).pages[-1].extract_text()


def test_each_form_of_sentence_has_its_blank_once() -> None:
    shown = ["7 + 2 = 9", "4 + 3 = 7", "9 - 7 = 2", "8 + 6 = 10 + 4"]
    body = "".join(f"[show number sentence: {sentence}]\nLook.\n" for sentence in shown)
    found = panels(lesson_facts(read(f"---\ntitle: Sums\n---\n{body}")))
    assert [panel.title for panel in found] == ["Number sentence"] * 3
    assert len({panel.svg for panel in found}) == 3


def test_what_is_left_of_the_last_page_is_for_the_story() -> None:
    many = [Panel("picture", name, height=60.0) for name in "abcdefgh"]
    groups, space = fit_page(many, True, PAPER, LINE)
    assert [panel.title for left, right in groups for panel in (*left, *right)] == list("abcdefgh")
    free = PAPER - 2 * MARGIN - SHEET_HEAD
    assert space is not None and sum(60.0 + HEADING + GAP for _ in groups) > free  # two pages
    assert space.height == STORY_HEIGHTS[1]


def test_a_title_of_several_lines_takes_its_room() -> None:
    assert head_height("Nine") == SHEET_HEAD < head_height("Frogs and ducks at the pond " * 4)
