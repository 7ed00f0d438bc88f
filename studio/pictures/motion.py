"""How one drawing becomes the next: what keeps its key travels, what is new lands, what is gone leaves.

All of it is pure: `between` gives the drawing at a moment, and a painter paints it. Nothing flashes: each shape
changes once, one way, in the time of the change.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from studio.pictures.geometry import path_points
from studio.pictures.layout import extent, moved, padded
from studio.pictures.shapes import AnyShape, Box, Cross, Disc, Drawing, Line, Path, Ring, Words

DURATION = 0.4
"""How long a change should take, in seconds."""
FALL = 26.0
"""From how high a mark lands, in units."""


def between(before: Drawing | None, after: Drawing | None, t: float, *, calm: bool = False) -> Drawing:
    """The drawing at `t` from 0 (`before`) to 1 (`after`); None is an empty place (a picture comes or goes).

    At 0 and 1 it is exactly the one and the other; between, its space is the larger of both (see `layout.padded`).
    With `calm`, nothing moves: it is `after` as soon as t is above 0.
    """
    if before is None and after is None:
        raise ValueError("there is nothing to draw between nothing and nothing")
    if calm:
        t = 1.0 if t > 0 else 0.0
    if before is None or after is None:
        whole = after if after is not None else before
        assert whole is not None
        part = eased(t if after is not None else 1 - t)
        return replace(whole, shapes=tuple(replace(shape, opacity=shape.opacity * part) for shape in whole.shapes))
    size = extent((before, after))
    before, after = padded(before, size), padded(after, size)
    if t <= 0 or before == after:
        return before
    if t >= 1:
        return after
    return Drawing(size[0], size[1], tuple(_shapes(before.shapes, after.shapes, eased(t))), after.anchor, after.upwards)


def eased(t: float) -> float:
    """A quick start and a soft landing: 0 to 1 for 0 to 1."""
    t = min(1.0, max(0.0, t))
    return 1 - (1 - t) ** 3


def _shapes(before: Sequence[AnyShape], after: Sequence[AnyShape], part: float) -> list[AnyShape]:
    old = {shape.key: shape for shape in before}
    new = {shape.key: shape for shape in after}
    drawn: list[AnyShape] = []
    # What goes stays in its layer: just above the shape that it was painted after.
    below: dict[str, list[AnyShape]] = {}
    last = ""
    for shape in before:
        if shape.key in new:
            last = shape.key
        else:
            gone = _going(shape, part, _spot(shape, before, new, old))
            below.setdefault(last, []).append(gone)
    drawn += below.get("", [])
    for shape in after:
        was = old.get(shape.key)
        if was is None:
            drawn.append(_coming(shape, part, _spot(shape, after, old, new)))
        elif _alike(was, shape):
            drawn.append(_travelling(was, shape, part))
        else:
            drawn.append(replace(was, opacity=was.opacity * max(0.0, 1 - 2 * part)))
            drawn.append(replace(shape, opacity=shape.opacity * min(1.0, 2 * part)))
        drawn += below.get(shape.key, [])
    return drawn


def _spot(
    shape: AnyShape, among: Sequence[AnyShape], there: Mapping[str, AnyShape], here: Mapping[str, AnyShape]
) -> tuple[float, float] | None:
    """Where a shape goes that becomes a piece of another which is `there` and not `here`, or comes out of it: the pieces
    of a line lie along it, those of any other shape in its middle. None where it becomes a piece of nothing."""
    whole = there.get(shape.into) if shape.into not in here else None
    if not isinstance(whole, Line):
        return middle(whole) if whole is not None else None
    pieces = [other.key for other in among if other.into == shape.into]
    part = (pieces.index(shape.key) + 0.5) / len(pieces)
    return (whole.x1 + (whole.x2 - whole.x1) * part, whole.y1 + (whole.y2 - whole.y1) * part)


def _alike(one: AnyShape, other: AnyShape) -> bool:
    if isinstance(one, Words) and isinstance(other, Words):
        return (one.text, one.face, one.align) == (other.text, other.face, other.align)
    if isinstance(one, Path) and isinstance(other, Path):
        return len(one.points) == len(other.points)
    return type(one) is type(other)


_LENGTHS = (
    "x",
    "y",
    "x1",
    "y1",
    "x2",
    "y2",
    "radius",
    "rx",
    "ry",
    "width",
    "height",
    "size",
    "part",
    "corner",
    "line",
    "opacity",
)


def _travelling(was: AnyShape, shape: AnyShape, part: float) -> AnyShape:
    changes: dict[str, object] = {}
    for name in _LENGTHS:
        start, end = getattr(was, name, None), getattr(shape, name, None)
        if isinstance(start, float | int) and isinstance(end, float | int) and start != end:
            changes[name] = start + (end - start) * part
    if isinstance(was, Path) and isinstance(shape, Path) and was.points != shape.points:
        changes["points"] = tuple(
            (x1 + (x2 - x1) * part, y1 + (y2 - y1) * part)
            for (x1, y1), (x2, y2) in zip(was.points, shape.points, strict=True)
        )
    return replace(shape, **changes) if changes else shape  # type: ignore[arg-type]


def middle(shape: AnyShape) -> tuple[float, float]:
    """The middle of a shape."""
    match shape:
        case Line():
            return ((shape.x1 + shape.x2) / 2, (shape.y1 + shape.y2) / 2)
        case Box():
            return (shape.x + shape.width / 2, shape.y + shape.height / 2)
        case Path():
            return (
                sum(x for x, _ in shape.points) / len(shape.points),
                sum(y for _, y in shape.points) / len(shape.points),
            )
        case Disc() | Cross() | Ring() | Words():
            return (shape.x, shape.y)


def _sized(shape: AnyShape, part: float) -> AnyShape:
    """The shape, smaller about its middle."""
    match shape:
        case Disc() | Cross():
            return replace(shape, radius=shape.radius * part, width=shape.width * part)
        case Box():
            return replace(
                shape,
                x=shape.x + shape.width * (1 - part) / 2,
                y=shape.y + shape.height * (1 - part) / 2,
                width=shape.width * part,
                height=shape.height * part,
                corner=shape.corner * part,
            )
        case _:
            return shape


def _coming(shape: AnyShape, part: float, source: tuple[float, float] | None) -> AnyShape:
    if source is not None:
        (x, y), (at_x, at_y) = source, middle(shape)
        return moved(shape, (x - at_x) * (1 - part), (y - at_y) * (1 - part))
    faint = replace(shape, opacity=shape.opacity * min(1.0, 1.5 * part))
    match shape:
        case Ring():
            return replace(shape, part=shape.part * part)
        case Line():
            return replace(
                shape, x2=shape.x1 + (shape.x2 - shape.x1) * part, y2=shape.y1 + (shape.y2 - shape.y1) * part
            )
        case Path() if not shape.closed:
            return _drawn(shape, part)
        case Disc() | Cross():
            return moved(_sized(faint, 0.5 + 0.5 * part), 0.0, -FALL * (1 - part))
        case Box():
            return _sized(faint, 0.6 + 0.4 * part)
        case _:
            return faint


def _going(shape: AnyShape, part: float, target: tuple[float, float] | None) -> AnyShape:
    if target is not None:
        (x, y), (at_x, at_y) = target, middle(shape)
        gone = moved(shape, (x - at_x) * part, (y - at_y) * part)
        return replace(gone, opacity=gone.opacity * (1.0 if part < 0.6 else (1 - part) / 0.4))
    faint = replace(shape, opacity=shape.opacity * (1 - part))
    return moved(_sized(faint, 1 - 0.4 * part), 0.0, -FALL * part) if isinstance(shape, Disc | Cross) else faint


def _drawn(path: Path, part: float) -> Path:
    """The beginning of an open path: it is drawn as by a pen."""
    points = path_points(path)
    reach = part * (len(points) - 1)
    whole = int(reach)
    drawn = points[: whole + 1]
    if whole + 1 < len(points):
        (x1, y1), (x2, y2), rest = points[whole], points[whole + 1], reach - whole
        drawn.append((x1 + (x2 - x1) * rest, y1 + (y2 - y1) * rest))
    return replace(path, points=tuple(drawn), curved=False)
