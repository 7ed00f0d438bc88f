"""Frames of the finished film, small, for the report."""

from __future__ import annotations

import base64
import io
from collections.abc import Iterable
from pathlib import Path

SIDE = 480
"""The longer side of a frame, in pixels."""


def film_frames(film: Path, times: Iterable[float]) -> dict[float, str]:
    """The frame that is on the screen at each of the times (seconds), as a data URL of a JPEG.

    A time that the film does not reach, or a film that cannot be read, gives nothing: a report is worth having
    without its frames.
    """
    import av

    wanted = sorted(set(times))
    found: dict[float, str] = {}
    if not wanted or not film.is_file():
        return found
    try:
        with av.open(str(film)) as container:
            stream = container.streams.video[0]
            stream.thread_type = "AUTO"
            for time in wanted:
                assert stream.time_base is not None
                container.seek(int(time / stream.time_base), stream=stream)
                picture = None
                for frame in container.decode(stream):
                    if frame.time is not None and frame.time > time + 1e-3 and picture is not None:
                        break
                    picture = frame
                    if frame.time is not None and frame.time > time:
                        break
                if picture is not None:
                    buffer = io.BytesIO()
                    scale = min(SIDE / picture.width, SIDE / picture.height)
                    size = (round(picture.width * scale), round(picture.height * scale))
                    image = picture.to_image(width=size[0], height=size[1])  # type: ignore[no-untyped-call]
                    image.save(buffer, "JPEG", quality=80)
                    found[time] = "data:image/jpeg;base64," + base64.b64encode(buffer.getvalue()).decode()
    except (av.FFmpegError, OSError, IndexError):
        return found
    return found
