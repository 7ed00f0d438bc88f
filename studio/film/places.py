"""Where things stand in the frame. Figures are for a frame of 1920 × 1080 and grow with it.

The lowest part is kept for the player's captions: pictures end above it. In a wait nobody speaks, so the ring and the
invitation stand there.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from studio.film.scene import Arrange, Rect
from studio.film.settings import FilmSettings
from studio.pictures.layout import Area, Size, arrange
from studio.script.model import CameraMode

_PICTURES: dict[CameraMode, tuple[int, int, int, int]] = {
    "off": (110, 70, 1700, 790),
    "beside": (70, 70, 1110, 790),
    "full": (1160, 80, 680, 760),
}
_LOWER = (130, 560, 1660, 290)  # over her picture, for pictures that are wide
_PANEL = (1240, 90, 610, 762)
_LARGEST = 2.5  # pixels a unit: a ten frame fills half the width
_WAIT = (110, 880, 1700, 160)


def even(value: float) -> int:
    """The even number at or below `value`."""
    return int(value) // 2 * 2


def _scaled(rect: tuple[int, int, int, int], settings: FilmSettings) -> Rect:
    across, down = settings.width / 1920, settings.height / 1080
    return (even(rect[0] * across), even(rect[1] * down), even(rect[2] * across), even(rect[3] * down))


def arranging(settings: FilmSettings) -> Arrange:
    """How pictures are set in a film with these settings. Over her picture they stand at one side, or low where they
    come out larger there."""

    def places(sizes: Sequence[Size], mode: CameraMode) -> list[tuple[float, Rect]]:
        regions = [_PICTURES[mode], _LOWER] if mode == "full" else [_PICTURES[mode]]
        most = _LARGEST * settings.height / 1080
        tried = [arrange(sizes, Area(*_scaled(region, settings)), scale=most) for region in regions]
        best = max(tried, key=lambda placed: placed[0].scale if placed else 0.0)
        return [
            (p.scale, (even(p.x), even(p.y), even(ceil(p.width) + 1), even(ceil(p.height) + 1))) for p in best
        ]

    return places


def panel(settings: FilmSettings) -> Rect:
    """The place of her picture beside the pictures."""
    return _scaled(_PANEL, settings)


def card_room(settings: FilmSettings) -> int:
    """How far a paper card reaches round its picture, and the radius of its corners."""
    return even(32 * settings.height / 1080)


def wait_place(settings: FilmSettings, width: float, height: float) -> Rect:
    """The place of the ring and the invitation, whose drawing is `width` × `height` units."""
    x, y, w, h = _scaled(_WAIT, settings)
    scale = min(w / width, h / height)
    wide, high = even(width * scale), even(height * scale)
    return (x + even((w - wide) / 2), y + even((h - high) / 2), wide, high)
