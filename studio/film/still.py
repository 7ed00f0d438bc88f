"""Pictures that stand, and what moves between them: only what changes is encoded.

A picture that is new as a whole is an IDR frame. While it stands, frames say "as before". Where a part of it changes,
that region is encoded by itself as a small picture and put into frames that else are as before (see `slices`). The
small pictures refer to nothing, neither to what stands round them nor to each other: what a player shows is what was
encoded.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from hashlib import sha256

import numpy as np
from av.video.frame import VideoFrame

from studio.film import slices
from studio.film.encode import Coded, Encoder, planes, stream_headers
from studio.film.scene import Rect
from studio.film.settings import FilmSettings
from studio.film.slices import MACROBLOCK
from studio.film.yuv import Patch, Plane, Planes, cut, paste

GROUP_SECONDS = 5  # how far a player has to look back; as far as in a live span
_SAVED = 60_000  # pixels: encoding so many costs about as much as one encoder more
_KNOWN = 2000
_MOST = 0.5  # the share of the frame up to which a region is encoded rather than all


class StillTrack:
    """The encoded frames of a span of still pictures, one after the other."""

    def __init__(self, settings: FilmSettings, known: dict[bytes, bytes] | None = None) -> None:
        """`known` are slices that whole rows of macroblocks were encoded to, by what is in them; more are put in."""
        self._settings = settings
        self._known = known if known is not None else {}
        self._syntax = slices.syntax(stream_headers(settings))
        self._columns = -(-settings.width // MACROBLOCK)
        self._rows = -(-settings.height // MACROBLOCK)
        self._group = GROUP_SECONDS * settings.fps
        self._done = 0  # frames of the group so far
        self._shown: VideoFrame | None = None
        self._idr: Coded | None = None  # that of what is shown

    def anew(self, frame: VideoFrame) -> Iterator[Coded]:
        """One frame: a picture that is new as a whole. `frame` belongs to the track from now on."""
        self._shown, self._idr = frame, None
        yield self._first()

    def through(self, frames: Sequence[VideoFrame], stays: int) -> Iterator[Coded]:
        """The pictures `frames`, of which parts may be as before; the last stands for `stays` frames."""
        if self._shown is None:
            yield from self.anew(frames[0])
            frames = frames[1:]
        if len(frames) == 1 and stays > 1 and self._done > 1:
            yield from self.anew(frames[0])
            return
        shown = self._shown
        assert shown is not None
        boxes = [_unlike(planes(shown), planes(frame)) for frame in frames]
        box = _hull([box for box in boxes if box is not None])
        if box is None:
            yield from self.hold(len(frames))
            return
        yield from self.change([(1, [_part(frame, box)]) for frame in frames], stays)

    def change(self, moments: Sequence[tuple[int, Sequence[Patch]]], stays: int) -> Iterator[Coded]:
        """The `moments`, each for a number of frames: patches that are put on what is shown, always in the same places.
        The last of them stands for `stays` frames, of which only the first is given."""
        assert self._shown is not None
        boxes = self._boxes([(patch.x, patch.y, patch.width, patch.height) for patch in moments[0][1]])
        frames: list[list[VideoFrame]] = [[] for _ in boxes]
        for _, patches in moments:
            for patch in patches:
                paste(planes(self._shown), patch)
            for box, regions in zip(boxes, frames, strict=True):
                regions.append(self._region(box))
        self._idr = None
        count = sum(count for count, _ in moments)
        renewed = stays > 1 and self._done + count > 2  # not directly after an IDR frame: see `hold`
        renewed = renewed and (self._whole(boxes) or self._done + count + stays - 1 > self._group)
        encoded = [_encoded(regions[: len(regions) - renewed], self._settings, self._syntax) for regions in frames]
        places = [(x // MACROBLOCK, y // MACROBLOCK, w // MACROBLOCK, h // MACROBLOCK) for x, y, w, h in boxes]
        size = (self._columns, self._rows)
        for (count, _), *units in zip(moments, *encoded, strict=False):
            data = slices.picture(list(zip(places, units, strict=True)), size, self._done, self._syntax)
            yield Coded(data, False)
            self._done += 1
            for _ in range(count - 1):
                yield self._as_before()
        if renewed:
            yield self._first()

    def hold(self, count: int, *, last: bool = False) -> Iterator[Coded]:
        """What is shown, for `count` more frames; `last`: with them the span ends."""
        for left in range(count, 0, -1):
            # Two IDR frames may not stand side by side with the same number (H.264, 7.4.3): no group of one frame.
            if self._done >= self._group and not (left == 1 and last):
                yield self._first()
                continue
            yield self._as_before()

    def _as_before(self) -> Coded:
        number = self._done % self._syntax.frames
        self._done += 1
        return Coded(slices.as_before(0, self._columns * self._rows, number, self._syntax), False)

    def _first(self) -> Coded:
        if self._idr is None:
            self._idr = self._whole_picture()
        self._done = 1
        return self._idr

    def _whole_picture(self) -> Coded:
        """The IDR frame of what is shown. Each row of macroblocks is a slice that refers to no other, and for a row that
        was there before (most often: paper) there is one already."""
        assert self._shown is not None
        rows = [_row(planes(self._shown), row) for row in range(self._rows)]
        names = [sha256(b"".join(plane.tobytes() for plane in row)).digest() for row in rows]
        new = {name: row for name, row in zip(names, rows, strict=True) if name not in self._known}
        stacked = VideoFrame(self._columns * MACROBLOCK, max(1, len(new)) * MACROBLOCK, "yuv420p")
        for at, row in enumerate(new.values()):
            for target, source in zip(_row(planes(stacked), at), row, strict=True):
                _fill(target, source)
        for units in _encoded([stacked] if new else [], self._settings, self._syntax):
            self._known.update(zip(new, units, strict=True))
        data = b"".join(
            slices.moved(self._known[name], row * self._columns, 0, self._syntax) for row, name in enumerate(names)
        )
        while len(self._known) > _KNOWN:
            del self._known[next(iter(self._known))]
        return Coded(data, True)

    def _whole(self, boxes: Sequence[Rect]) -> bool:
        return sum(w * h for _, _, w, h in boxes) > _MOST * self._settings.width * self._settings.height

    def _boxes(self, places: Sequence[Rect]) -> list[Rect]:
        """The macroblocks that hold these rectangles, in pixels, as rectangles that do not meet. What is near each other
        is one: an encoder more costs about as much as it saves."""
        unit = MACROBLOCK
        found: list[Rect] = []
        for x, y, w, h in places:
            left, top = x // unit * unit, y // unit * unit
            right, bottom = min(self._columns, -(-(x + w) // unit)) * unit, min(self._rows, -(-(y + h) // unit)) * unit
            box = (left, top, right - left, bottom - top)
            while (near := next((other for other in found if _near(box, other)), None)) is not None:
                found.remove(near)
                box = _hull((box, near)) or box
            found.append(box)
        return found

    def _region(self, box: Rect) -> VideoFrame:
        """A copy of a region of what is shown. Below the last row of the frame, that row goes on."""
        assert self._shown is not None
        x, y, w, h = box
        region = VideoFrame(w, h, "yuv420p")
        for target, source, step in zip(planes(region), planes(self._shown), (1, 2, 2), strict=True):
            _fill(target, source[y // step : (y + h) // step, x // step : (x + w) // step])
        return region


def _encoded(frames: Sequence[VideoFrame], settings: FilmSettings, syntax: slices.Syntax) -> Iterator[list[bytes]]:
    """The slices of each frame of a region, one for each row of macroblocks."""
    if not frames:
        return
    encoder = Encoder(settings, region=(frames[0].width, frames[0].height))
    if slices.syntax(encoder.headers) != syntax:
        raise RuntimeError("the encoder gives a region other stream headers than the film")
    for frame in (*frames, None):
        for coded in encoder.encode(frame, alone=True) if frame is not None else encoder.finish():
            yield slices.of_picture(coded.data)


def _row(picture: Planes, number: int) -> Planes:
    """A row of macroblocks."""
    luma, small = slice(number * MACROBLOCK, (number + 1) * MACROBLOCK), MACROBLOCK // 2
    chroma = slice(number * small, (number + 1) * small)
    return picture[0][luma], picture[1][chroma], picture[2][chroma]


def _fill(target: Plane, source: Plane) -> None:
    """Put a plane into one that may be larger: its last row and column go on."""
    high, wide = source.shape
    target[:high, :wide] = source
    target[high:, :wide] = source[-1:]
    target[:, wide:] = target[:, wide - 1 : wide]


def _near(one: Rect, other: Rect) -> bool:
    """Whether the rectangle round two is little more than they are."""
    hull = _hull((one, other))
    return hull is not None and hull[2] * hull[3] <= one[2] * one[3] + other[2] * other[3] + _SAVED


def _part(frame: VideoFrame, box: Rect) -> Patch:
    return cut(Patch(0, 0, *planes(frame)), box)


def _hull(boxes: Sequence[Rect]) -> Rect | None:
    """The rectangle round all."""
    if not boxes:
        return None
    x, y = min(box[0] for box in boxes), min(box[1] for box in boxes)
    return (x, y, max(box[0] + box[2] for box in boxes) - x, max(box[1] + box[3] for box in boxes) - y)


def _unlike(one: Planes, other: Planes) -> Rect | None:
    """The even rectangle outside of which two pictures are the same."""
    found: list[int] | None = None
    for below, above, step in zip(one, other, (1, 2, 2), strict=True):
        differs = below != above
        rows, columns = np.flatnonzero(differs.any(axis=1)), np.flatnonzero(differs.any(axis=0))
        if not len(rows):
            continue
        edges = [int(columns[0]), int(rows[0]), int(columns[-1]) + 1, int(rows[-1]) + 1]
        left, top, right, bottom = (edge * step for edge in edges)
        if found is not None:
            left, top = min(left, found[0]), min(top, found[1])
            right, bottom = max(right, found[2]), max(bottom, found[3])
        found = [left // 2 * 2, top // 2 * 2, (right + 1) // 2 * 2, (bottom + 1) // 2 * 2]
    return (found[0], found[1], found[2] - found[0], found[3] - found[1]) if found is not None else None
