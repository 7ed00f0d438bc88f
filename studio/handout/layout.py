"""How the panels of the child's sheet share a page. All lengths are in millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from studio.handout.blanks import HEADING, Panel

MARGIN, SHEET_HEAD, GAP = 14.0, 19.0, 5.0
"""The page's margin above and below, the sheet's name line and title, the space between rows."""
STORY_HEIGHTS = (36.0, 90.0, 130.0)
"""Least and most height of the space to draw a story in, and its height on a page of its own."""
LOWER = 0.7
"""How much lower a space to draw in may become so that the sheet takes one page."""

Group = tuple[list[Panel], list[Panel]]
"""Panels in a left and a right column; a wide one stands alone in the left."""


@dataclass(frozen=True, slots=True)
class Story:
    """The space to draw a story in: its height, and the writing lines under it."""

    height: float
    lines: int


def fit_page(
    panels: Sequence[Panel], story: bool, paper_height: float, line: float
) -> tuple[list[Group], Story | None]:
    """The panels in groups and the space for the story, on one page if that can be.

    `line` is the height of a writing line. What is tried first keeps the order of the lesson and gives the most room to
    write; then narrow panels stand together, then spaces become lower. Where all that is too much for a page, the story
    has one of its own.
    """
    free = paper_height - 2 * MARGIN - SHEET_HEAD
    least = HEADING + GAP + line + 2 + STORY_HEIGHTS[0] if story else 0.0
    tried = [
        _groups(_changed(panels, lines, lower), line, together)
        for lines, together, lower in ((2, False, False), (1, False, False), (1, True, False), (1, True, True))
    ]
    for room in (free - least, free):
        for groups in tried:
            left_over = room - sum(max(_height(left, line), _height(right, line)) for left, right in groups)
            if left_over < 0:
                continue
            if not story:
                return groups, None
            if room == free:
                return groups, Story(STORY_HEIGHTS[2], 3)
            return groups, Story(min(STORY_HEIGHTS[1], float(int(STORY_HEIGHTS[0] + left_over))), 1)
    return tried[0], Story(STORY_HEIGHTS[0], 1) if story else None


def _changed(panels: Sequence[Panel], lines: int, lower: bool) -> list[Panel]:
    def changed(panel: Panel) -> Panel:
        if panel.sort == "lines":
            return replace(panel, height=lines)
        if lower and panel.sort in ("space", "tens"):
            return replace(panel, height=round(panel.height * LOWER, 1))
        return panel

    return [changed(panel) for panel in panels]


def _groups(panels: Sequence[Panel], line: float, together: bool) -> list[Group]:
    """Groups of panels in two columns: a narrow one goes where the sheet is shorter, a wide one stands alone.

    `together`: all narrow ones come first, the tall before the low, so that the columns are of a length.
    """
    if together:
        narrow = [panel for panel in panels if not panel.wide]
        rest = sorted(narrow[1:], key=lambda panel: -panel.height)
        panels = [*narrow[:1], *rest, *(panel for panel in panels if panel.wide)]
    groups: list[Group] = []
    for panel in panels:
        if panel.wide:
            groups.append(([panel], []))
            continue
        if not groups or groups[-1][0][0].wide:
            groups.append(([], []))
        left, right = groups[-1]
        (right if _height(right, line) < _height(left, line) else left).append(panel)
    return groups


def _height(column: Sequence[Panel], line: float) -> float:
    """The height of panels under each other."""
    return sum((p.height * line + 1 if p.sort == "lines" else p.height) + HEADING + GAP for p in column)
