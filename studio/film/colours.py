"""Recordings with a high dynamic range (HLG or PQ, BT.2020) as the film shows them: 8 bits, BT.709.

Phones record so unless told otherwise. White paper, which such a recording holds at 203 cd/m² (ITU-R BT.2408), becomes
nearly the film's white; what is brighter is pressed together above it, so that faces and paper look as they do in an
ordinary recording. The curve is one table of colours, which FFmpeg's `lut3d` applies to every frame.
"""

from __future__ import annotations

import tempfile
from functools import lru_cache
from pathlib import Path
from typing import Any

import av.filter
import numpy as np
from av.video.frame import VideoFrame

PQ, HLG = 16, 18  # color_trc, as in ITU-T H.273
_WHITE = 203.0  # cd/m²: the white of paper (BT.2408)
_KNEE = 0.8  # up to here light stays as it is
_STEPS = 33  # of the table, each way

Array = np.ndarray[Any, np.dtype[np.float64]]


def is_high(frame: VideoFrame) -> bool:
    """Whether a frame is of a high dynamic range."""
    return int(frame.color_trc) in (PQ, HLG)


def light_of(signal: Array, transfer: int) -> Array:
    """The light (cd/m²) of a display of 1000 cd/m² for the signal 0 to 1; red, green and blue last (ITU-R BT.2100)."""
    if transfer == PQ:
        root = signal ** (1 / 78.84375)
        pressed = np.maximum(root - 0.8359375, 0) / (18.8515625 - 18.6875 * root)
        light: Array = 10000 * pressed ** (1 / 0.1593017578125)
        return light
    a, b, c = 0.17883277, 0.28466892, 0.55991073
    scene = np.where(signal <= 0.5, signal**2 / 3, (np.exp((signal - c) / a) + b) / 12)
    whole = scene @ np.array([0.2627, 0.6780, 0.0593])
    display: Array = 1000 * scene * np.maximum(whole, 1e-9)[..., None] ** 0.2
    return display


def as_film(signal: Array, transfer: int) -> Array:
    """The BT.709 signal (0 to 1) for that of a recording with a high dynamic range."""
    light = light_of(signal, transfer) / _WHITE
    whole = light @ np.array([0.2627, 0.6780, 0.0593])
    room = 1 - _KNEE
    pressed = np.where(whole <= _KNEE, whole, _KNEE + room * (1 - np.exp(-(whole - _KNEE) / room)))
    light = light * (pressed / np.maximum(whole, 1e-9))[..., None]
    # From the primaries of BT.2020 to those of BT.709 (ITU-R BT.2087).
    matrix = np.array([[1.6605, -0.5876, -0.0728], [-0.1246, 1.1329, -0.0083], [-0.0182, -0.1006, 1.1187]])
    found: Array = np.clip(light @ matrix.T, 0, 1) ** (1 / 2.4)  # ITU-R BT.1886
    return found


@lru_cache(maxsize=2)
def _table(transfer: int) -> str:
    """The table in the text format that `lut3d` reads: red runs fastest."""
    steps = np.linspace(0, 1, _STEPS)
    blue, green, red = np.meshgrid(steps, steps, steps, indexing="ij")
    values = as_film(np.stack([red, green, blue], axis=-1).reshape(-1, 3), transfer)
    return f"LUT_3D_SIZE {_STEPS}\n" + "".join(f"{r:.5f} {g:.5f} {b:.5f}\n" for r, g, b in values)


class Softener:
    """Turns the frames of one recording into the film's colours, at `size` (width, height)."""

    def __init__(self, frame: VideoFrame, size: tuple[int, int]) -> None:
        with tempfile.TemporaryDirectory() as folder:  # the filter reads the table when it is set up
            table = Path(folder) / "table.cube"
            table.write_text(_table(int(frame.color_trc)), encoding="ascii")
            place = str(table).replace("\\", "/").replace(":", "\\:")
            graph = av.filter.Graph()
            nodes = [
                graph.add_buffer(
                    width=frame.width, height=frame.height, format=frame.format, time_base=frame.time_base
                ),
                graph.add("scale", f"{size[0]}:{size[1]}:flags=bilinear:in_color_matrix=bt2020nc:in_range=tv"),
                graph.add("format", "gbrp10le"),
                graph.add("lut3d", f"file='{place}':interp=trilinear"),
                graph.add("scale", "out_color_matrix=bt709:out_range=tv"),
                graph.add("format", "yuv420p"),
                graph.add("buffersink"),
            ]
            graph.link_nodes(*nodes).configure()
        self._graph = graph

    def soft(self, frame: VideoFrame) -> VideoFrame:
        """The frame in the film's colours."""
        time, base = frame.pts, frame.time_base
        self._graph.push(frame)
        result = self._graph.pull()
        assert isinstance(result, VideoFrame)
        result.pts, result.time_base = time, base
        result.color_range = result.colorspace = result.color_primaries = result.color_trc = 1
        return result
