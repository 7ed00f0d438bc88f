"""The handout: what the child needs on paper, as a PDF set by typst."""

from __future__ import annotations

import re
import unicodedata
from pathlib import Path
from typing import Any, Literal

from studio.errors import UnusableInput
from studio.handout.answers import answer_lines, cautions
from studio.handout.blanks import Panel, panels
from studio.handout.facts import LessonFacts, lesson_facts
from studio.handout.layout import GAP, STORY_HEIGHTS, fit_page, head_height
from studio.handout.typeset import typeset
from studio.script.model import Lesson

Paper = Literal["letter", "a4"]
PAPERS: dict[str, str] = {"letter": "us-letter", "a4": "a4"}
PAPER_HEIGHTS: dict[str, float] = {"letter": 279.4, "a4": 297.0}
TAIL = 7.0
"""Millimetres under a writing line for the tails of letters, and to keep it apart from the next."""

LINE_BANDS = {"K": 16.0, "1": 13.0, "2": 10.0}
"""The height of the writing lines in millimetres, by grade (common practice, no source)."""

_SHEET = Path(__file__).parent / "sheet.typ"
_DRAW = "Draw what you found out"
_LONG = re.compile(r"\S{25,}")


def make_handout(lesson: Lesson, out: Path, paper: Paper = "letter") -> None:
    """Write the handout of a lesson as a PDF, whole or not at all. Raises UnusableInput where it cannot be written."""
    from studio.files import whole_file

    if out.suffix.lower() != ".pdf":
        raise UnusableInput("the handout is written as .pdf; give the file this ending.", str(out))
    data = handout_pdf(lesson, paper)
    with whole_file(out) as temporary:
        temporary.write_bytes(data)


def handout_pdf(lesson: Lesson, paper: Paper = "letter", facts: LessonFacts | None = None) -> bytes:
    """The handout as the bytes of a PDF. The same lesson gives the same bytes."""
    return typeset(_SHEET, handout_values(lesson, facts or lesson_facts(lesson), paper))


def handout_values(lesson: Lesson, facts: LessonFacts, paper: Paper) -> dict[str, Any]:
    """What the sheet sets: all words of the lesson are data here, never markup."""
    header = lesson.header
    above = [header.series, f"Lesson {header.number}" if header.number is not None else ""]
    cards = [str(number) for number in range(facts.cards + 1)] if facts.cards is not None else []
    band = LINE_BANDS[header.grade or "1"]
    story = _story(lesson)
    title = printable(header.title).strip("\u200b ") or "Lesson"
    page = PAPER_HEIGHTS[paper], band + TAIL, head_height(title)
    groups, space = fit_page(panels(facts), bool(story), *page)
    if not story:  # a sheet with much room left has a space to draw in too
        story, with_space = _DRAW, fit_page(panels(facts), True, *page)
        if with_space[1] is not None and with_space[1].height == STORY_HEIGHTS[1]:
            groups, space = with_space
    return {
        "paper": PAPERS[paper],
        "title": title,
        "above": printable(" · ".join(part for part in above if part)),
        "line": {"band": band, "tail": TAIL},
        "groups": [[[_panel_values(panel) for panel in column] for column in group] for group in groups],
        "gap": GAP,
        "story": {"title": story, "height": space.height, "lines": space.lines} if space else None,
        "cards": cards,
        "cards_title": f"Number cards 0 to {cards[-1]}" if cards else "",
        "cards_help": "Cut along the dashed lines. Cut together with a grown-up.",
        "card": _card_size(len(cards)),
        "grownup": _grown_up(lesson, facts, bool(cards)),
    }


def _panel_values(panel: Panel) -> dict[str, Any]:
    return {name: getattr(panel, name) for name in ("sort", "title", "wide", "svg", "width", "height", "about")}


def _card_size(count: int) -> dict[str, float]:
    """Millimetres of a card and how many stand in a row: as large as lets them all stand on one page."""
    if count <= 12:
        return {"width": 42.0, "height": 60.0, "columns": 4}
    return {"width": 34.0, "height": 44.0, "columns": 5}


def _story(lesson: Lesson) -> str:
    """What stands over the space to draw a story in; "" for none."""
    if any(re.search(r"\bstor(y|ies)\b|\bproblem", s.title, re.IGNORECASE) for s in lesson.segments):
        return "Draw the story, then write the answer"
    return ""


def _grown_up(lesson: Lesson, facts: LessonFacts, cards: bool) -> list[dict[str, Any]]:
    header = lesson.header
    parts: list[dict[str, Any]] = [
        {"title": "In this lesson", "kind": "list", "lines": [printable(s.title) for s in lesson.segments]}
    ]
    ready = [printable(need) for need in header.needs]
    if "cards" in facts.kinds and cards:
        ready.append("The number cards of this handout, cut out")
    if ready:
        parts.append({"title": "Have ready", "kind": "list", "lines": ready})
    answers = [[printable(where), printable(what)] for where, what in answer_lines(facts)]
    if answers:
        parts.append({"title": "Answers", "kind": "pairs", "lines": answers})
    if header.standards:
        parts.append({"title": "Standards", "kind": "list", "lines": [printable(", ".join(header.standards))]})
    return [*parts, {"title": "Please take care", "kind": "list", "lines": cautions(cards, header.needs)}]


def printable(text: str) -> str:
    """The text as the paper's fonts can set it: on one line, without pictographs, long words free to break."""
    spaced = " ".join(re.split(r"[ \t\n\r\f\v\u2028\u2029\x85]+", text.strip()))
    kept = "".join(
        letter
        for letter in spaced
        if ord(letter) < 0x1F000 and unicodedata.category(letter) not in ("Cc", "Cs", "Co", "Cn")
        and letter not in "\u200d\ufe0e\ufe0f"
    )  # fmt: skip
    return _LONG.sub(lambda match: "\u200b".join(match[0][at : at + 12] for at in range(0, len(match[0]), 12)), kept)
