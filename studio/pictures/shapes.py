"""The small list of shapes that every picture is made of.

One drawing, many painters: a picture gives a `Drawing`, a painter turns it into pixels, SVG or PDF. Units are the
picture's own; x grows to the right, y grows down. Every shape carries what it *is* (`role`) and a `key` that stays the
same from step to step, so that motion can follow it and a proof can name it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

# What a shape is painted with; a theme gives each its colour.
Ink = Literal["ink", "quiet", "first", "second", "light", "paper", "card", "ring"]
Align = Literal["left", "middle", "right"]
Face = Literal["text", "numeral", "writing"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """`role` says what the shape is ("dot", "cross", "part", "unknown", "frame"); `key` names it within its picture;
    `counts` is the name of the mark that it counts as in `Picture.marks` ("" for none: decoration). `into` is the key
    of the shape that it becomes a piece of when it goes, or comes out of when it appears (ten ones and their ten).
    `opacity` from 0 to 1 is below 1 only while something appears or goes."""

    role: str
    key: str
    counts: str = ""
    into: str = ""
    opacity: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Disc(Shape):
    """A filled disc with an outline; the outline lies inside the radius."""

    x: float
    y: float
    radius: float
    fill: Ink
    outline: Ink | None = None
    width: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Cross(Shape):
    """Two strokes with round ends; `radius` is half the size of the square that they fill."""

    x: float
    y: float
    radius: float
    fill: Ink
    width: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Line(Shape):
    """A stroke with round ends; `dash` is the length of dashes and gaps (0: whole)."""

    x1: float
    y1: float
    x2: float
    y2: float
    fill: Ink
    width: float
    dash: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Box(Shape):
    """A rectangle with rounded corners."""

    x: float
    y: float
    width: float
    height: float
    fill: Ink | None
    outline: Ink | None = None
    line: float = 0.0
    corner: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring(Shape):
    """An ellipse drawn as a line; `part` from 0 to 1 is how much of it is drawn yet. With a `squareness` above 2 it is a
    superellipse (Lamé's curve of that power) and comes nearer to its rectangle."""

    x: float
    y: float
    rx: float
    ry: float
    fill: Ink
    width: float
    part: float = 1.0
    squareness: float = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Path(Shape):
    """A line through points, curved where `curved`; closed and filled where `closed`."""

    points: tuple[tuple[float, float], ...]
    fill: Ink
    width: float
    curved: bool = False
    closed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Words(Shape):
    """Words or a numeral; (`x`, `y`) is the base line, at the left, middle or right; `size` is the height of the em."""

    x: float
    y: float
    text: str
    size: float
    fill: Ink
    face: Face = "text"
    align: Align = "middle"


AnyShape = Disc | Cross | Line | Box | Ring | Path | Words


@dataclass(frozen=True, slots=True)
class Drawing:
    """Shapes in the order in which they are painted, in a space of `width` × `height` units.

    `anchor` says which side stays where it is when the picture grows; one that grows `upwards` keeps its foot."""

    width: float
    height: float
    shapes: tuple[AnyShape, ...]
    anchor: Literal["left", "middle"] = "middle"
    upwards: bool = False
