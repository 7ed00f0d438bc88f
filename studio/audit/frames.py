"""Frames of a film at given times, by PyAV alone: nothing here knows how the film was made."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import av
import numpy as np
from av.error import FFmpegError

from studio.errors import UnusableInput
from studio.files import media_name


def frames_at(path: Path, times: Sequence[float]) -> Iterator[np.ndarray[Any, Any]]:
    """The frame (RGB, height × width × 3) that a player shows at each of the rising `times`, in seconds."""
    try:
        with av.open(media_name(path)) as container:
            stream = container.streams.video[0]
            stream.codec_context.thread_count = 2
            base = stream.time_base
            assert base is not None
            frames: Iterator[Any] = iter(())
            now: Any = None
            following: Any = None
            for time in times:
                far = following is None or time - float(following.pts * base) > 6
                if far or time < float((now or following).pts * base):
                    container.seek(int(time / base), stream=stream)
                    frames = container.decode(stream)
                    now, following = None, next(frames, None)
                while following is not None and float(following.pts * base) <= time + 1e-6:
                    now, following = following, next(frames, None)
                if now is None:
                    raise UnusableInput(f"the film shows nothing at {time:.2f} s; build the kit again.", str(path))
                yield now.to_ndarray(format="rgb24")
    except (FFmpegError, OSError, IndexError) as error:
        raise UnusableInput("the film cannot be opened; build the kit again.", str(path)) from error
