"""H.264 that can be joined without encoding again, and still pictures that cost one encoded frame.

Every encoder is opened with the same parameters of the stream (x264's `stitchable`), so the parts of a film share one
set of stream headers and stand one after the other. There are no B-frames: decoding order is showing order, every time
stamp is the frame's number, and the start of a group is itself a whole group.

A still picture is one IDR frame and then frames that say "as before". Such a frame does not depend on the picture: the
same bytes, taken once from a plain grey picture, follow any IDR frame of the same size and rate.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any

import av
import numpy as np
from av.video.frame import VideoFrame

from studio.film.settings import FilmSettings

GROUP_SECONDS = 2  # the length of a group of a still picture: how far a player has to look back
_LIVE_GROUP_SECONDS = 5


@dataclass(frozen=True, slots=True)
class Coded:
    """One encoded frame: the bytes of its packet and whether a player can start there."""

    data: bytes
    key: bool


def x264_params(settings: FilmSettings) -> str:
    """The parameters that all parts of a film share; those of the stream headers among them."""
    return f"stitchable=1:keyint={_LIVE_GROUP_SECONDS * settings.fps}:bframes=0:threads=1"


def set_up(context: Any, settings: FilmSettings, *, still: bool = False) -> None:
    """Give a codec context the parameters of a film's stream."""
    context.width, context.height, context.pix_fmt = settings.width, settings.height, "yuv420p"
    context.time_base = Fraction(1, settings.fps)
    context.framerate = Fraction(settings.fps)
    context.thread_count = 1
    context.color_range = 1  # limited
    context.color_primaries = context.color_trc = context.colorspace = 1  # BT.709
    params = x264_params(settings)
    if still:
        # Rate decisions that look ahead have nothing to look at in a few frames.
        params += ":rc-lookahead=0:mbtree=0:sync-lookahead=0:scenecut=0"
    quality = settings.still_quality if still else settings.quality
    context.options = {"preset": settings.preset, "crf": str(quality), "x264-params": params}
    context.flags |= 1 << 22  # stream headers apart from the frames (AV_CODEC_FLAG_GLOBAL_HEADER)


class Encoder:
    """One H.264 encoder; frames go in in order, packets come out in the same order."""

    def __init__(self, settings: FilmSettings, *, still: bool = False) -> None:
        context = av.CodecContext.create("libx264", "w")
        set_up(context, settings, still=still)
        self._context = context
        self._count = 0
        context.open()

    @property
    def headers(self) -> bytes:
        return bytes(self._context.extradata or b"")

    def encode(self, frame: VideoFrame) -> list[Coded]:
        frame.pts = self._count
        frame.time_base = self._context.time_base
        frame.pict_type = 0
        self._count += 1
        return [Coded(bytes(packet), packet.is_keyframe) for packet in self._context.encode(frame)]

    def finish(self) -> list[Coded]:
        return [Coded(bytes(packet), packet.is_keyframe) for packet in self._context.encode(None)]


def encode_all(frames: Iterable[VideoFrame], settings: FilmSettings, *, still: bool = False) -> Iterator[Coded]:
    """Encode frames as one closed run of groups."""
    encoder = Encoder(settings, still=still)
    for frame in frames:
        yield from encoder.encode(frame)
    yield from encoder.finish()


def empty_frame(settings: FilmSettings) -> VideoFrame:
    """A frame to draw into, with the colours' numbers said."""
    frame = VideoFrame(settings.width, settings.height, "yuv420p")
    frame.color_range = 1
    frame.colorspace = 1
    frame.color_primaries = 1
    frame.color_trc = 1
    return frame


def planes(frame: VideoFrame) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """The three planes of a yuv420p frame, to read and to write."""
    views = []
    for plane in frame.planes:
        rows = np.frombuffer(plane, np.uint8).reshape(plane.height, plane.line_size)  # type: ignore[call-overload]
        views.append(rows[:, : plane.width])
    return views[0], views[1], views[2]


@lru_cache(maxsize=4)
def stream_headers(settings: FilmSettings) -> bytes:
    """The stream headers (SPS and PPS) that every part of a film shares."""
    return Encoder(settings).headers


@lru_cache(maxsize=4)
def _as_before(settings: FilmSettings) -> tuple[Coded, ...]:
    """The frames of a group, after its first, in which nothing changes."""
    grey = empty_frame(settings)
    for plane in planes(grey):
        plane[:] = 128
    group = list(encode_all((grey for _ in range(GROUP_SECONDS * settings.fps)), settings, still=True))
    if [coded.key for coded in group] != [True] + [False] * (len(group) - 1):
        raise RuntimeError("the encoder broke a group of still frames")
    return tuple(group[1:])


def hold(first: Coded, count: int, settings: FilmSettings) -> Iterator[Coded]:
    """`count` frames of a still picture whose encoded IDR frame is `first`."""
    rest = _as_before(settings)
    size = len(rest) + 1
    while count > 0:
        # Two IDR frames may not stand side by side with the same number (H.264, 7.4.3): no group of one frame is left.
        length = size - 1 if count == size + 1 else min(size, count)
        yield first
        yield from rest[: length - 1]
        count -= length


def hold_after(done: int, again: Callable[[], Coded], count: int, settings: FilmSettings) -> Iterator[Coded]:
    """`count` more frames of the picture with which a group of `done` frames ended. Where the group has no more room,
    `again` gives the picture's own IDR frame."""
    rest = _as_before(settings)
    size = len(rest) + 1
    inside = min(count, max(0, size - done))
    if inside == count - 1:
        inside -= 1  # no group of one frame is left (see `hold`)
    inside = max(0, inside)
    yield from rest[done - 1 : done - 1 + inside]
    if count > inside:
        yield from hold(again(), count - inside, settings)


def encode_still(frame: VideoFrame, settings: FilmSettings) -> Coded:
    """The IDR frame of a still picture."""
    (coded,) = encode_all([frame], settings, still=True)
    return coded
