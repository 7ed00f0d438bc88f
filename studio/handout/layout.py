"""How the panels of the child's sheet share a page. All lengths are in millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from studio.handout.blanks import HALF, HEADING, Panel
from studio.pictures.metrics import text_width

MARGIN, SHEET_HEAD, GAP = 14.0, 19.0, 5.0
"""The page's margin above and below, the sheet's name line and a title of one line, the space between rows."""
TITLE_SIZE, TITLE_WIDTH, TITLE_LINE = 7.06, 174.0, 9.5
"""The size of the title's letters (20 pt), the least width that it has, and what each further line takes."""
STORY_HEIGHTS = (36.0, 90.0, 130.0)
"""Least and most height of the space to draw a story in, and its height on a page of its own."""
LOWER = 0.7
"""How much lower a space to draw in may become so that the sheet takes one page."""

SHRINK = 1.25
"""A picture that is wider than half by no more than this may become smaller to stand beside another."""
_TRIED = (
    (2, False, False, False), (1, False, False, False), (1, True, False, False), (1, True, True, False),
    (1, True, True, True),
)  # fmt: skip
"""Writing lines, whether pictures become narrower, whether narrow panels come together, whether spaces become lower."""

Group = tuple[list[Panel], list[Panel]]
"""Panels in a left and a right column; a wide one stands alone in the left."""


@dataclass(frozen=True, slots=True)
class Story:
    """The space to draw a story in: its height, and the writing lines under it."""

    height: float
    lines: int


def head_height(title: str) -> float:
    """The height of the sheet's name line and title, which may take several lines."""
    lines, width = 1, 0.0
    for word in title.split():
        long = text_width(f" {word}", TITLE_SIZE)
        lines, width = (lines, width + long) if width + long <= TITLE_WIDTH else (lines + 1, long)
        lines, width = lines + int(width // TITLE_WIDTH), width % TITLE_WIDTH
    return SHEET_HEAD + (lines - 1) * TITLE_LINE


def fit_page(
    panels: Sequence[Panel], story: bool, paper_height: float, line: float, head: float = SHEET_HEAD
) -> tuple[list[Group], Story | None]:
    """The panels in groups and the space for the story, on one page if that can be.

    `line` is the height of a writing line, `head` that of what stands above the panels. What is tried first keeps the
    order of the lesson and gives the most room to write; then pictures become narrower, then narrow panels stand together, then
    spaces become lower. Where all that is too much for a page, the story has one of its own; where the panels alone are, they stand in rows
    that a page may end between, and the story has what is left of the last page, if that is enough.
    """
    page = paper_height - 2 * MARGIN
    free = page - head
    least = HEADING + GAP + line + 2 + STORY_HEIGHTS[0] if story else 0.0
    tried = [
        _groups(_changed(panels, lines, narrower, lower), line, together) for lines, narrower, together, lower in _TRIED
    ]
    for needed in (least, 0.0):
        for groups in tried:
            left_over = free - sum(max(_height(left, line), _height(right, line)) for left, right in groups)
            if left_over >= needed:
                return groups, _story(left_over - least) if story else None
    rows = [row for group in tried[0] for row in _rows(group)]
    return rows, _story(_left_over(rows, free, page, line) - least) if story else None


def _story(left_over: float) -> Story:
    """The space for a story where so much is left over what it takes at least; on a page of its own where that is less."""
    if left_over < 0:
        return Story(STORY_HEIGHTS[2], 3)
    return Story(min(STORY_HEIGHTS[1], float(int(STORY_HEIGHTS[0] + left_over))), 1)


def _rows(group: Group) -> list[Group]:
    """A group as groups of two panels at most, side by side."""
    left, right = group
    return [(left[at : at + 1], right[at : at + 1]) for at in range(len(left))] + [
        ([panel], []) for panel in right[len(left) :]
    ]


def _left_over(rows: Sequence[Group], free: float, page: float, line: float) -> float:
    """What is left of the last page where `free` of the first can be used, and each of the others whole."""
    for left, right in rows:
        height = max(_height(left, line), _height(right, line))
        free = free - height if height <= free else page - height
    return free


def _changed(panels: Sequence[Panel], lines: int, narrower: bool, lower: bool) -> list[Panel]:
    def changed(panel: Panel) -> Panel:
        if panel.sort == "lines":
            return replace(panel, height=lines)
        if narrower and HALF < panel.width <= HALF * SHRINK:
            height = round(panel.height * HALF / panel.width, 2)
            return replace(panel, wide=False, width=HALF, height=height)
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
