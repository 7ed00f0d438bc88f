"""Scenes as pixels: the painted regions of a frame, and frames put together from them and from her picture."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, cos, pi, sin
from typing import Any

import numpy as np
from av.video.frame import VideoFrame
from PIL import Image

from studio.film import places
from studio.film.changes import Bounds, around, bounds, changed, in_pixels
from studio.film.encode import empty_frame, planes
from studio.film.scene import Placed, Rect, Scene, Title, Waiting
from studio.film.settings import FilmSettings
from studio.film.yuv import Patch, Planes, blended, faded, paste, patch, split
from studio.pictures.layout import Size, padded
from studio.pictures.metrics import text_width, wrapped
from studio.pictures.motion import between
from studio.pictures.painters.pillow import paint
from studio.pictures.shapes import AnyShape, Box, Disc, Drawing, Ink, Words
from studio.pictures.themes import Theme

_KEPT_PATCHES = 6
_painting = threading.Lock()  # the painter keeps what it has painted, and is not made for two at once


@dataclass(frozen=True, slots=True)
class Thing:
    """A drawing and its place in the frame; `moves` where it may do so gradually."""

    drawing: Drawing
    box: Rect
    scale: float
    moves: bool = True


@dataclass(frozen=True, slots=True)
class Change:
    """What happens in the rectangle `place` on the way from one scene to the next: things come, go, become others or
    stay (each as it was and as it will be)."""

    place: Rect
    things: tuple[tuple[Thing | None, Thing | None], ...]


class Artist:
    """Puts frames together. One for each thread."""

    def __init__(self, theme: Theme, settings: FilmSettings) -> None:
        self.theme = theme
        self.settings = settings
        self._patches: OrderedDict[Any, tuple[Patch, ...]] = OrderedDict()
        self._paper: dict[str, Planes] = {}
        self._last: tuple[Scene, Planes] | None = None
        self._fading: tuple[Change, Patch, Patch] | None = None

    # --- frames ---------------------------------------------------------------------------------------------------

    def frame(self, scene: Scene, her: VideoFrame | None, before: Scene | None = None, part: float = 1.0) -> VideoFrame:
        """The frame of a scene; `her` is the frame of the recording (None: there is none).

        With `before`, pictures are `part` of the way from that scene to this one.
        """
        if scene.camera == "full" and her is not None:
            frame = self._whole(her)
            target = planes(frame)
        else:
            frame = empty_frame(self.settings)
            target = planes(frame)
            self._put(target, self._ground(scene if before is None else Scene(scene.camera, waiting=scene.waiting)))
            if scene.camera == "beside" and her is not None:
                self._put_panel(target, her)
        if scene.camera == "full" or before is not None:
            for item in self._over(scene, before, part):
                paste(target, item)
        return frame

    def _put(self, target: Planes, source: Planes) -> None:
        for below, above in zip(target, source, strict=True):
            below[:] = above

    def _ground(self, scene: Scene) -> Planes:
        """Everything of a scene on paper, without her picture."""
        if self._last is not None and self._last[0] == scene:
            return self._last[1]
        ground = self._plain("paper")
        made: Planes = (ground[0].copy(), ground[1].copy(), ground[2].copy())
        for item in self._over(scene, None, 1.0):
            paste(made, item)
        self._last = (scene, made)
        return made

    def _plain(self, ink: Ink) -> Planes:
        if ink not in self._paper:
            tile = np.full((2, 2, 3), self.theme.colour(ink), np.uint8)
            small = patch(tile, 0, 0)
            w, h = self.settings.width, self.settings.height
            self._paper[ink] = (
                np.full((h, w), small.luma[0, 0], np.uint8),
                np.full((h // 2, w // 2), small.blue[0, 0], np.uint8),
                np.full((h // 2, w // 2), small.red[0, 0], np.uint8),
            )
        return self._paper[ink]

    # --- what changes -----------------------------------------------------------------------------------------------

    def changes(self, before: Scene, after: Scene, parts: Sequence[float]) -> list[Change] | None:
        """What changes on paper from one scene to the next, by way of the moments `parts` (see `frame`), in rectangles
        that do not meet. None where it is more than that: her picture is changed as well, or it is all new."""
        if "full" in (before.camera, after.camera) or before.camera != after.camera or before.title or after.title:
            return None
        old, new = self._things(before), self._things(after)
        pairs = [(old.get(name), new.get(name)) for name in dict.fromkeys((*old, *new))]
        found: list[Rect] = []
        for was, now in pairs:
            place = _place(was, now, parts) if was != now else None
            while place is not None and (met := next((rect for rect in found if _meet(rect, place)), None)):
                found.remove(met)
                place = _hull(place, met)
            if place is not None:
                found.append(place)
        return [
            Change(place, tuple(pair for pair in pairs if any(t is not None and _meet(t.box, place) for t in pair)))
            for place in found
        ]

    def moment(self, change: Change, part: float) -> Patch:
        """What stands in the place of a change when it is `part` of the way done."""
        if 0 < part < 1 and all(was is None or now is None or was == now for was, now in change.things):
            if self._fading is None or self._fading[0] != change:
                self._fading = (change, self._moment(change, 0.0), self._moment(change, 1.0))
            return blended(self._fading[1], self._fading[2], part)
        return self._moment(change, part)

    def _moment(self, change: Change, part: float) -> Patch:
        x, y, w, h = change.place
        ground = Image.new("RGB", (w, h), self.theme.colour("paper"))
        for was, now in change.things:
            image, left, top, share = self._seen(was, now, part)
            inside = (max(0, x - left), max(0, y - top), min(image.width, x + w - left), min(image.height, y + h - top))
            if share > 0 and inside[2] > inside[0] and inside[3] > inside[1]:
                seen = image.crop(inside)
                alpha = seen.getchannel("A")
                if share < 1:
                    alpha = alpha.point([round(value * share) for value in range(256)])
                ground.paste(seen, (inside[0] + left - x, inside[1] + top - y), alpha)
        return patch(np.asarray(ground), x, y)

    def _seen(self, was: Thing | None, now: Thing | None, part: float) -> tuple[Image.Image, int, int, float]:
        """A thing on the way from one state to another, the pixel where its image begins, and how much of it is to be
        seen."""
        if was is None or now is None:
            thing = now or was
            assert thing is not None
            share = float(now is not None) if not thing.moves else part if was is None else 1 - part
            return self._image(thing.drawing, thing.scale), *thing.box[:2], share
        if was == now or not now.moves:
            return self._image(now.drawing, now.scale), *now.box[:2], 1.0
        if was.drawing == now.drawing and part < 1:
            large = max(was, now, key=lambda thing: thing.scale)
            _, box, _ = _way(was, now, part)
            return self._image(large.drawing, large.scale).resize(box[2:], Image.Resampling.BILINEAR), *box[:2], 1.0
        drawing, box, scale = _way(was, now, part)
        return self._image(drawing, scale), *box[:2], 1.0

    def _image(self, drawing: Drawing, scale: float) -> Image.Image:
        with _painting:
            return paint(drawing, self.theme, scale=scale)

    def _things(self, scene: Scene) -> dict[str, Thing]:
        things = {placed.name: _thing(placed) for placed in scene.placed}
        if scene.waiting is not None:
            drawing, box = self._ring(scene.waiting)
            things[""] = Thing(drawing, box, box[3] / drawing.height, moves=False)
        return things

    # --- her picture ----------------------------------------------------------------------------------------------

    def _whole(self, her: VideoFrame) -> VideoFrame:
        """Her picture over the whole frame; what it leaves free is paper."""
        w, h = self.settings.width, self.settings.height
        box = _fitted((her.width, her.height), (0, 0, w, h))
        if box == (0, 0, w, h) and (her.width, her.height) == (w, h) and _plain(her):
            small = her
        else:
            small = _scaled(her, box[2], box[3])
        # A frame of our own: the reader's may be asked for again.
        frame = empty_frame(self.settings)
        target = planes(frame)
        if box != (0, 0, w, h):
            self._put(target, self._plain("paper"))
        _put_at(target, planes(small), box)
        return frame

    def _put_panel(self, target: Planes, her: VideoFrame) -> None:
        place = places.panel(self.settings)
        if self.settings.panel == "whole":
            place = _fitted((her.width, her.height), place)
            picture = planes(_scaled(her, place[2], place[3]))
        else:
            picture = _filled(her, place[2], place[3])
        _put_at(target, picture, place)
        for corner in self._corners(place):
            paste(target, corner)

    def _corners(self, place: Rect) -> tuple[Patch, ...]:
        """Paper over the corners of her panel, which makes them round."""
        key = ("corners", place)
        if key not in self._patches:
            radius = places.even(28 * self.settings.unit)
            x, y, w, h = place
            with _painting:
                disc = Drawing(2 * radius, 2 * radius, (_card(2 * radius, 2 * radius, radius, "paper"),))
                outside = 255 - np.asarray(paint(disc, self.theme))[:, :, 3]
            rgb = np.full((2 * radius, 2 * radius, 3), self.theme.colour("paper"), np.uint8)
            made = []
            for left, top in ((0, 0), (radius, 0), (0, radius), (radius, radius)):
                window = np.s_[top : top + radius, left : left + radius]
                at = (x + (w - radius if left else 0), y + (h - radius if top else 0))
                made.append(patch(rgb[window], *at, outside[window]))
            self._keep(key, tuple(made))
        return self._patches[key]

    # --- what is painted ------------------------------------------------------------------------------------------

    def _over(self, scene: Scene, before: Scene | None, part: float) -> list[Patch]:
        """The patches of a scene, or of a moment on the way to it."""
        items: list[Patch] = []
        if scene.title is not None:
            return list(self._title(scene.title))
        carded = scene.camera == "full"
        if before is None:
            for placed in scene.placed:
                items += self._picture(placed, carded)
        else:
            items += self._moving(before, scene, part, carded)
        if scene.waiting is not None:
            items += self._waiting(scene.waiting, carded)
        return items

    def _moving(self, before: Scene, after: Scene, part: float, carded: bool) -> list[Patch]:
        items: list[Patch] = []
        new = {placed.name: placed for placed in after.placed}
        for placed in before.placed:
            if placed.name not in new:
                items += [faded(item, 1 - part) for item in self._picture(placed, carded)]
        old = {placed.name: placed for placed in before.placed}
        for placed in after.placed:
            was = old.get(placed.name)
            if was == placed:
                items += self._picture(placed, carded)
            elif was is None:
                items += [faded(item, part) for item in self._picture(placed, carded)]
            else:
                items += self._between(was, placed, part, carded)
        return items

    def _between(self, was: Placed, now: Placed, part: float, carded: bool) -> tuple[Patch, ...]:
        """A picture on the way from one place and state to another."""
        return self._drawn(*_way(_thing(was), _thing(now), part), carded)

    def _picture(self, placed: Placed, carded: bool) -> tuple[Patch, ...]:
        key = (placed, carded)
        if key not in self._patches:
            drawing = padded(placed.picture.drawing(), placed.size)
            self._keep(key, self._drawn(drawing, placed.box, placed.scale, carded))
        self._patches.move_to_end(key)
        return self._patches[key]

    def _drawn(self, drawing: Drawing, box: Rect, scale: float, carded: bool) -> tuple[Patch, ...]:
        """A drawing in its box, on paper; with `carded`, on a card of paper with round corners and some room."""
        with _painting:
            image = paint(drawing, self.theme, scale=scale)
        room = places.card_room(self.settings, scale) if carded else 0
        x, y, w, h = box[0] - room, box[1] - room, box[2] + 2 * room, box[3] + 2 * room
        ground = Image.new("RGBA", (w, h), self.theme.colour("paper"))
        ground.alpha_composite(image.crop((0, 0, min(image.width, box[2]), min(image.height, box[3]))), (room, room))
        rgb = np.asarray(ground.convert("RGB"))
        if not carded:
            return (patch(rgb, x, y),)
        alpha = self._card_alpha(w, h, room)
        return split(patch(rgb, x, y, alpha), places.even(room))

    def _card_alpha(self, width: int, height: int, radius: int) -> np.ndarray[Any, Any]:
        with _painting:
            image = paint(Drawing(width, height, (_card(width, height, radius, "paper"),)), self.theme)
        return np.asarray(image)[:, :, 3]

    def _title(self, title: Title) -> tuple[Patch, ...]:
        key = title
        if key not in self._patches:
            w, h = self.settings.width, self.settings.height
            unit = self.settings.unit
            self._keep(key, self._drawn(title_drawing(title, w / unit, h / unit), (0, 0, w, h), unit, False))
        return self._patches[key]

    def _waiting(self, waiting: Waiting, carded: bool) -> tuple[Patch, ...]:
        key = (waiting, carded)
        if key not in self._patches:
            drawing, box = self._ring(waiting)
            self._keep(key, self._drawn(drawing, box, box[3] / drawing.height, carded))
        return self._patches[key]

    def _ring(self, waiting: Waiting) -> tuple[Drawing, Rect]:
        """The drawing of a wait, and its place."""
        drawing = waiting_drawing(waiting, self.settings.width / self.settings.unit - 120)
        return drawing, places.wait_place(self.settings, drawing.width, drawing.height)

    def _keep(self, key: Any, made: tuple[Patch, ...]) -> None:
        self._patches[key] = made
        while len(self._patches) > _KEPT_PATCHES:
            self._patches.popitem(last=False)


# --- drawings of the film's own ---------------------------------------------------------------------------------------


def title_drawing(title: Title, width: float, height: float) -> Drawing:
    """A title card of `width` × `height` units."""
    shapes: list[AnyShape] = []
    size, room, middle = 132.0, width - 200, width / 2
    lines = wrapped(title.title, size, room)
    while (len(lines) > 3 or any(text_width(line, size) > room for line in lines)) and size > 48:
        size -= 6
        lines = wrapped(title.title, size, room)
    step = size * 1.25
    above_size = min(56.0, 56.0 * room / max(1.0, text_width(title.above, 56.0)))
    top = height / 2 - step * len(lines) / 2 + (30 if title.above else -20)
    if title.above:
        shapes.append(
            Words(role="label", key="above", x=middle, y=top - 50, text=title.above, size=above_size, fill="quiet")
        )
    for number, line in enumerate(lines):
        y = top + step * number + size * 0.85
        shapes.append(Words(role="title", key=f"title {number}", x=middle, y=y, text=line, size=size, fill="ink"))
    foot = top + step * len(lines) + 70
    for number in range(5):
        fill: Ink = "first" if number % 2 == 0 else "second"
        x = middle + (number - 2) * 64
        shapes.append(Disc(role="decoration", key=f"pebble {number}", x=x, y=foot, radius=15, fill=fill))
    return Drawing(width, height, tuple(shapes))


def waiting_drawing(waiting: Waiting, room: float) -> Drawing:
    """The ring of beads, of which one goes out about each second, with a pause sign in it and the words beside it, at
    most `room` units wide."""
    radius, bead = 62.0, 10.0
    centre = radius + bead + 4
    shapes: list[AnyShape] = []
    for number in range(waiting.total):
        angle = -pi / 2 + 2 * pi * (number + 0.5) / waiting.total
        left = number >= waiting.total - waiting.left
        shapes.append(
            Disc(
                role="bead",
                key=f"bead {number}",
                x=centre + radius * cos(angle),
                y=centre + radius * sin(angle),
                radius=bead if left else bead * 0.45,
                fill="quiet" if left else "light",
            )
        )
    for number, x in enumerate((centre - 24, centre + 8)):
        shapes.append(
            Box(role="sign", key=f"pause {number}", x=x, y=centre - 25, width=16, height=50, fill="quiet", corner=5)
        )
    width = 2 * centre
    if waiting.words:
        size = 60.0
        room = min(1100.0, room - width - 40)
        lines = wrapped(waiting.words, size, room)
        while (len(lines) > 2 or any(text_width(line, size) > room for line in lines)) and size > 36:
            size -= 4
            lines = wrapped(waiting.words, size, room)
        height = size * 1.2
        top = centre - height * len(lines) / 2
        for number, line in enumerate(lines):
            y = top + height * number + size * 0.9
            shapes.append(
                Words(
                    role="invitation",
                    key=f"line {number}",
                    x=width + 30,
                    y=y,
                    text=line,
                    size=size,
                    fill="ink",
                    align="left",
                )
            )
        width += 40 + max(text_width(line, size) for line in lines)
    return Drawing(ceil(width), 2 * centre, tuple(shapes))


@lru_cache(maxsize=8)
def _card(width: float, height: float, radius: float, fill: Ink) -> Box:
    return Box(role="card", key="card", x=0, y=0, width=width, height=height, fill=fill, corner=radius)


# --- pixels -----------------------------------------------------------------------------------------------------------


def _thing(placed: Placed) -> Thing:
    return Thing(padded(placed.picture.drawing(), placed.size), placed.box, placed.scale)


def _room(was: Thing, now: Thing) -> Size:
    return (max(was.drawing.width, now.drawing.width), max(was.drawing.height, now.drawing.height))


def _way(was: Thing, now: Thing, part: float) -> tuple[Drawing, Rect, float]:
    """A picture on the way from one place and state to another."""
    moment = 1 - (1 - part) ** (1 / 3)  # `between` eases by itself; `part` is how far things are to be
    drawing = between(padded(was.drawing, _room(was, now)), padded(now.drawing, _room(was, now)), moment)
    if was.box == now.box:
        return drawing, now.box, now.scale
    x, y, w, h = (a + (b - a) * part for a, b in zip(was.box, now.box, strict=True))
    box = (places.even(x), places.even(y), places.even(w + 1.99), places.even(h + 1.99))
    return drawing, box, was.scale + (now.scale - was.scale) * part


def _place(was: Thing | None, now: Thing | None, parts: Sequence[float]) -> Rect | None:
    """Where a thing that changes is to be seen."""
    thing = now or was
    assert thing is not None
    found: Bounds | None = None
    if was is None or now is None:
        for shape in thing.drawing.shapes:
            found = around(found, bounds(shape))
    elif was.box == now.box and was.scale == now.scale:
        before = padded(was.drawing, _room(was, now))
        for drawing in [_way(was, now, part)[0] for part in parts] if now.moves else [now.drawing]:
            found = around(found, changed(before, drawing))
    else:
        return _hull(was.box, now.box)
    if found is None:
        return None
    left, top, right, bottom = in_pixels(found, thing.scale, *thing.box[:2])
    x, y, w, h = thing.box
    left, top = max(x, left // 2 * 2), max(y, top // 2 * 2)
    right, bottom = min(x + w, -(-right // 2) * 2), min(y + h, -(-bottom // 2) * 2)
    return (left, top, right - left, bottom - top) if right > left and bottom > top else None


def _hull(one: Rect, other: Rect) -> Rect:
    """The rectangle round two."""
    x, y = min(one[0], other[0]), min(one[1], other[1])
    right, bottom = max(one[0] + one[2], other[0] + other[2]), max(one[1] + one[3], other[1] + other[3])
    return (x, y, right - x, bottom - y)


def _meet(one: Rect, other: Rect) -> bool:
    return (
        one[0] < other[0] + other[2]
        and other[0] < one[0] + one[2]
        and one[1] < other[1] + other[3]
        and other[1] < one[1] + one[3]
    )


def _fitted(size: tuple[int, int], place: Rect) -> Rect:
    """The largest even rectangle with the shape of `size` in the middle of `place`."""
    x, y, w, h = place
    scale = min(w / size[0], h / size[1])
    width, height = min(w, places.even(size[0] * scale)), min(h, places.even(size[1] * scale))
    return (x + places.even((w - width) / 2), y + places.even((h - height) / 2), width, height)


def _plain(her: VideoFrame) -> bool:
    """Whether her picture is as the film's: 4:2:0 in 8 bits, BT.709 in limited range (or nothing else is said)."""
    return her.format.name == "yuv420p" and her.color_range != 2 and her.colorspace in (1, 2)


def _scaled(her: VideoFrame, width: int, height: int) -> VideoFrame:
    """Her picture at a size, as BT.709 in limited range."""
    return her.reformat(
        width=width, height=height, format="yuv420p", dst_colorspace=1, dst_color_range=1, interpolation="BILINEAR"
    )


def _filled(her: VideoFrame, width: int, height: int) -> Planes:
    """The middle of her picture, filling width × height."""
    scale = max(width / her.width, height / her.height)
    full_width, full_height = places.even(her.width * scale + 1.99), places.even(her.height * scale + 1.99)
    luma, blue, red = planes(_scaled(her, full_width, full_height))
    x, y = places.even((full_width - width) / 2), places.even((full_height - height) / 2)
    return (
        luma[y : y + height, x : x + width],
        blue[y // 2 : (y + height) // 2, x // 2 : (x + width) // 2],
        red[y // 2 : (y + height) // 2, x // 2 : (x + width) // 2],
    )


def _put_at(target: Planes, source: Planes, place: Rect) -> None:
    x, y, w, h = place
    target[0][y : y + h, x : x + w] = source[0]
    for below, above in zip(target[1:], source[1:], strict=True):
        below[y // 2 : (y + h) // 2, x // 2 : (x + w) // 2] = above
