"""Pixels, by Pillow.

Every shape is drawn at four times its size and reduced, which gives edges their exact share of each pixel. What comes
out is a small image of the shape in its colours (a patch), which is kept: ten dots are drawn once. Large boxes are
drawn small and stretched, so only their edges are ever made of patches. Patches are laid with Pillow's alpha
compositing: no dark or light fringe, whatever the picture is laid over.
"""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import islice, pairwise
from math import ceil, floor, hypot
from typing import Any, Generic, NamedTuple, TypeVar, assert_never

from PIL import Image, ImageChops, ImageDraw, ImageFont

from studio.pictures.geometry import Point, dashes, path_points, ring_points
from studio.pictures.shapes import AnyShape, Box, Cross, Disc, Drawing, Line, Path, Ring, Words
from studio.pictures.themes import Colour, Theme, load_theme

FINE = 4
"""How many times finer shapes are drawn than they come out."""
LARGE_WORDS = 120.0
"""From which height of the em, in pixels, words are large."""
KEPT_PICTURES = 48_000_000
KEPT_PATCHES = 24_000_000
"""How many bytes of finished pictures and of patches are kept."""

Value = TypeVar("Value")
LOOK_BACK = 8
"""How many of the latest pictures are looked at for one of the same size."""

Fine = tuple[int, int, int, int]
"""Left, top, right and bottom, in pixels or on the fine grid."""
NOTHING: Fine = (1 << 30, 1 << 30, -1 << 30, -1 << 30)


class _Kept(Generic[Value]):
    """What was made before, up to a number of bytes; what was not asked for longest goes first. Threads share it; two
    that miss the same value at once both make it."""

    def __init__(self, most: int, size: Callable[[Value], int]) -> None:
        self.most, self.size, self.bytes = most, size, 0
        self.values: OrderedDict[Hashable, Value] = OrderedDict()
        self._lock = threading.Lock()

    def get(self, key: Hashable, make: Callable[[], Value]) -> Value:
        """The value of that key, made now if it is not there."""
        with self._lock:
            value = self.values.get(key)
            if value is not None:
                self.values.move_to_end(key)
                return value
        value = make()
        with self._lock:
            if key in self.values:
                return self.values[key]
            self.values[key] = value
            self.bytes += self.size(value)
            while self.bytes > self.most and len(self.values) > 1:
                self.bytes -= self.size(self.values.popitem(last=False)[1])
        return value

    def latest(self, most: int) -> list[tuple[Any, Value]]:
        """The values that were asked for last, with their keys; the last first."""
        with self._lock:
            return list(islice(reversed(self.values.items()), most))


class _Painted(NamedTuple):
    """A finished picture, and the pixels that each of its shapes may have touched."""

    image: Image.Image
    places: dict[AnyShape, Fine]


_pictures: _Kept[_Painted] = _Kept(KEPT_PICTURES, lambda made: made.image.width * made.image.height * 4)


def paint(
    drawing: Drawing, theme: Theme | None = None, *, scale: float | None = None, width: int | None = None
) -> Image.Image:
    """The drawing as an RGBA image with straight alpha on a transparent ground.

    `scale` is in pixels a unit; instead, `width` is the width of the image in pixels. Without either, a unit is a
    pixel. The image is ceil(units × scale) pixels wide and high. A picture that was painted before is the same image
    again: do not draw in it. What changed since the last picture of that size is painted anew, and nothing else.
    `theme` is warm paper unless given.
    """
    chosen = theme or load_theme()
    if scale is None:
        scale = 1.0 if width is None else width / drawing.width
    brush = _Brush(chosen, scale)

    def made() -> _Painted:
        for (before, its_theme, its_scale), picture in _pictures.latest(LOOK_BACK):
            if its_scale == scale and its_theme == chosen and brush.size(before) == brush.size(drawing):
                return brush.change(before, picture, drawing)
        return brush.picture(drawing)

    return _pictures.get((drawing, chosen, scale), made).image


def painted(drawing: Drawing, theme: Theme, scale: float) -> Image.Image:
    """What `paint` gives, painted from nothing."""
    return _Brush(theme, scale).picture(drawing).image


