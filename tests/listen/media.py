"""Media files for tests, written with PyAV."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

import av
import numpy as np
from numpy.typing import NDArray

from studio.listen.recording import RATE

CODECS = {
    ".wav": "pcm_s16le", ".mp3": "libmp3lame", ".m4a": "aac", ".mp4": "aac", ".mov": "aac", ".webm": "libopus",
    ".ogg": "libopus", ".avi": "pcm_s16le",
}  # fmt: skip
PICTURES = {".mp4": "libx264", ".mov": "libx264", ".webm": "libvpx"}


def tone(seconds: float, level: float = 0.3, pitch: float = 220.0) -> NDArray[np.int16]:
    times = np.arange(round(seconds * RATE)) / RATE
    return (np.sin(2 * np.pi * pitch * times) * level * 32767).astype(np.int16)


def write_media(
    path: Path, samples: NDArray[np.int16] | None, picture: bool = False, size: tuple[int, int] = (64, 48),
    uneven: bool = False, sound_late: float = 0.0, seconds: float = 2.0,
) -> Path:  # fmt: skip
    """A media file of the kind its suffix names. `uneven`: a variable frame rate; `samples` may be None."""
    with av.open(str(path), "w") as container:
        rate = 48_000 if path.suffix in (".webm", ".ogg") else RATE
        video: Any = None
        audio: Any = None
        if picture:
            video = container.add_stream(PICTURES[path.suffix], rate=25)
            video.width, video.height = size
            video.pix_fmt = "yuv420p"
            video.codec_context.time_base = Fraction(1, 1000)
        if samples is not None:
            audio = container.add_stream(CODECS[path.suffix], rate=rate)
            audio.layout = "mono"
        if video is not None:
            time = 0
            step = 0
            while time < seconds * 1000:
                image = np.full((size[1], size[0], 3), (step * 7) % 255, np.uint8)
                frame = av.VideoFrame.from_ndarray(image, format="rgb24")
                frame.pts, frame.time_base = time, Fraction(1, 1000)
                container.mux(video.encode(frame))
                step += 1
                time += (20, 90, 33)[step % 3] if uneven else 40
            container.mux(video.encode())
        if audio is not None and samples is not None:
            resampler = av.AudioResampler(format=audio.codec_context.format, layout="mono", rate=rate)
            for at in range(0, len(samples), 1024):
                frame = av.AudioFrame.from_ndarray(samples[None, at : at + 1024], format="s16", layout="mono")
                frame.sample_rate = RATE
                frame.time_base = Fraction(1, RATE)
                frame.pts = at + round(sound_late * RATE)
                for piece in resampler.resample(frame):
                    container.mux(audio.encode(piece))
            for piece in resampler.resample(None):
                container.mux(audio.encode(piece))
            container.mux(audio.encode())
    return path
