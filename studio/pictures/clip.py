"""Pictures as MoviePy clips with a mask, to lay over any video.

from moviepy import CompositeVideoClip, VideoFileClip
from studio.pictures.clip import clip
from studio.pictures.draw import picture_of

frame = picture_of("ten frame: 7 dots")[0]
overlay = clip(frame, 6, changes=[(2.0, Add(2, "crosses", counting=True))], width=900)
CompositeVideoClip([VideoFileClip("lesson.mp4"), overlay.with_position((80, 60)).with_start(3)])
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from studio.pictures.base import Picture
from studio.pictures.layout import extent, padded
from studio.pictures.motion import DURATION, between
from studio.pictures.shapes import Drawing
from studio.pictures.themes import Theme, load_theme
from studio.script.model import Change

if TYPE_CHECKING:
    from moviepy import VideoClip
    from PIL import Image

BEAT = 0.8
"""Seconds between the steps of a change that counts."""


def clip(
    picture: Picture,
    duration: float,
    *,
    changes: Sequence[tuple[float, Change]] = (),
    theme: Theme | None = None,
    width: int | None = None,
    beat: float = BEAT,
) -> VideoClip:
    """The picture as a clip of `duration` seconds with a mask.

    `changes` begin at their seconds, in order of time; the steps of one that counts follow each other every `beat`
    seconds. `width` is in pixels (a pixel a unit unless given). Raises CannotShow for a change that cannot be.
    """
    import numpy as np
    from moviepy import VideoClip

    theme = theme or load_theme()
    times, pictures = [0.0], [picture]
    for start, change in changes:
        for number, step in enumerate(pictures[-1].steps(change)):
            times.append(start + number * beat)
            pictures.append(step.picture)
    drawings = [shown.drawing() for shown in pictures]
    space = extent(drawings)
    scale = width / space[0] if width else 1.0
    last: list[tuple[Drawing, Image.Image]] = []

    def image_at(t: float) -> Image.Image:
        from studio.pictures.painters.pillow import paint

        at = max(0, bisect_right(times, t + 1e-9) - 1)
        drawing = drawings[at]
        if at and t - times[at] < DURATION:
            drawing = between(drawings[at - 1], drawing, (t - times[at]) / DURATION, calm=theme.calm)
        drawing = padded(drawing, space)
        if not last or last[0][0] != drawing:
            last[:] = [(drawing, paint(drawing, theme, scale=scale))]
        return last[0][1]

    def colours(t: float) -> Any:
        return np.asarray(image_at(t))[..., :3]

    def opacity(t: float) -> Any:
        return np.asarray(image_at(t))[..., 3] / 255.0

    mask = VideoClip(opacity, is_mask=True, duration=duration)
    return VideoClip(colours, duration=duration).with_mask(mask)