def paint_on(
    ground: Image.Image, shapes: Iterable[AnyShape], theme: Theme, *, scale: float, left: int = 0, top: int = 0
) -> None:
    """Paint shapes on an opaque RGBA picture, with the origin of their units at its pixel (`left`, `top`). What
    reaches beyond `ground` is cut off. Nothing is kept but the shapes' own patches."""
    brush = _Brush(theme, scale)
    brush.canvas = _Canvas(-left, -top, ground, opaque=True)
    for shape in shapes:
        if shape.opacity > 0:
            brush.draw(shape)


_ANY = [0, *[255] * 255]


class _Patch:
    """A shape as pixels: its colours, with its share of each pixel as a mask and as alpha."""

    __slots__ = ("alpha", "mask", "solid")

    def __init__(self, solid: Image.Image, mask: Image.Image) -> None:
        """`solid` is RGBA and opaque, `mask` grey; both are as large as the patch."""
        self.solid, self.mask = solid, mask
        # Where nothing of it is to be seen, it has no colour either: the same picture is always the same bytes.
        self.alpha = Image.new("RGBA", solid.size)
        self.alpha.paste(solid, (0, 0), mask.point(_ANY))
        self.alpha.putalpha(mask)

    @classmethod
    def of(cls, mask: Image.Image, colour: Colour) -> _Patch:
        """A patch of one colour."""
        return cls(Image.new("RGBA", mask.size, colour), mask)

    def cropped(self, box: Fine) -> _Patch:
        """A part of the patch."""
        return _Patch(self.solid.crop(box), self.mask.crop(box))

    def faint(self, opacity: float) -> _Patch:
        """The patch with less of it to be seen."""
        return _Patch(self.solid, self.faint_mask(opacity))

    def faint_mask(self, opacity: float) -> Image.Image:
        """Its share of each pixel, where less of it is to be seen."""
        return self.mask.point([round(value * opacity) for value in range(256)])


@dataclass(frozen=True, slots=True)
class _Made:
    """The patches of a shape with their places in it, and the rectangle inside them that is plain (None: there is
    none)."""

    patches: tuple[tuple[_Patch, int, int], ...]
    inside: Fine | None = None
    colour: Colour | None = None

    def bytes(self) -> int:
        """About how much is kept for it."""
        return 500 + 9 * sum(patch.mask.width * patch.mask.height for patch, _, _ in self.patches)


_patches: _Kept[_Made] = _Kept(KEPT_PATCHES, _Made.bytes)


class _Canvas:
    """Pixels to lay patches on; (`x`, `y`) is the pixel of the whole picture that is at its left top. `opaque` where
    the image is so from the start."""

    def __init__(self, x: int, y: int, image: Image.Image, *, opaque: bool = False) -> None:
        self.image = image
        self.x, self.y = x, y
        self._opaque = opaque

    @classmethod
    def clear(cls, x: int, y: int, width: int, height: int) -> _Canvas:
        """A canvas on which there is nothing."""
        return cls(x, y, Image.new("RGBA", (width, height), (0, 0, 0, 0)))

    def lay(self, patch: _Patch, left: int, top: int, opacity: float) -> None:
        """Put a patch on what is there, in the way that this ground allows and that is quickest."""
        left, top = left - self.x, top - self.y
        if self._opaque:
            self.image.paste(patch.solid, (left, top), patch.mask if opacity >= 1 else patch.faint_mask(opacity))
            return
        right, bottom = left + patch.mask.width, top + patch.mask.height
        if left < 0 or top < 0 or right > self.image.width or bottom > self.image.height:
            inside = (
                max(0, -left),
                max(0, -top),
                min(patch.mask.width, self.image.width - left),
                min(patch.mask.height, self.image.height - top),
            )
            if inside[2] <= inside[0] or inside[3] <= inside[1]:
                return
            patch, left, top = patch.cropped(inside), left + inside[0], top + inside[1]
            right, bottom = left + patch.mask.width, top + patch.mask.height
        if opacity < 1:
            patch = patch.faint(opacity)
        least, most = self.image.crop((left, top, right, bottom)).getchannel("A").getextrema()
        if least == 255:
            self.image.paste(patch.solid, (left, top), patch.mask)
        elif most == 0:
            self.image.paste(patch.alpha, (left, top))
        else:
            self.image.alpha_composite(patch.alpha, (left, top))

    def plain(self, colour: Colour, box: Fine, opacity: float) -> None:
        """Fill a rectangle."""
        left, top, right, bottom = box
        if opacity < 1:
            self.lay(_Patch.of(Image.new("L", (right - left, bottom - top), 255), colour), left, top, opacity)
        else:
            box = (left - self.x, top - self.y, right - self.x, bottom - self.y)
            self.image.paste((*colour, 255), box)


