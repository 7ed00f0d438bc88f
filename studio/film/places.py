"""Where things stand in the frame, for screens that are wide, square or tall.

The lowest part is kept for the player's captions: pictures end above it. In a wait nobody speaks, so the ring and the
invitation stand there.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from studio.film.scene import Arrange, Rect
from studio.film.settings import FilmSettings
from studio.pictures.layout import GAP, Area, Size, arrange
from studio.script.model import CameraMode

Sheet = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True)
class _Screen:
    """The places on a screen of `size`; others of about that shape are alike. `pictures` holds, for where her picture
    is, the regions in which pictures may stand: the one in which they come out larger is taken."""

    size: tuple[int, int]
    pictures: dict[CameraMode, tuple[Sheet, ...]]
    panel: Sheet
    wait: Sheet


_WIDE = _Screen(
    (1920, 1080),
    {
        "off": ((110, 70, 1700, 790),),
        "beside": ((70, 70, 1110, 790),),
        "full": ((1160, 80, 680, 760), (130, 560, 1660, 290)),
    },
    (1240, 90, 610, 762),
    (110, 880, 1700, 160),
)
_SQUARE = _Screen(
    (1080, 1080),
    {
        "off": ((60, 60, 960, 800),),
        "beside": ((60, 50, 960, 470),),
        "full": ((60, 590, 960, 290),),
    },
    (60, 550, 960, 350),
    (60, 920, 960, 130),
)
_TALL = _Screen(
    (1080, 1920),
    {
        "off": ((60, 160, 960, 1400),),
        "beside": ((60, 800, 960, 780),),
        "full": ((60, 1290, 960, 320),),
    },
    (60, 140, 960, 600),
    (60, 1660, 960, 180),
)
_LARGEST = 2.5  # pixels a unit of a picture where the film's own unit is a pixel: a ten frame fills two thirds


def even(value: float) -> int:
    """The even number at or below `value`."""
    return int(value) // 2 * 2


def _screen(settings: FilmSettings) -> _Screen:
    shape = settings.width / settings.height
    return _WIDE if shape > 1.3 else _SQUARE if shape > 0.77 else _TALL


def _scaled(rect: Sheet, settings: FilmSettings) -> Rect:
    size = _screen(settings).size
    across, down = settings.width / size[0], settings.height / size[1]
    return (even(rect[0] * across), even(rect[1] * down), even(rect[2] * across), even(rect[3] * down))


def arranging(settings: FilmSettings) -> Arrange:
    """How pictures are set in a film with these settings."""
    screen = _screen(settings)

    def places(sizes: Sequence[Size], mode: CameraMode) -> list[tuple[float, Rect]]:
        most = _LARGEST * settings.unit
        tried = [arrange(sizes, Area(*_scaled(region, settings)), scale=most) for region in screen.pictures[mode]]
        best = max(tried, key=lambda placed: min((place.scale for place in placed), default=0.0))
        return [
            (p.scale, (even(p.x), even(p.y), even(math.ceil(p.width) + 1), even(math.ceil(p.height) + 1))) for p in best
        ]

    return places


def panel(settings: FilmSettings) -> Rect:
    """The place of her picture beside the pictures."""
    return _scaled(_screen(settings).panel, settings)


def card_room(settings: FilmSettings, scale: float = math.inf) -> int:
    """How far a paper card reaches round a picture of that scale (two cards do not touch), and the radius of its
    corners."""
    return max(2, even(min(32 * settings.unit, GAP * scale / 2 - 3)))


def wait_place(settings: FilmSettings, width: float, height: float) -> Rect:
    """The place of the ring and the invitation, whose drawing is `width` × `height` units."""
    x, y, w, h = _scaled(_screen(settings).wait, settings)
    scale = min(w / width, h / height)
    wide, high = even(width * scale), even(height * scale)
    return (x + even((w - wide) / 2), y + even((h - high) / 2), wide, high)
