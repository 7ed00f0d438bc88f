"""Painted pictures as regions of a yuv420p frame: overwritten where they are opaque, mixed in where they are not."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from typing import Any

import numpy as np
from av.video.frame import VideoFrame
from PIL import Image

from studio.film.encode import planes

Plane = np.ndarray[Any, np.dtype[np.uint8]]
Planes = tuple[Plane, Plane, Plane]
Pixels = np.ndarray[Any, np.dtype[np.uint8]]


@dataclass(frozen=True, eq=False)
class Patch:
    """A region of the frame at even (`x`, `y`) with even size; `alpha` is None where it is opaque throughout."""

    x: int
    y: int
    luma: Plane
    blue: Plane
    red: Plane
    alpha: Plane | None = None
    alpha_small: Plane | None = None

    @property
    def width(self) -> int:
        return int(self.luma.shape[1])

    @property
    def height(self) -> int:
        return int(self.luma.shape[0])


def ground(width: int, height: int, colour: tuple[int, int, int]) -> tuple[Pixels, Image.Image]:
    """Pixels (height × width × 4, RGBA) all of one colour, and an image of the same memory to paint on."""
    word = int.from_bytes(bytes((*colour, 255)), sys.byteorder)
    pixels = np.full((height, width), word, np.uint32).view(np.uint8).reshape(height, width, 4)
    image = Image.frombuffer("RGBA", (width, height), pixels, "raw", "RGBA", 0, 1)
    image.readonly = 0  # else it would be copied at the first stroke
    return pixels, image


def to_yuv(pixels: Pixels) -> VideoFrame:
    """An RGBA picture with even size, of which only the colours count, as BT.709 in limited range, 4:2:0."""
    frame = VideoFrame.from_numpy_buffer(np.ascontiguousarray(pixels), format="rgba")
    return frame.reformat(
        format="yuv420p",
        src_colorspace=1,
        dst_colorspace=1,
        src_color_range=2,
        dst_color_range=1,
        interpolation="AREA",
        threads=1,  # spans are made on all cores already
    )


def patch(pixels: Pixels, x: int, y: int, alpha: Plane | None = None) -> Patch:
    """A patch of an RGBA picture (height × width × 4), of which only the colours count, with an optional alpha plane
    (height × width)."""
    luma, blue, red = planes(to_yuv(pixels))
    if alpha is None or bool((alpha == 255).all()):
        return Patch(x, y, luma, blue, red)
    small = alpha.reshape(alpha.shape[0] // 2, 2, alpha.shape[1] // 2, 2).mean(axis=(1, 3)).astype(np.uint8)
    return Patch(x, y, luma, blue, red, alpha, small)


def _mix(below: Plane, above: Plane, alpha: Plane) -> None:
    weight = alpha.astype(np.uint16)
    below[:] = ((below * (255 - weight) + above * weight + 127) // 255).astype(np.uint8)


def paste(frame: Planes, item: Patch) -> None:
    """Put a patch on the planes of a frame."""
    x, y, w, h = item.x, item.y, item.width, item.height
    targets = (
        frame[0][y : y + h, x : x + w],
        frame[1][y // 2 : (y + h) // 2, x // 2 : (x + w) // 2],
        frame[2][y // 2 : (y + h) // 2, x // 2 : (x + w) // 2],
    )
    sources = (item.luma, item.blue, item.red)
    if item.alpha is None or item.alpha_small is None:
        for target, source in zip(targets, sources, strict=True):
            target[:] = source
        return
    for target, source, alpha in zip(targets, sources, (item.alpha, item.alpha_small, item.alpha_small), strict=True):
        _mix(target, source, alpha)


def put_ink(frame: Planes, item: Patch, paper: tuple[int, int, int]) -> None:
    """Put a patch on the planes of a frame where it is not of the colour `paper`: what is there is seen round the ink."""
    x, y, w, h = item.x, item.y, item.width, item.height
    sources = (item.luma, item.blue, item.red)
    for target, source, tone, step in zip(frame, sources, paper, (1, 2, 2), strict=True):
        below = target[y // step : (y + h) // step, x // step : (x + w) // step]
        np.copyto(below, source, where=source != tone)


def split(item: Patch, edge: int) -> tuple[Patch, ...]:
    """The same patch as an opaque middle and strips that are mixed in: cheaper, where only an edge of `edge` pixels
    (even) is not opaque."""
    if item.alpha is None or item.width <= 2 * edge or item.height <= 2 * edge:
        return (item,)
    w, h = item.width, item.height
    if not bool((item.alpha[edge : h - edge, edge : w - edge] == 255).all()):
        return (item,)
    parts = [_cut(item, edge, edge, w - edge, h - edge, opaque=True)]
    for left, top, right, bottom in (
        (0, 0, w, edge),
        (0, h - edge, w, h),
        (0, edge, edge, h - edge),
        (w - edge, edge, w, h - edge),
    ):
        parts.append(_cut(item, left, top, right, bottom, opaque=False))
    return tuple(parts)


def _cut(item: Patch, left: int, top: int, right: int, bottom: int, *, opaque: bool) -> Patch:
    small = np.s_[top // 2 : bottom // 2, left // 2 : right // 2]
    large = np.s_[top:bottom, left:right]
    return Patch(
        item.x + left,
        item.y + top,
        item.luma[large].copy(),
        item.blue[small].copy(),
        item.red[small].copy(),
        None if opaque or item.alpha is None else item.alpha[large].copy(),
        None if opaque or item.alpha_small is None else item.alpha_small[small].copy(),
    )


def cut(item: Patch, place: tuple[int, int, int, int]) -> Patch:
    """What of an opaque patch stands in the even rectangle `place` (x, y, width, height), which lies in it."""
    x, y, w, h = place
    left, top = x - item.x, y - item.y
    small = np.s_[top // 2 : (top + h) // 2, left // 2 : (left + w) // 2]
    return Patch(x, y, item.luma[top : top + h, left : left + w], item.blue[small], item.red[small])


def blended(one: Patch, other: Patch, part: float) -> Patch:
    """`part` (0 to 1) of the way from one opaque patch to another in the same place."""
    share = round(255 * part)

    def plane(below: Plane, above: Plane) -> Plane:
        made = np.ascontiguousarray(below).copy()
        target = _image(made)
        target.paste(_image(np.ascontiguousarray(above)), (0, 0), Image.new("L", target.size, share))
        return made

    return Patch(one.x, one.y, plane(one.luma, other.luma), plane(one.blue, other.blue), plane(one.red, other.red))


def _image(plane: Plane) -> Image.Image:
    """An image of the memory of a plane."""
    image = Image.frombuffer("L", (plane.shape[1], plane.shape[0]), plane, "raw", "L", 0, 1)
    image.readonly = 0
    return image


def compact(frame: VideoFrame, x: int, y: int) -> Patch:
    """An opaque patch with the pixels of a frame, its rows one directly after the other."""
    luma, blue, red = (np.ascontiguousarray(plane) for plane in planes(frame))
    return Patch(x, y, luma, blue, red)


def faded(item: Patch, part: float) -> Patch:
    """The patch with its alpha multiplied by `part` (0 to 1)."""
    if part >= 1:
        return item
    full = item.alpha if item.alpha is not None else np.full(item.luma.shape, 255, np.uint8)
    small = item.alpha_small if item.alpha_small is not None else np.full(item.blue.shape, 255, np.uint8)
    return Patch(
        item.x,
        item.y,
        item.luma,
        item.blue,
        item.red,
        (full * part).astype(np.uint8),
        (small * part).astype(np.uint8),
    )
