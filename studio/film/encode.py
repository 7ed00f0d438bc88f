"""H.264 that can be joined without encoding again, and still pictures that cost one encoded frame.

Every encoder is opened with the same parameters of the stream (x264's `stitchable`), so the parts of a film share one
set of stream headers and stand one after the other. There are no B-frames: decoding order is showing order, every time
stamp is the frame's number, and the start of a group is itself a whole group.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any

import av
import numpy as np
from av.video.frame import VideoFrame

from studio.film.settings import FilmSettings

_LIVE_GROUP_SECONDS = 5


@dataclass(frozen=True, slots=True)
class Coded:
    """One encoded frame: the bytes of its packet and whether a player can start there."""

    data: bytes
    key: bool


def x264_params(settings: FilmSettings) -> str:
    """The parameters that all parts of a film share; those of the stream headers among them."""
    return f"stitchable=1:keyint={_LIVE_GROUP_SECONDS * settings.fps}:bframes=0:threads=1"


def set_up(context: Any, settings: FilmSettings, *, region: tuple[int, int] | None = None) -> None:
    """Give a codec context the parameters of a film's stream. `region` is the width and height of a part of a picture
    that stands, which is encoded by itself, each row of macroblocks a slice."""
    context.width, context.height = region or (settings.width, settings.height)
    context.pix_fmt = "yuv420p"
    context.time_base = Fraction(1, settings.fps)
    context.framerate = Fraction(settings.fps)
    context.thread_count = 1
    context.color_range = 1  # limited
    context.color_primaries = context.color_trc = context.colorspace = 1  # BT.709
    params = x264_params(settings)
    quality = settings.quality
    if region:
        quality = settings.still_quality
        # Rate decisions that look ahead have nothing to look at in a few frames.
        params += ":rc-lookahead=0:mbtree=0:sync-lookahead=0:scenecut=0"
        # A small picture that is all edges would get fewer bits for each than in its frame.
        params += f":slice-max-mbs={-(-region[0] // 16)}:qpmax=18"
    context.options = {"preset": settings.preset, "crf": str(quality), "x264-params": params}
    context.flags |= 1 << 22  # stream headers apart from the frames (AV_CODEC_FLAG_GLOBAL_HEADER)


class Encoder:
    """One H.264 encoder; frames go in in order, packets come out in the same order."""

    def __init__(self, settings: FilmSettings, *, region: tuple[int, int] | None = None) -> None:
        context = av.CodecContext.create("libx264", "w")
        set_up(context, settings, region=region)
        self._context = context
        self._count = 0
        context.open()

    @property
    def headers(self) -> bytes:
        return bytes(self._context.extradata or b"")

    def encode(self, frame: VideoFrame, *, alone: bool = False) -> list[Coded]:
        """The frames that are encoded by now; `alone`: this one refers to no other."""
        frame.pts = self._count
        frame.time_base = self._context.time_base
        frame.pict_type = 1 if alone else 0
        self._count += 1
        return [Coded(bytes(packet), packet.is_keyframe) for packet in self._context.encode(frame)]

    def finish(self) -> list[Coded]:
        return [Coded(bytes(packet), packet.is_keyframe) for packet in self._context.encode(None)]


def encode_all(frames: Iterable[VideoFrame], settings: FilmSettings) -> Iterator[Coded]:
    """Encode frames as one closed run of groups."""
    encoder = Encoder(settings)
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
