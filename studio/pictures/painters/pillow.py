"""Pixels, by Pillow.

Every shape is drawn into a mask of its own at four times the size and reduced, which gives edges their exact share of
each pixel; masks are kept, so that ten dots are drawn once. Shapes are laid with Pillow's alpha compositing: no dark
or light fringe, whatever the picture is laid over.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from math import ceil, floor, hypot
from typing import assert_never

from PIL import Image, ImageDraw, ImageFont

from studio.pictures.geometry import Point, dashes, path_points, ring_points
from studio.pictures.shapes import AnyShape, Box, Cross, Disc, Drawing, Ink, Line, Path, Ring, Words
from studio.pictures.themes import Theme, load_theme

FINE = 4
"""How many times finer masks are drawn than they come out."""
KEPT_BYTES = 96_000_000
"""How much of finished pictures is kept."""

_kept: OrderedDict[tuple[Drawing, Theme, float], Image.Image] = OrderedDict()


def paint(
    drawing: Drawing, theme: Theme | None = None, *, scale: float | None = None, width: int | None = None
) -> Image.Image:
    """The drawing as an RGBA image with straight alpha on a transparent ground.

    `scale` is in pixels a unit; instead, `width` is the width of the image in pixels. Without either, a unit is a
    pixel. The image is ceil(units × scale) pixels wide and high. A picture that was painted before is the same image
    again: do not draw in it. `theme` is warm paper unless given.
    """
    theme = theme or load_theme()
    if scale is None:
        scale = 1.0 if width is None else width / drawing.width
    key = (drawing, theme, scale)
    image = _kept.get(key)
    if image is None:
        image = _painted(drawing, theme, scale)
        _kept[key] = image
        while sum(kept.width * kept.height * 4 for kept in _kept.values()) > KEPT_BYTES and len(_kept) > 1:
            _kept.popitem(last=False)
    else:
        _kept.move_to_end(key)
    return image


def _painted(drawing: Drawing, theme: Theme, scale: float) -> Image.Image:
    size = (max(1, ceil(drawing.width * scale - 1e-6)), max(1, ceil(drawing.height * scale - 1e-6)))
    brush = _Brush(Image.new("RGBA", size, (0, 0, 0, 0)), theme, scale)
    for shape in drawing.shapes:
        if shape.opacity > 0:
            brush.draw(shape)
    return brush.canvas


class _Brush:
    """Lays masks of one colour on the canvas."""

    def __init__(self, canvas: Image.Image, theme: Theme, scale: float) -> None:
        self.canvas = canvas
        self.theme = theme
        self.scale = scale

    def lay(self, mask: Image.Image, left: int, top: int, ink: Ink, opacity: float) -> None:
        right, bottom = left + mask.width, top + mask.height
        if left < 0 or top < 0 or right > self.canvas.width or bottom > self.canvas.height:
            kept = (
                max(0, -left),
                max(0, -top),
                min(mask.width, self.canvas.width - left),
                min(mask.height, self.canvas.height - top),
            )
            if kept[2] <= kept[0] or kept[3] <= kept[1]:
                return
            mask, left, top = mask.crop(kept), left + kept[0], top + kept[1]
        if opacity < 1:
            mask = mask.point(lambda value: round(value * opacity))
        patch = Image.new("RGBA", mask.size, self.theme.colour(ink))
        patch.putalpha(mask)
        self.canvas.alpha_composite(patch, (left, top))

    def stroke(self, points: Sequence[Point], width: float, ink: Ink, opacity: float, closed: bool = False) -> None:
        s = self.scale
        half = width * s / 2
        left = floor(min(x for x, _ in points) * s - half) - 1
        top = floor(min(y for _, y in points) * s - half) - 1
        right = ceil(max(x for x, _ in points) * s + half) + 1
        bottom = ceil(max(y for _, y in points) * s + half) + 1
        fine = tuple((_fine(x * s - left), _fine(y * s - top)) for x, y in points)
        self.lay(_stroke(fine, _fine(width * s), closed, right - left, bottom - top), left, top, ink, opacity)

    def oval(self, x: float, y: float, rx: float, ry: float, ink: Ink, opacity: float) -> None:
        s = self.scale
        left, top = floor((x - rx) * s) - 1, floor((y - ry) * s) - 1
        right, bottom = ceil((x + rx) * s) + 1, ceil((y + ry) * s) + 1
        box = (
            _fine((x - rx) * s - left),
            _fine((y - ry) * s - top),
            _fine((x + rx) * s - left),
            _fine((y + ry) * s - top),
        )
        self.lay(_oval(box, right - left, bottom - top), left, top, ink, opacity)

    def block(
        self, box: tuple[float, float, float, float], corner: float, ink: Ink, opacity: float, line: float = 0.0
    ) -> None:
        """A filled rectangle, or only its border of thickness `line`."""
        s = self.scale
        left, top, right, bottom = (edge * s for edge in box)
        x, y = floor(left) - 1, floor(top) - 1
        fine = (_fine(left - x), _fine(top - y), _fine(right - x), _fine(bottom - y))
        border = max(ceil(max(corner, line) * s), 1) + 2
        strips, inside = _strips(
            fine, _fine(corner * s), _fine(line * s), ceil(right) + 1 - x, ceil(bottom) + 1 - y, border
        )
        for strip, dx, dy in strips:
            self.lay(strip, x + dx, y + dy, ink, opacity)
        if inside and not line:
            ground = (x + inside[0], y + inside[1], x + inside[2], y + inside[3])
            if opacity < 1:
                plain = Image.new("L", (ground[2] - ground[0], ground[3] - ground[1]), 255)
                self.lay(plain, ground[0], ground[1], ink, opacity)
            else:
                self.canvas.paste((*self.theme.colour(ink), 255), ground)

    def draw(self, shape: AnyShape) -> None:
        match shape:
            case Disc():
                radius = shape.radius
                if shape.outline is not None and shape.width > 0:
                    self.oval(shape.x, shape.y, radius, radius, shape.outline, shape.opacity)
                    radius -= shape.width
                if radius > 0:
                    self.oval(shape.x, shape.y, radius, radius, shape.fill, shape.opacity)
            case Cross():
                reach = max(0.0, shape.radius - shape.width / 2)
                x, y = shape.x, shape.y
                self.stroke([(x - reach, y - reach), (x + reach, y + reach)], shape.width, shape.fill, shape.opacity)
                self.stroke([(x + reach, y - reach), (x - reach, y + reach)], shape.width, shape.fill, shape.opacity)
            case Line():
                for start, end in dashes(shape):
                    self.stroke([start, end], shape.width, shape.fill, shape.opacity)
            case Box():
                box = (shape.x, shape.y, shape.x + shape.width, shape.y + shape.height)
                line = shape.line if shape.outline is not None else 0.0
                if shape.fill is not None:
                    if line and shape.outline is not None:
                        # A little thicker than the line, so that nothing shines through between it and the fill.
                        self.block(box, shape.corner, shape.outline, shape.opacity, line + 1 / self.scale)
                    inner = (box[0] + line, box[1] + line, box[2] - line, box[3] - line)
                    self.block(inner, max(0.0, shape.corner - line), shape.fill, shape.opacity)
                elif line and shape.outline is not None:
                    self.block(box, shape.corner, shape.outline, shape.opacity, line)
            case Ring():
                if shape.part > 0:
                    points = ring_points(shape)
                    whole = shape.part >= 1
                    self.stroke(points[:-1] if whole else points, shape.width, shape.fill, shape.opacity, whole)
            case Path():
                points = path_points(shape)
                if shape.closed:
                    self.fill(points, shape.fill, shape.opacity)
                if shape.width > 0:
                    self.stroke(points, shape.width, shape.fill, shape.opacity, shape.closed)
            case Words():
                self.write(shape)
            case _:
                assert_never(shape)

    def fill(self, points: Sequence[Point], ink: Ink, opacity: float) -> None:
        s = self.scale
        left, top = floor(min(x for x, _ in points) * s) - 1, floor(min(y for _, y in points) * s) - 1
        right, bottom = ceil(max(x for x, _ in points) * s) + 1, ceil(max(y for _, y in points) * s) + 1
        fine = [(_fine(x * s - left), _fine(y * s - top)) for x, y in points]
        mask = Image.new("L", ((right - left) * FINE, (bottom - top) * FINE))
        ImageDraw.Draw(mask).polygon(fine, fill=255)
        self.lay(mask.reduce(FINE), left, top, ink, opacity)

    def write(self, words: Words) -> None:
        size = words.size * self.scale
        if size < 0.5 or not words.text:
            return
        mask, left, top, advance = _writing(words.text, self.theme.font(words.face), round(size * FINE))
        shift = {"left": 0.0, "middle": advance / 2, "right": advance}[words.align]
        x, y = _fine(words.x * self.scale) - round(shift) + left, _fine(words.y * self.scale) + top
        column, row = x // FINE, y // FINE
        self.lay(_moved(mask, x - column * FINE, y - row * FINE), column, row, words.fill, words.opacity)


def _fine(length: float) -> int:
    return round(length * FINE)


@lru_cache(maxsize=512)
def _oval(box: tuple[int, int, int, int], width: int, height: int) -> Image.Image:
    mask = Image.new("L", (width * FINE, height * FINE))
    ImageDraw.Draw(mask).ellipse((box[0], box[1], box[2] - 1, box[3] - 1), fill=255)
    return mask.reduce(FINE)


@lru_cache(maxsize=512)
def _strips(
    box: tuple[int, int, int, int], corner: int, line: int, width: int, height: int, border: int
) -> tuple[tuple[tuple[Image.Image, int, int], ...], tuple[int, int, int, int] | None]:
    """The masks of the edges of a rectangle with their places, and the plain rectangle inside them (None: all is edge,
    in one mask)."""
    mask = Image.new("L", (width * FINE, height * FINE))
    draw = ImageDraw.Draw(mask)
    if box[2] > box[0] and box[3] > box[1]:
        draw.rounded_rectangle((box[0], box[1], box[2] - 1, box[3] - 1), corner, fill=255)
        left, top, right, bottom = box[0] + line, box[1] + line, box[2] - line, box[3] - line
        if line and right > left and bottom > top:
            draw.rounded_rectangle((left, top, right - 1, bottom - 1), max(0, corner - line), fill=0)
    mask = mask.reduce(FINE)
    x, y = width - border, height - border
    if x - border < 16 or y - border < 16:
        return ((mask, 0, 0),), None
    edges = ((0, 0, width, border), (0, y, width, height), (0, border, border, y), (x, border, width, y))
    return tuple((mask.crop(edge), edge[0], edge[1]) for edge in edges), (border, border, x, y)


@lru_cache(maxsize=512)
def _stroke(points: tuple[tuple[int, int], ...], thick: int, closed: bool, width: int, height: int) -> Image.Image:
    mask = Image.new("L", (width * FINE, height * FINE))
    draw = ImageDraw.Draw(mask)
    half = thick / 2
    ends = [*points, points[0]] if closed else list(points)
    for (x1, y1), (x2, y2) in pairwise(ends):
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


@lru_cache(maxsize=512)
def _writing(text: str, path: str, size: int) -> tuple[Image.Image, int, int, float]:
    """The mask of words at the fine size, where it lies from the start of the base line, and the words' length."""
    font = font_of(path, size)
    left, top, right, bottom = font.getbbox(text, anchor="ls")
    left, top = floor(left) - 1, floor(top) - 1
    mask = Image.new("L", (ceil(right) + 1 - left, ceil(bottom) + 1 - top))
    ImageDraw.Draw(mask).text((-left, -top), text, font=font, fill=255, anchor="ls")
    return mask, left, top, font.getlength(text)


def _moved(mask: Image.Image, x: int, y: int) -> Image.Image:
    ground = Image.new("L", (ceil((mask.width + x) / FINE) * FINE, ceil((mask.height + y) / FINE) * FINE))
    ground.paste(mask, (x, y))
    return ground.reduce(FINE)
