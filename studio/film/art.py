"""Scenes as pixels: the painted regions of a frame, and frames put together from them and from her picture."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import ceil, cos, pi, sin
from typing import Any

import numpy as np
from av.video.frame import VideoFrame

from studio.film import places
from studio.film.changes import around, bounds, changed, in_pixels
from studio.film.encode import empty_frame, planes
from studio.film.scene import Placed, Rect, Scene, Title, Waiting
from studio.film.settings import FilmSettings
from studio.film.yuv import (
    Patch,
    Pixels,
    Plane,
    Planes,
    blended,
    compact,
    cut,
    faded,
    ground,
    paste,
    patch,
    put_ink,
    split,
    to_yuv,
)
from studio.pictures.layout import Size, padded
from studio.pictures.metrics import text_width, wrapped
from studio.pictures.motion import between
from studio.pictures.painters.pillow import paint, paint_on
from studio.pictures.shapes import AnyShape, Box, Disc, Drawing, Ink, Words
from studio.pictures.themes import Theme

_KEPT_PATCHES = 6


@dataclass(frozen=True, slots=True)
class Thing:
    """A drawing and its place in the frame; `moves` where it may do so gradually."""

    drawing: Drawing
    box: Rect
    scale: float
    moves: bool = True


@dataclass(frozen=True, slots=True)
class Way:
    """A thing as it was and as it will be; None where it was not or will not be there (one of them is)."""

    was: Thing | None
    now: Thing | None

    @property
    def either(self) -> Thing:
        thing = self.now or self.was
        assert thing is not None
        return thing

    @property
    def fades(self) -> bool:
        """Whether it comes or goes gradually."""
        return (self.was is None or self.now is None) and self.either.moves

    @property
    def turns(self) -> bool:
        """Whether it becomes another, or goes to another place, gradually."""
        return self.was is not None and self.now is not None and self.was != self.now and self.now.moves

    @property
    def stays(self) -> bool:
        """Whether it keeps its place and its size."""
        was, now = self.was, self.now
        return was is None or now is None or (was.box, was.scale) == (now.box, now.scale)

    def at(self, part: float) -> Thing | None:
        """The thing when it is `part` of the way; what does not turn is as it will be."""
        if not self.turns or part >= 1:
            return self.now
        assert self.was is not None and self.now is not None
        return _between(self.was, self.now, part)


@dataclass(frozen=True, slots=True)
class Change:
    """What happens in the rectangle `place` on the way from one scene to the next: things come, go, become others or
    stay."""

    place: Rect
    things: tuple[Way, ...]


@dataclass(frozen=True, slots=True)
class _Crossing:
    """The beginning and the end of a change without what turns, and things that travel, as large as they ever are."""

    change: Change
    before: Patch
    after: Patch
    travellers: dict[Way, VideoFrame]


class Artist:
    """Puts frames together. One for each thread."""

    def __init__(self, theme: Theme, settings: FilmSettings) -> None:
        self.theme = theme
        self.settings = settings
        self._patches: OrderedDict[Any, tuple[Patch, ...]] = OrderedDict()
        self._paper: dict[str, Planes] = {}
        self._last: tuple[Scene, Planes] | None = None
        self._crossing: _Crossing | None = None

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
            luma, blue, red = self._tones(ink)
            w, h = self.settings.width, self.settings.height
            self._paper[ink] = (
                np.full((h, w), luma, np.uint8),
                np.full((h // 2, w // 2), blue, np.uint8),
                np.full((h // 2, w // 2), red, np.uint8),
            )
        return self._paper[ink]

    def _tones(self, ink: Ink) -> tuple[int, int, int]:
        """A colour as luma, blue and red difference."""
        small = patch(ground(2, 2, self.theme.colour(ink))[0], 0, 0)
        return int(small.luma[0, 0]), int(small.blue[0, 0]), int(small.red[0, 0])

    # --- what changes -----------------------------------------------------------------------------------------------

    def changes(self, before: Scene, after: Scene, parts: Sequence[float]) -> list[Change] | None:
        """What changes on paper from one scene to the next, by way of the moments `parts` (see `frame`), in rectangles
        that do not meet. None where it is more than that: her picture is changed as well, or it is all new."""
        if "full" in (before.camera, after.camera) or before.camera != after.camera or before.title or after.title:
            return None
        old, new = self._things(before), self._things(after)
        ways = [Way(old.get(name), new.get(name)) for name in dict.fromkeys((*old, *new))]
        found: list[Rect] = []
        for way in ways:
            place = _seen(way, parts) if way.was != way.now else None
            while place is not None and (met := next((rect for rect in found if _meet(rect, place)), None)):
                found.remove(met)
                place = _hull(place, met)
            if place is not None:
                found.append(place)
        return [
            Change(place, tuple(w for w in ways if any(t is not None and _meet(t.box, place) for t in (w.was, w.now))))
            for place in found
        ]

    def moment(self, change: Change, part: float) -> Patch:
        """What stands in the place of a change when it is `part` of the way done."""
        x, y = change.place[:2]
        fades = any(way.fades for way in change.things)
        if part >= 1 or (not fades and all(way.stays or not way.turns for way in change.things)):
            return patch(self._standing(change.place, [way.at(part) for way in change.things]), x, y)
        if self._crossing is None or self._crossing.change != change:
            self._crossing = self._begun(change, fades)
        made = blended(self._crossing.before, self._crossing.after, part if fades else 0.0)
        for way in change.things:
            if way.turns:
                here = self._turning(way, part, self._crossing)
                inside = _common(change.place, (here.x, here.y, here.width, here.height))
                if inside is not None:
                    here = cut(here, inside)
                    put_ink(
                        (made.luma, made.blue, made.red),
                        replace(here, x=here.x - x, y=here.y - y),
                        self._tones("paper"),
                    )
        return made

    def _begun(self, change: Change, fades: bool) -> _Crossing:
        others = [way for way in change.things if not way.turns]
        x, y = change.place[:2]
        before = compact(to_yuv(self._standing(change.place, [w.was if w.fades else w.now for w in others])), x, y)
        after = before
        if fades:
            after = compact(to_yuv(self._standing(change.place, [way.now for way in others])), x, y)
        return _Crossing(change, before, after, {})

    def _turning(self, way: Way, part: float, crossing: _Crossing) -> Patch:
        """A thing on its way, on paper. One that travels is painted as large as it ever is, and reduced."""
        thing = way.at(part)
        assert thing is not None and way.was is not None and way.now is not None
        if way.stays:
            return patch(self._standing(thing.box, [thing]), *thing.box[:2])
        scale = max(way.was.scale, way.now.scale)
        source = crossing.travellers.get(way)
        if source is None:
            w, h = (places.even(length * scale + 1.99) for length in (thing.drawing.width, thing.drawing.height))
            source = to_yuv(self._standing((0, 0, w, h), [Thing(thing.drawing, (0, 0, w, h), scale)]))
            if way.was.drawing == way.now.drawing:
                crossing.travellers[way] = source
        w, h = (max(2, places.even(length * thing.scale / scale + 1)) for length in (source.width, source.height))
        return Patch(*thing.box[:2], *planes(source.reformat(width=w, height=h, interpolation="BILINEAR", threads=1)))

    def _standing(self, place: Rect, things: Sequence[Thing | None]) -> Pixels:
        """The pixels of a place in which things stand on paper."""
        x, y, w, h = place
        pixels, image = ground(w, h, self.theme.colour("paper"))
        for thing in things:
            if thing is not None:
                left, top = thing.box[:2]
                shapes = _inside(thing, place)
                paint_on(image, shapes, self.theme, scale=thing.scale, left=left - x, top=top - y)
        return pixels

    def _things(self, scene: Scene) -> dict[str, Thing]:
        things = {placed.name: _thing(placed) for placed in scene.placed}
        if scene.waiting is not None:
            things[""] = self._ring(scene.waiting)
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
            outside = 255 - self._card_alpha(2 * radius, 2 * radius, radius)
            pixels, _ = ground(2 * radius, 2 * radius, self.theme.colour("paper"))
            made = []
            for left, top in ((0, 0), (radius, 0), (0, radius), (radius, radius)):
                window = np.s_[top : top + radius, left : left + radius]
                at = (x + (w - radius if left else 0), y + (h - radius if top else 0))
                made.append(patch(pixels[window], *at, outside[window]))
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
        return self._drawn(_between(_thing(was), _thing(now), part), carded)

    def _picture(self, placed: Placed, carded: bool) -> tuple[Patch, ...]:
        key = (placed, carded)
        if key not in self._patches:
            self._keep(key, self._drawn(_thing(placed), carded))
        self._patches.move_to_end(key)
        return self._patches[key]

    def _drawn(self, thing: Thing, carded: bool) -> tuple[Patch, ...]:
        """A thing in its box, on paper; with `carded`, on a card of paper with round corners and some room."""
        x, y, w, h = thing.box
        pixels = self._standing(thing.box, [thing])
        if not carded:
            return (patch(pixels, x, y),)
        room = places.card_room(self.settings, thing.scale)
        w, h = w + 2 * room, h + 2 * room
        card, _ = ground(w, h, self.theme.colour("paper"))
        card[room : h - room, room : w - room] = pixels
        return split(patch(card, x - room, y - room, self._card_alpha(w, h, room)), places.even(room))

    def _card_alpha(self, width: int, height: int, radius: int) -> Plane:
        card = Drawing(width, height, (_card(width, height, radius, "paper"),))
        return np.ascontiguousarray(np.asarray(paint(card, self.theme))[:, :, 3])

    def _title(self, title: Title) -> tuple[Patch, ...]:
        key = title
        if key not in self._patches:
            unit = self.settings.unit
            size = (0, 0, self.settings.width, self.settings.height)
            drawing = title_drawing(title, self.settings.width / unit, self.settings.height / unit)
            box = _seen(Way(None, Thing(drawing, size, unit)), ()) or size
            self._keep(key, (patch(self._standing(box, [Thing(drawing, size, unit)]), *box[:2]),))
        return self._patches[key]

    def _waiting(self, waiting: Waiting, carded: bool) -> tuple[Patch, ...]:
        key = (waiting, carded)
        if key not in self._patches:
            self._keep(key, self._drawn(self._ring(waiting), carded))
        return self._patches[key]

    def _ring(self, waiting: Waiting) -> Thing:
        drawing = waiting_drawing(waiting, self.settings.width / self.settings.unit - 120)
        box = places.wait_place(self.settings, drawing.width, drawing.height)
        return Thing(drawing, box, box[3] / drawing.height, moves=False)

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


def _between(was: Thing, now: Thing, part: float) -> Thing:
    """A thing on the way from one place and state to another."""
    moment = 1 - (1 - part) ** (1 / 3)  # `between` eases by itself; `part` is how far things are to be
    drawing = between(padded(was.drawing, _room(was, now)), padded(now.drawing, _room(was, now)), moment)
    if was.box == now.box:
        return Thing(drawing, now.box, now.scale)
    x, y, w, h = (a + (b - a) * part for a, b in zip(was.box, now.box, strict=True))
    box = (places.even(x), places.even(y), places.even(w + 1.99), places.even(h + 1.99))
    return Thing(drawing, box, was.scale + (now.scale - was.scale) * part)


def _seen(way: Way, parts: Sequence[float]) -> Rect | None:
    """Where a thing that changes is to be seen, by way of the moments `parts`."""
    was, now, found = way.was, way.now, None
    if was is None or now is None:
        for shape in way.either.drawing.shapes:
            found = around(found, bounds(shape))
    elif way.stays:
        before = padded(was.drawing, _room(was, now))
        for thing in [_between(was, now, part) for part in parts] if now.moves else [now]:
            found = around(found, changed(before, thing.drawing))
    else:
        return _hull(was.box, now.box)
    if found is None:
        return None
    x, y, w, h = way.either.box
    left, top, right, bottom = in_pixels(found, way.either.scale, x, y)
    left, top = max(x, left // 2 * 2), max(y, top // 2 * 2)
    right, bottom = min(x + w, -(-right // 2) * 2), min(y + h, -(-bottom // 2) * 2)
    return (left, top, right - left, bottom - top) if right > left and bottom > top else None


def _inside(thing: Thing, place: Rect) -> list[AnyShape]:
    """The shapes of a thing of which something may be seen in a place."""
    x, y, w, h = place
    found = []
    for shape in thing.drawing.shapes:
        left, top, right, bottom = in_pixels(bounds(shape), thing.scale, *thing.box[:2])
        if left < x + w and right > x and top < y + h and bottom > y:
            found.append(shape)
    return found


def _hull(one: Rect, other: Rect) -> Rect:
    """The rectangle round two."""
    x, y = min(one[0], other[0]), min(one[1], other[1])
    right, bottom = max(one[0] + one[2], other[0] + other[2]), max(one[1] + one[3], other[1] + other[3])
    return (x, y, right - x, bottom - y)


def _common(one: Rect, other: Rect) -> Rect | None:
    """What two rectangles have in common."""
    x, y = max(one[0], other[0]), max(one[1], other[1])
    right, bottom = min(one[0] + one[2], other[0] + other[2]), min(one[1] + one[3], other[1] + other[3])
    return (x, y, right - x, bottom - y) if right > x and bottom > y else None


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
        width=width,
        height=height,
        format="yuv420p",
        dst_colorspace=1,
        dst_color_range=1,
        interpolation="BILINEAR",
        threads=1,
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
