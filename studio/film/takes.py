"""Where one take ends and the next begins: a short dissolve, made by MoviePy.

Both takes keep their length and their times, so sound and words stay where they were heard: the first take goes on with
its last frame, and the next begins early with its first.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import numpy as np
from av.video.frame import VideoFrame

if TYPE_CHECKING:
    from moviepy import VideoClip

HALF = 0.15
"""Seconds that a dissolve lasts on either side of the cut."""

Show = Callable[[float], VideoFrame]
"""The frame of a take at a time in it, in seconds; before its beginning the first, after its end the last."""


def dissolve(one: Show, end: float, other: Show) -> VideoClip:
    """The clip of 2 × HALF seconds in which the take `one`, which ends at `end`, becomes the take `other`, which is as
    large."""
    from moviepy import CompositeVideoClip, VideoClip, vfx

    length = 2 * HALF
    tail = VideoClip(lambda t: _pixels(one(min(end, end - HALF + t))), duration=length)
    head = VideoClip(lambda t: _pixels(other(max(0.0, t - HALF))), duration=length)
    return CompositeVideoClip([tail, head.with_effects([vfx.CrossFadeIn(length)])])


def frame_of(clip: VideoClip, time: float) -> VideoFrame:
    """The frame of a clip at `time` seconds in the film's colours."""
    pixels = np.ascontiguousarray(clip.get_frame(min(max(0.0, time), clip.duration - 1e-6)), np.uint8)
    return VideoFrame.from_ndarray(pixels, format="rgb24").reformat(
        format="yuv420p", src_colorspace=1, dst_colorspace=1, src_color_range=2, dst_color_range=1
    )


def _pixels(frame: VideoFrame) -> np.ndarray[Any, Any]:
    plain = frame.reformat(format="rgb24", dst_color_range=2)
    return plain.to_ndarray()