class _Brush:
    """Makes patches of shapes. While it draws, `canvas` is where they are laid, and `touched` what they cover."""

    canvas: _Canvas
    touched: Fine

    def __init__(self, theme: Theme, scale: float) -> None:
        self.colours = dict(theme.colours)
        self.theme = theme
        self.scale = scale

    def size(self, drawing: Drawing) -> tuple[int, int]:
        """How many pixels a drawing needs."""
        width, height = drawing.width * self.scale, drawing.height * self.scale
        return max(1, ceil(width - 1e-6)), max(1, ceil(height - 1e-6))

    def picture(self, drawing: Drawing) -> _Painted:
        """The whole drawing."""
        self.canvas = _Canvas.clear(0, 0, *self.size(drawing))
        return _Painted(self.canvas.image, {shape: self.draw(shape) for shape in drawing.shapes if shape.opacity > 0})

    def change(self, before: Drawing, picture: _Painted, drawing: Drawing) -> _Painted:
        """The drawing, made of the picture of another one: only where they differ is it painted."""
        shapes = [shape for shape in drawing.shapes if shape.opacity > 0]
        stays = picture.places.keys() & set(shapes)
        if [shape for shape in before.shapes if shape in stays] != [shape for shape in shapes if shape in stays]:
            return self.picture(drawing)
        width, height = self.size(drawing)
        places = dict(picture.places)
        self.canvas = _Canvas.clear(0, 0, 1, 1)
        changed = [place for shape, place in places.items() if shape not in stays]
        for shape in shapes:
            if shape not in stays:
                places[shape] = self.draw(shape)
                changed.append(places[shape])
        regions = _gathered(_cut(place, width, height) for place in changed)
        if sum((right - left) * (bottom - top) for left, top, right, bottom in regions) > width * height * 0.5:
            return self.picture(drawing)
        image = picture.image.copy()
        for left, top, right, bottom in regions:
            self.canvas = _Canvas.clear(left, top, right - left, bottom - top)
            for shape in shapes:
                if _meet(places[shape], (left, top, right, bottom)):
                    self.draw(shape)
            image.paste(self.canvas.image, (left, top))
        return _Painted(image, {shape: places[shape] for shape in shapes})

    def put(self, key: Hashable, make: Callable[[], _Made], x: int, y: int, opacity: float) -> None:
        """Lay what belongs to a key, made now if it is not kept, with (`x`, `y`) as its left top."""
        made = _patches.get(key, make)
        for patch, dx, dy in made.patches:
            self.canvas.lay(patch, x + dx, y + dy, opacity)
            place = (x + dx, y + dy, x + dx + patch.mask.width, y + dy + patch.mask.height)
            self.touched = _around(self.touched, place)
        if made.inside is not None and made.colour is not None:
            left, top, right, bottom = made.inside
            self.canvas.plain(made.colour, (x + left, y + top, x + right, y + bottom), opacity)

    def draw(self, shape: AnyShape) -> Fine:
        """Draw a shape on what is there; gives the pixels that it may have touched."""
        self.touched = NOTHING
        self._draw(shape)
        return self.touched

    def _draw(self, shape: AnyShape) -> None:
        match shape:
            case Disc():
                self.disc(shape)
            case Cross():
                reach = max(0.0, shape.radius - shape.width / 2)
                x, y = shape.x, shape.y
                falling = [(x - reach, y - reach), (x + reach, y + reach)]
                rising = [(x + reach, y - reach), (x - reach, y + reach)]
                self.stroke([falling, rising], shape.width, shape)
            case Line():
                if shape.x1 == shape.x2 or shape.y1 == shape.y2:
                    for start, end in dashes(shape):
                        self.straight(start, end, shape)
                else:
                    self.stroke([[start, end] for start, end in dashes(shape)], shape.width, shape)
            case Box():
                self.box(shape)
            case Ring():
                if shape.part > 0:
                    points, whole = ring_points(shape), shape.part >= 1
                    self.stroke([points[:-1] if whole else points], shape.width, shape, whole)
            case Path():
                points = path_points(shape)
                if shape.closed:
                    self.fill(points, shape)
                if shape.width > 0:
                    self.stroke([points], shape.width, shape, shape.closed)
            case Words():
                self.write(shape)
            case _:
                assert_never(shape)

    def disc(self, disc: Disc) -> None:
        """A disc with its outline in one patch."""
        s, outline = self.scale, disc.outline if disc.width > 0 else None
        radius = disc.radius - (disc.width if outline else 0.0)
        x, y = floor((disc.x - disc.radius) * s) - 1, floor((disc.y - disc.radius) * s) - 1
        size = (ceil((disc.x + disc.radius) * s) + 1 - x, ceil((disc.y + disc.radius) * s) + 1 - y)
        outer, inner = (
            (
                _fine((disc.x - reach) * s - x),
                _fine((disc.y - reach) * s - y),
                _fine((disc.x + reach) * s - x),
                _fine((disc.y + reach) * s - y),
            )
            for reach in (disc.radius, max(0.0, radius))
        )
        fill, edge = self.colours[disc.fill], self.colours[outline] if outline else None

        def made() -> _Made:
            return _Made(((_two(size, outer, inner, (None, None), fill, edge), 0, 0),))

        self.put(("disc", size, outer, inner, fill, edge), made, x, y, disc.opacity)

    def box(self, box: Box) -> None:
        """A box with its outline: one patch, or its edges in patches and its inside as a plain rectangle."""
        s, line = self.scale, box.line if box.outline is not None else 0.0
        left, top, right, bottom = box.x * s, box.y * s, (box.x + box.width) * s, (box.y + box.height) * s
        if right <= left or bottom <= top:
            return
        x, y = floor(left) - 1, floor(top) - 1
        size = (ceil(right) + 1 - x, ceil(bottom) + 1 - y)
        outer, inner = (
            (
                _fine(left - x + inset),
                _fine(top - y + inset),
                _fine(right - x - inset),
                _fine(bottom - y - inset),
            )
            for inset in (0.0, line * s)
        )
        corners = (_fine(box.corner * s), _fine(max(0.0, box.corner - line) * s))
        border = ceil(max(box.corner, line) * s) + 3
        fill = self.colours[box.fill] if box.fill is not None else None
        edge = self.colours[box.outline] if box.outline is not None and line else None

        def made() -> _Made:
            return _strips(size, outer, inner, corners, fill, edge, border)

        self.put(("box", size, outer, inner, corners, fill, edge), made, x, y, box.opacity)

    def straight(self, start: Point, end: Point, line: Line) -> None:
        """A line up, down or across is a box with round ends."""
        half = line.width / 2
        self.box(
            Box(
                role=line.role,
                key=line.key,
                opacity=line.opacity,
                x=min(start[0], end[0]) - half,
                y=min(start[1], end[1]) - half,
                width=abs(end[0] - start[0]) + line.width,
                height=abs(end[1] - start[1]) + line.width,
                fill=line.fill,
                corner=half,
            )
        )

    def stroke(self, lines: Sequence[Sequence[Point]], width: float, shape: _Inked, closed: bool = False) -> None:
        """Lines through points, in one patch."""
        x, y, size, fine = self._grid(lines, width / 2)
        thick, colour = _fine(width * self.scale), self.colours[shape.fill]

        def made() -> _Made:
            return _Made(((_Patch.of(_stroke(size, fine, thick, closed), colour), 0, 0),))

        self.put(("stroke", size, fine, thick, closed, colour), made, x, y, shape.opacity)

    def fill(self, points: Sequence[Point], shape: _Inked) -> None:
        """A filled polygon."""
        x, y, size, fine = self._grid([points], 0.0)
        colour = self.colours[shape.fill]

        def made() -> _Made:
            mask = Image.new("L", (size[0] * FINE, size[1] * FINE))
            ImageDraw.Draw(mask).polygon(fine[0], fill=255)
            return _Made(((_Patch.of(mask.reduce(FINE), colour), 0, 0),))

        self.put(("fill", size, fine, colour), made, x, y, shape.opacity)

    def _grid(
        self, lines: Sequence[Sequence[Point]], reach: float
    ) -> tuple[int, int, tuple[int, int], tuple[tuple[tuple[int, int], ...], ...]]:
        """The left top pixel and the size of what reaches round lines, and their points on the fine grid in it."""
        s = self.scale
        points = [point for line in lines for point in line]
        left = floor((min(x for x, _ in points) - reach) * s) - 1
        top = floor((min(y for _, y in points) - reach) * s) - 1
        right = ceil((max(x for x, _ in points) + reach) * s) + 1
        bottom = ceil((max(y for _, y in points) + reach) * s) + 1
        fine = tuple(tuple((_fine(x * s - left), _fine(y * s - top)) for x, y in line) for line in lines)
        return left, top, (right - left, bottom - top), fine

    def write(self, words: Words) -> None:
        """Words, placed on the fine grid; large ones on one half as fine, since letters have soft edges by themselves."""
        fine = FINE if words.size * self.scale < LARGE_WORDS else FINE // 2
        size = round(words.size * self.scale * fine)
        if size < 2 or not words.text:
            return
        x, y = round(words.x * self.scale * fine), round(words.y * self.scale * fine)
        path, colour = self.theme.font(words.face), self.colours[words.fill]

        def made() -> _Made:
            mask, left, top = _writing(words, path, size, x % fine, y % fine, fine)
            return _Made(((_Patch.of(mask, colour), left, top),))

        key = ("words", words.text, words.align, path, size, x % fine, y % fine, fine, colour)
        self.put(key, made, x // fine, y // fine, words.opacity)


_Inked = Cross | Line | Ring | Path


def _around(one: Fine, other: Fine) -> Fine:
    """The rectangle round two."""
    return min(one[0], other[0]), min(one[1], other[1]), max(one[2], other[2]), max(one[3], other[3])


def _meet(one: Fine, other: Fine) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _cut(box: Fine, width: int, height: int) -> Fine:
    """What of a rectangle lies in a picture of that size."""
    return max(0, box[0]), max(0, box[1]), min(width, box[2]), min(height, box[3])


def _gathered(boxes: Iterable[Fine]) -> list[Fine]:
    """Rectangles that cover these and do not meet each other."""
    regions: list[Fine] = []
    for box in boxes:
        if box[2] <= box[0] or box[3] <= box[1]:
            continue
        while any(_meet(box, region) for region in regions):
            for region in [region for region in regions if _meet(box, region)]:
                regions.remove(region)
                box = _around(box, region)
        regions.append(box)
    return regions


def _fine(length: float) -> int:
    return round(length * FINE)


def _two(
    size: tuple[int, int],
    outer: Fine,
    inner: Fine,
    corners: tuple[int | None, int | None],
    fill: Colour | None,
    edge: Colour | None,
) -> _Patch:
    """A rounded rectangle (an ellipse where the corner is None) with another in it: the fill, and round it the edge."""

    def mask(box: Fine, corner: int | None) -> Image.Image:
        drawn = Image.new("L", (size[0] * FINE, size[1] * FINE))
        left, top, right, bottom = box[0], box[1], box[2] - 1, box[3] - 1
        if right >= left and bottom >= top:
            if corner is None:
                ImageDraw.Draw(drawn).ellipse((left, top, right, bottom), fill=255)
            else:
                ImageDraw.Draw(drawn).rounded_rectangle((left, top, right, bottom), corner, fill=255)
        return drawn.reduce(FINE)

    whole = mask(outer, corners[0])
    if edge is None:
        return _Patch.of(whole, fill or (0, 0, 0))
    inside = mask(inner, corners[1])
    if fill is None:
        return _Patch.of(ImageChops.subtract(whole, inside), edge)
    ground = Image.new("RGBA", size, edge)
    ground.paste(fill, (0, 0, *size), inside)
    return _Patch(ground, whole)


WHOLE = 12_000
"""Boxes of no more pixels than these are one patch: fewer things to lay."""
STRETCH = 8
"""How many pixels of the middle of a box are drawn, to be stretched."""


def _strips(
    size: tuple[int, int],
    outer: Fine,
    inner: Fine,
    corners: tuple[int, int],
    fill: Colour | None,
    edge: Colour | None,
    border: int,
) -> _Made:
    """A box: one patch, or its edges and the plain rectangle inside them."""
    width, height = size
    least = 2 * border + STRETCH
    if width <= least or height <= least or width * height <= WHOLE:
        return _Made(((_two(size, outer, inner, corners, fill, edge), 0, 0),))
    # A box of the same edges that is no larger than it must be, cut up and stretched.
    dx, dy = width - least, height - least
    part = _two((least, least), _nearer(outer, dx, dy), _nearer(inner, dx, dy), corners, fill, edge)
    x, y, far = width - border, height - border, least - border
    strips = (
        (_stretched(part.cropped((0, 0, least, border)), border, (width, border)), 0, 0),
        (_stretched(part.cropped((0, far, least, least)), border, (width, border)), 0, y),
        (_stretched(part.cropped((0, border, border, far)), 0, (border, y - border)), 0, border),
        (_stretched(part.cropped((far, border, least, far)), 0, (border, y - border)), x, border),
    )
    return _Made(strips, (border, border, x, y), fill)


def _nearer(box: Fine, dx: int, dy: int) -> Fine:
    return (box[0], box[1], box[2] - dx * FINE, box[3] - dy * FINE)


def _stretched(patch: _Patch, end: int, size: tuple[int, int]) -> _Patch:
    """The patch made longer: `end` pixels at its left and right stay, the middle (alike all along) is stretched."""

    def longer(image: Image.Image) -> Image.Image:
        wide = image.width
        middle = image.crop((end, 0, wide - end, image.height)).resize(
            (size[0] - 2 * end, size[1]), Image.Resampling.NEAREST
        )
        made = Image.new(image.mode, size)
        made.paste(middle, (end, 0))
        if end:
            made.paste(image.crop((0, 0, end, image.height)), (0, 0))
            made.paste(image.crop((wide - end, 0, wide, image.height)), (size[0] - end, 0))
        return made

    return _Patch(longer(patch.solid), longer(patch.mask))


def _stroke(size: tuple[int, int], lines: Iterable[Sequence[tuple[int, int]]], thick: int, closed: bool) -> Image.Image:
    mask = Image.new("L", (size[0] * FINE, size[1] * FINE))
    draw = ImageDraw.Draw(mask)
    half = thick / 2
    for points in lines:
        for (x1, y1), (x2, y2) in pairwise([*points, points[0]] if closed else points):
            length = hypot(x2 - x1, y2 - y1)
            if length:
                dx, dy = (x2 - x1) / length * half, (y2 - y1) / length * half
                draw.polygon([(x1 - dy, y1 + dx), (x2 - dy, y2 + dx), (x2 + dy, y2 - dx), (x1 + dy, y1 - dx)], fill=255)
        for x, y in points:
            draw.ellipse((x - half, y - half, x + half - 1, y + half - 1), fill=255)
    return mask.reduce(FINE)


@lru_cache(maxsize=64)
def font_of(path: str, size: int) -> ImageFont.FreeTypeFont:
    """The font at a size in pixels, set without kerning, as all painters set it."""
    return ImageFont.truetype(path, size, layout_engine=ImageFont.Layout.BASIC)


def _writing(words: Words, path: str, size: int, x: int, y: int, fine: int) -> tuple[Image.Image, int, int]:
    """The mask of words whose place on the base line is (`x`, `y`) on the fine grid, and the pixel of its left top."""
    font = font_of(path, size)
    left, top, right, bottom = font.getbbox(words.text, anchor="ls")
    start = x - round({"left": 0.0, "middle": 0.5, "right": 1.0}[words.align] * font.getlength(words.text))
    column, row = (floor(left) - 1 + start) // fine, (floor(top) - 1 + y) // fine
    wide, high = ceil((ceil(right) + 1 + start) / fine) - column, ceil((ceil(bottom) + 1 + y) / fine) - row
    mask = Image.new("L", (wide * fine, high * fine))
    ImageDraw.Draw(mask).text((start - column * fine, y - row * fine), words.text, font=font, fill=255, anchor="ls")
    return mask.reduce(fine), column, row
