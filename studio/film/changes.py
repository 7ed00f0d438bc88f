"""Where two drawings differ, so that only that is painted and encoded. Pure values."""

from __future__ import annotations

from math import ceil, floor

from studio.pictures.geometry import path_points
from studio.pictures.metrics import text_width
from studio.pictures.shapes import AnyShape, Box, Cross, Disc, Drawing, Line, Path, Ring, Words

Bounds = tuple[float, float, float, float]
"""Left, top, right, bottom."""

_BLUR = 3  # pixels that an edge may reach beyond its shape


def bounds(shape: AnyShape) -> Bounds:
    """A rectangle, in units, that a shape does not leave."""
    match shape:
        case Disc() | Cross():
            x, y, r = shape.x, shape.y, shape.radius
            return (x - r, y - r, x + r, y + r)
        case Box():
            return (shape.x, shape.y, shape.x + shape.width, shape.y + shape.height)
        case Line():
            half = shape.width / 2
            xs, ys = (shape.x1, shape.x2), (shape.y1, shape.y2)
            return (min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half)
        case Ring():
            rx, ry = shape.rx + shape.width / 2, shape.ry + shape.width / 2
            return (shape.x - rx, shape.y - ry, shape.x + rx, shape.y + ry)
        case Path():
            points, half = path_points(shape), shape.width / 2
            across, down = [x for x, _ in points], [y for _, y in points]
            return (min(across) - half, min(down) - half, max(across) + half, max(down) + half)
        case Words():
            width, room = text_width(shape.text, shape.size), shape.size * 0.3
            left = shape.x - {"left": 0.0, "middle": width / 2, "right": width}[shape.align]
            return (left - room, shape.y - 1.3 * shape.size, left + width + room, shape.y + 0.6 * shape.size)


def around(one: Bounds | None, other: Bounds | None) -> Bounds | None:
    """The rectangle round two."""
    if one is None or other is None:
        return one or other
    return (min(one[0], other[0]), min(one[1], other[1]), max(one[2], other[2]), max(one[3], other[3]))


def changed(one: Drawing, other: Drawing) -> Bounds | None:
    """A rectangle, in units, outside of which two drawings of the same size look alike; None where they are the same."""
    if one == other:
        return None
    old, new = set(one.shapes), set(other.shapes)
    both = old & new
    if [shape for shape in one.shapes if shape in both] != [shape for shape in other.shapes if shape in both]:
        return (0.0, 0.0, one.width, one.height)
    found: Bounds | None = None
    for shape in old ^ new:
        if shape.opacity > 0:
            found = around(found, bounds(shape))
    return found


def in_pixels(bounds: Bounds, scale: float, left: int, top: int) -> tuple[int, int, int, int]:
    """The same as left, top, right and bottom in pixels of the frame; the drawing stands at (`left`, `top`)."""
    return (
        left + floor(bounds[0] * scale) - _BLUR,
        top + floor(bounds[1] * scale) - _BLUR,
        left + ceil(bounds[2] * scale) + _BLUR,
        top + ceil(bounds[3] * scale) + _BLUR,
    )
