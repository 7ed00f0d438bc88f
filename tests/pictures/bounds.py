"""How far shapes reach, to prove that nothing is cut off."""

from __future__ import annotations

from studio.pictures.geometry import path_points
from studio.pictures.metrics import text_width
from studio.pictures.shapes import AnyShape, Box, Cross, Disc, Line, Path, Ring, Words

Edges = tuple[float, float, float, float]


def edges(shape: AnyShape) -> Edges:
    """Left, top, right and bottom of a shape."""
    match shape:
        case Disc() | Cross():
            r = shape.radius
            return (shape.x - r, shape.y - r, shape.x + r, shape.y + r)
        case Ring():
            half = shape.width / 2
            return (
                shape.x - shape.rx - half,
                shape.y - shape.ry - half,
                shape.x + shape.rx + half,
                shape.y + shape.ry + half,
            )
        case Line():
            half = shape.width / 2
            return (
                min(shape.x1, shape.x2) - half,
                min(shape.y1, shape.y2) - half,
                max(shape.x1, shape.x2) + half,
                max(shape.y1, shape.y2) + half,
            )
        case Box():
            return (shape.x, shape.y, shape.x + shape.width, shape.y + shape.height)
        case Path():
            points, half = path_points(shape), shape.width / 2
            return (
                min(x for x, _ in points) - half,
                min(y for _, y in points) - half,
                max(x for x, _ in points) + half,
                max(y for _, y in points) + half,
            )
        case Words():
            width = text_width(shape.text, shape.size)
            left = shape.x - {"left": 0.0, "middle": width / 2, "right": width}[shape.align]
            return (left, shape.y - 0.75 * shape.size, left + width, shape.y + 0.24 * shape.size)
