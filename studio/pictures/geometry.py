"""The outlines that several painters need, as points."""

from __future__ import annotations

from math import cos, hypot, pi, sin

from studio.pictures.shapes import Line, Path, Ring

Point = tuple[float, float]


def dashes(line: Line) -> list[tuple[Point, Point]]:
    """The strokes of a line: itself, or its dashes, the first and the last of them whole."""
    length = hypot(line.x2 - line.x1, line.y2 - line.y1)
    if line.dash <= 0 or length <= line.dash:
        return [((line.x1, line.y1), (line.x2, line.y2))]
    count = max(1, round((length / line.dash + 1) / 2))
    dash = length / (2 * count - 1)

    def at(distance: float) -> Point:
        part = distance / length
        return (line.x1 + (line.x2 - line.x1) * part, line.y1 + (line.y2 - line.y1) * part)

    return [(at(2 * number * dash), at((2 * number + 1) * dash)) for number in range(count)]


def ring_points(ring: Ring, steps: int = 96) -> list[Point]:
    """Points along the part of the ring that is drawn, clockwise from the top."""
    round_off = ring.squareness > 2
    count = max(2, round(steps * (2 if round_off else 1) * ring.part) + 1)
    points = []
    for number in range(count):
        angle = -pi / 2 + 2 * pi * ring.part * number / (count - 1)
        across, down = cos(angle), sin(angle)
        out = (abs(across) ** ring.squareness + abs(down) ** ring.squareness) ** (-1 / ring.squareness)
        out = out if round_off else 1.0
        points.append((ring.x + ring.rx * across * out, ring.y + ring.ry * down * out))
    return points


def path_points(path: Path, steps: int = 16) -> list[Point]:
    """Points along a path; a curved one runs smoothly through its points (Catmull and Rom's spline)."""
    points = list(path.points)
    if not path.curved or len(points) < 3:
        return points
    before, after = ([points[-1]], points[:2]) if path.closed else ([points[0]], [points[-1]])
    ring = [*before, *points, *after]
    smooth: list[Point] = []
    for at in range(len(ring) - 3):
        (x1, y1), (x2, y2), (x3, y3), (x4, y4) = ring[at : at + 4]
        for t in (step / steps for step in range(steps)):
            smooth.append((_spline(x1, x2, x3, x4, t), _spline(y1, y2, y3, y4, t)))
    if not path.closed:
        smooth.append(points[-1])
    return smooth


def _spline(a: float, b: float, c: float, d: float, t: float) -> float:
    return 0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t * t + (3 * b - a - 3 * c + d) * t**3)
