"""Where pictures stand when one to four share an area: all large, nearly alike in scale, nothing overlapping or cut
off."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import log, prod

from studio.pictures.shapes import AnyShape, Box, Cross, Disc, Drawing, Line, Path, Ring, Words

Size = tuple[float, float]

GAP = 70.0
"""The least space between two pictures, in units of the pictures."""
LARGEST = 1.9
"""The largest scale, in pixels a unit, for an area as large as a 1920 × 1080 frame; others in proportion."""
FREEDOM = 2.0
"""How many times the scale of the smallest a picture with room to spare may grow to: a long number line fills the width
however small that makes it, and what stands with it need not be as small."""
ALIKE = 1.25
"""The same for one that is then wider than the widest was: two ten frames stay nearly alike."""
GROWTH = 16
"""In how many steps it grows, in turn with the others."""
FEW = 8
"""Up to how many pictures all ways to set them are tried; they double with each picture."""
FRAME_MEASURE = (1920 * 1080) ** 0.5


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle in pixels."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Placed:
    """Where a picture stands, in pixels; `scale` is in pixels a unit of its drawing."""

    x: float
    y: float
    width: float
    height: float
    scale: float


def extent(drawings: Iterable[Drawing]) -> Size:
    """The space that a picture needs over all its steps, so that it keeps its place while it changes."""
    sizes = [(drawing.width, drawing.height) for drawing in drawings]
    return (max(width for width, _ in sizes), max(height for _, height in sizes))


def padded(drawing: Drawing, size: Size) -> Drawing:
    """The drawing in a space of that size: in the middle or at the left, as its anchor says, and at the top, or at the
    bottom where it grows upwards."""
    if (drawing.width, drawing.height) == size:
        return drawing
    across = (size[0] - drawing.width) / 2 if drawing.anchor == "middle" else 0.0
    down = size[1] - drawing.height if drawing.upwards else 0.0
    shapes = tuple(moved(shape, across, down) for shape in drawing.shapes)
    return Drawing(size[0], size[1], shapes, drawing.anchor, drawing.upwards)


def moved(shape: AnyShape, dx: float, dy: float) -> AnyShape:
    """The shape at another place."""
    if not dx and not dy:
        return shape
    match shape:
        case Line():
            return replace(shape, x1=shape.x1 + dx, y1=shape.y1 + dy, x2=shape.x2 + dx, y2=shape.y2 + dy)
        case Path():
            return replace(shape, points=tuple((x + dx, y + dy) for x, y in shape.points))
        case Disc() | Cross() | Box() | Ring() | Words():
            return replace(shape, x=shape.x + dx, y=shape.y + dy)


def arrange(sizes: Sequence[Size], area: Area, *, scale: float | None = None) -> tuple[Placed, ...]:
    """Places for pictures of these sizes (units; see `extent`), in reading order.

    The area is filled to its edges: take off the margins first. Of all ways to set them in rows or in columns (of more than
    `FEW`, of the even ones), the one is taken in which they come out largest. Where one has room to spare it grows, but to no more than `FREEDOM` times the scale of
    the smallest, so that numerals and marks stay alike. No scale is larger than `scale` where given (pixels a unit: pass
    the scale of the lesson's other pictures to stay alike), else than lets one picture alone become a poster. Between
    two pictures there is `GAP` at the larger of their scales, or more. Places begin at whole pixels.
    """
    if not sizes:
        return ()
    measure = (area.width * area.height) ** 0.5
    most = scale if scale is not None else LARGEST * measure / FRAME_MEASURE
    best: tuple[tuple[float, float], tuple[Placed, ...]] | None = None
    # Columns are rows of a world in which across and down have changed places.
    for sized, field, columns in ((sizes, area, False), ([(high, wide) for wide, high in sizes], _turned(area), True)):
        for rows in _rows(list(range(len(sizes)))) if len(sizes) <= FEW else _even_rows(sized):
            scales = _grown(sized, rows, field, most)
            # Among ways that are equally large, the one whose shape is nearest to the area's.
            rank = (round(prod(scales), 6), round(-_unlike(sized, rows, field), 6))
            if best is None or rank > best[0]:
                placed = _placed(sized, field, scales, rows)
                best = (rank, tuple(_turned_back(place) for place in placed) if columns else placed)
    assert best is not None
    return best[1]


def _turned(area: Area) -> Area:
    return Area(area.y, area.x, area.height, area.width)


def _turned_back(place: Placed) -> Placed:
    return Placed(place.y, place.x, place.height, place.width, place.scale)


def _space(sizes: Sequence[Size], rows: list[list[int]], scales: Sequence[float]) -> Size:
    """How wide and high the rows are, gaps included."""
    beside = [sum(GAP * max(scales[one], scales[two]) for one, two in pairwise(row)) for row in rows]
    width = max(sum(sizes[at][0] * scales[at] for at in row) + gaps for row, gaps in zip(rows, beside, strict=True))
    height = sum(max(sizes[at][1] * scales[at] for at in row) for row in rows)
    return width, height + GAP * max(scales) * (len(rows) - 1)


def _unlike(sizes: Sequence[Size], rows: list[list[int]], area: Area) -> float:
    """How far the shape of rows is from that of the area; it is the same for columns."""
    width, height = _space(sizes, rows, [1.0] * len(sizes))
    return abs(log(width / height) - log(area.width / area.height))


def _grown(sizes: Sequence[Size], rows: list[list[int]], area: Area, most: float) -> list[float]:
    """The scales of the pictures in these rows: the largest that all can have, then more for those with room."""
    width, height = _space(sizes, rows, [1.0] * len(sizes))
    base = min(most, area.width / width, area.height / height)
    scales = [base] * len(sizes)
    widest = max(wide for wide, _ in sizes)
    for step in range(1, GROWTH + 1):
        times = FREEDOM ** (step / GROWTH)
        larger = base * times
        # The smallest first: what is large already can wait.
        for at in sorted(range(len(sizes)), key=lambda at: sizes[at][0] * sizes[at][1]):
            if times > ALIKE and sizes[at][0] * times > widest:
                continue
            tried = [larger if place == at else old for place, old in enumerate(scales)]
            wide, high = _space(sizes, rows, tried)
            if larger <= most and wide <= area.width and high <= area.height:
                scales = tried
    return scales


def _placed(sizes: Sequence[Size], area: Area, scales: Sequence[float], rows: list[list[int]]) -> tuple[Placed, ...]:
    heights = [max(sizes[at][1] * scales[at] for at in row) for row in rows]
    free = max(0.0, area.height - sum(heights))
    least = GAP * max(scales)
    between = max(least, min(1.4 * least, free / (len(rows) + 1))) if len(rows) > 1 else 0.0
    y = area.y + max(0.0, area.height - sum(heights) - between * (len(rows) - 1)) / 2
    places: dict[int, Placed] = {}
    for row, height in zip(rows, heights, strict=True):
        gaps = [GAP * max(scales[one], scales[two]) for one, two in pairwise(row)]
        widths = [sizes[at][0] * scales[at] for at in row]
        x = area.x + max(0.0, area.width - sum(widths) - sum(gaps)) / 2
        for at, width, gap in zip(row, widths, [*gaps, 0.0], strict=True):
            tall = sizes[at][1] * scales[at]
            places[at] = Placed(float(int(x)), float(int(y + (height - tall) / 2)), width, tall, scales[at])
            x += width + gap
        y += height + between
    return tuple(places[at] for at in range(len(sizes)))


def _rows(items: list[int]) -> Iterator[list[list[int]]]:
    """All ways to set items in rows without changing their order."""
    if not items:
        yield []
        return
    for count in range(1, len(items) + 1):
        for rest in _rows(items[count:]):
            yield [items[:count], *rest]


def _even_rows(sizes: Sequence[Size]) -> Iterator[list[list[int]]]:
    """For each number of rows, the way whose widest row is narrowest."""
    starts = range(len(sizes))
    widths = {sum(wide for wide, _ in sizes[one : other + 1]) for one in starts for other in starts[one:]}
    found: dict[int, list[list[int]]] = {}
    for width in sorted(widths):
        rows: list[list[int]] = [[]]
        for at in starts:
            if rows[-1] and sum(sizes[one][0] for one in (*rows[-1], at)) > width + 1e-9:
                rows.append([])
            rows[-1].append(at)
        if max(sum(sizes[at][0] for at in row) for row in rows) <= width + 1e-9:
            found.setdefault(len(rows), rows)
    yield from found.values()
