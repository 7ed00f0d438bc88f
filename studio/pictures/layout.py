"""Where pictures stand when one to four share an area: all large, alike in scale, nothing overlapping or cut off."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from studio.pictures.shapes import AnyShape, Box, Cross, Disc, Drawing, Line, Path, Ring, Words

Size = tuple[float, float]

GAP = 70.0
"""The least space between two pictures, in units of the pictures."""
LARGEST = 1.9
"""The largest scale, in pixels a unit, for an area as large as a 1920 × 1080 frame; others in proportion."""
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
    """The drawing in a space of that size: at the top, and in the middle or at the left, as its anchor says."""
    if (drawing.width, drawing.height) == size:
        return drawing
    across = (size[0] - drawing.width) / 2 if drawing.anchor == "middle" else 0.0
    shapes = tuple(moved(shape, across, 0.0) for shape in drawing.shapes)
    return Drawing(size[0], size[1], shapes, drawing.anchor)


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

    The area is filled to its edges: take off the margins first. Of all ways to set them in rows, the one that lets
    them be largest is taken; all have one scale, so numerals and marks are alike. It is at most `scale` where given
    (pixels a unit: pass the scale of the lesson's other pictures to stay alike), else such that one picture alone does
    not become a poster. Places have whole pixels.
    """
    if not sizes:
        return ()
    measure = (area.width * area.height) ** 0.5
    most = scale if scale is not None else LARGEST * measure / FRAME_MEASURE
    best: tuple[float, float, list[list[int]]] | None = None
    for rows in _rows(list(range(len(sizes)))):
        width = max(sum(sizes[at][0] for at in row) + GAP * (len(row) - 1) for row in rows)
        height = sum(max(sizes[at][1] for at in row) for row in rows) + GAP * (len(rows) - 1)
        fits = min(most, area.width / width, area.height / height)
        # Among ways that are equally large, the one whose shape is nearest to the area's.
        shape = -abs(width / height - area.width / area.height)
        if best is None or (round(fits, 6), shape) > best[:2]:
            best = (round(fits, 6), shape, rows)
    assert best is not None
    return _placed(sizes, area, best[0], best[2])


def _placed(sizes: Sequence[Size], area: Area, scale: float, rows: list[list[int]]) -> tuple[Placed, ...]:
    heights = [max(sizes[at][1] for at in row) * scale for row in rows]
    free = max(0.0, area.height - sum(heights))
    between = min(GAP * 1.4 * scale, free / (len(rows) + 1)) if len(rows) > 1 else 0.0
    between = max(between, GAP * scale) if len(rows) > 1 else 0.0
    y = area.y + max(0.0, area.height - sum(heights) - between * (len(rows) - 1)) / 2
    places: dict[int, Placed] = {}
    for row, height in zip(rows, heights, strict=True):
        widths = [sizes[at][0] * scale for at in row]
        beside = GAP * scale
        x = area.x + max(0.0, area.width - sum(widths) - beside * (len(row) - 1)) / 2
        for at, width in zip(row, widths, strict=True):
            tall = sizes[at][1] * scale
            places[at] = Placed(float(int(x)), float(int(y + (height - tall) / 2)), width, tall, scale)
            x += width + beside
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
