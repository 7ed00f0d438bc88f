"""Sound and picture against each other: a recording that flashes and beeps at each whole second, and when the film does.

Everything is read back by PyAV; nothing here knows how the film was made.
"""

from __future__ import annotations

import subprocess
from dataclasses import dataclass
from pathlib import Path

import av
import imageio_ffmpeg
import numpy as np

from studio.timing.cuesheet import CueSheet

LASTS = 0.1  # seconds


def flashing(path: Path, seconds: float, size: str = "320x180") -> Path:
    """A recording that is white and beeps for a tenth of each second, and else is black and all but silent."""
    picture = f"color=black:s={size}:r=30,drawbox=color=white:t=fill:enable='lt(mod(t+0.001,1),{LASTS})'"
    sound = f"aevalsrc='if(lt(mod(t,1),{LASTS}),0.4*sin(2*PI*800*t),0.0005*sin(t*3000))':s=48000"
    command = [imageio_ffmpeg.get_ffmpeg_exe(), "-v", "error", "-y", "-f", "lavfi", "-i", picture, "-f", "lavfi", "-i"]
    command += [sound, "-t", f"{seconds:.2f}", "-c:v", "libx264", "-preset", "ultrafast", "-g", "30", "-c:a", "aac"]
    subprocess.run([*command, str(path)], check=True)
    return path


@dataclass(frozen=True)
class Apart:
    """For each whole second of the recording that is in the film: its film time, and how many seconds after it the film
    flashes and beeps."""

    times: list[float]
    flash: list[float]
    beep: list[float]

    def most(self, last: float = float("inf")) -> float:
        """The most that flash and beep are apart (seconds), in the `last` seconds of the film."""
        rows = zip(self.times, self.flash, self.beep, strict=True)
        return max(abs(flash - beep) for time, flash, beep in rows if time > self.times[-1] - last)


def apart(film: Path, sheet: CueSheet) -> Apart:
    """Compare the film with its cue sheet."""
    with av.open(str(film)) as container:
        stream = container.streams.video[0]
        stream.codec_context.thread_count = 2
        assert stream.time_base is not None
        shown = [
            (float((frame.pts or 0) * stream.time_base), float(np.frombuffer(frame.planes[0], np.uint8)[::97].mean()))
            for frame in container.decode(stream)
        ]
    with av.open(str(film)) as container:
        levels = [np.abs(frame.to_ndarray()[0]) > 0.05 for frame in container.decode(audio=0)]
    loud = np.concatenate(levels)
    times, bright = np.array([time for time, _ in shown]), np.array([level for _, level in shown]) > 130
    flashes = times[1:][bright[1:] & ~bright[:-1]]
    # A beep begins where it has been quiet for a tenth of a second.
    at = np.flatnonzero(loud)
    beeps = at[np.diff(at, prepend=-48000) > 4800] / 48000
    result = Apart([], [], [])
    for piece in sheet.pieces:
        if piece.source is None:
            continue
        for second in range(int(piece.source + 0.2) + 1, int(piece.source + piece.duration - LASTS)):
            time = piece.start + second - piece.source
            result.times.append(time)
            result.flash.append(float(flashes[np.argmin(np.abs(flashes - time))]) - time)
            result.beep.append(float(beeps[np.argmin(np.abs(beeps - time))]) - time)
    return result
