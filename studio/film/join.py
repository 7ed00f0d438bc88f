"""Spans, sound, captions and chapters into one MP4 file, without encoding anything again."""

from __future__ import annotations

import subprocess
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack
from dataclasses import dataclass
from fractions import Fraction
from math import inf
from pathlib import Path
from typing import Any

import av
import imageio_ffmpeg
from av.packet import Packet

from studio.files import media_name
from studio.film.encode import Coded, set_up
from studio.film.settings import FilmSettings
from studio.film.spans import unpack

_MILLI = Fraction(1, 1000)


class PartGone(Exception):
    """A part of the film is not in the store any more, or not whole."""


@dataclass(frozen=True, slots=True)
class Chapter:
    """A chapter; times in seconds."""

    title: str
    start: float
    end: float


def captions_file(srt: str, work: Path, duration: float) -> Path | None:
    """SubRip text as the timed text of MP4 (3GPP TS 26.245), made by FFmpeg in the folder `work`; None without text."""
    if "-->" not in srt:
        return None
    source, target = work / "captions.srt", work / "captions.mp4"
    source.write_text(srt, encoding="utf-8")
    command = [imageio_ffmpeg.get_ffmpeg_exe(), "-v", "error", "-i", str(source), "-t", f"{duration:.3f}"]
    command += ["-c:s", "mov_text", "-y", str(target)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    if done.returncode:
        raise RuntimeError(f"the captions could not be put into the film: {done.stderr[-300:]}")
    return target


def join(
    files: Sequence[Path],
    sound: Path,
    captions: Path | None,
    chapters: Sequence[Chapter],
    title: str,
    target: Path,
    settings: FilmSettings,
    progress: Callable[[float], None],
) -> int:
    """Write the film to `target`; returns its number of frames. Raises OSError (disk full) and PartGone."""
    count = 0
    with ExitStack() as stack:
        container = stack.enter_context(
            av.open(media_name(target), "w", format="mp4", options={"movflags": "+faststart"})
        )
        container.metadata["title"] = title
        video = container.add_stream("libx264", rate=settings.fps)
        set_up(video.codec_context, settings)
        others = []
        for file in (sound, captions):
            if file is not None:
                try:
                    source = stack.enter_context(av.open(str(file)))
                except (FileNotFoundError, ValueError) as error:
                    raise PartGone(str(file)) from error
                stream = container.add_stream_from_template(source.streams[0])
                others.append(_Other(source, stream))
        container.set_chapters(
            [
                {
                    "id": number,
                    "start": round(chapter.start * 1000),
                    "end": round(chapter.end * 1000),
                    "time_base": _MILLI,
                    "metadata": {"title": chapter.title},
                }
                for number, chapter in enumerate(chapters)
            ]
        )
        base = Fraction(1, settings.fps)
        for number, file in enumerate(files):
            for coded in _frames(file):
                for other in others:
                    other.up_to(count / settings.fps, container)
                packet = Packet(coded.data)
                packet.stream = video
                packet.time_base = base
                packet.pts = packet.dts = count
                packet.duration = 1
                packet.is_keyframe = coded.key
                container.mux_one(packet)
                count += 1
            progress((number + 1) / len(files))
        for other in others:
            other.up_to(inf, container)
    return count


def _frames(file: Path) -> list[Coded]:
    try:
        return unpack(file.read_bytes())
    except (FileNotFoundError, ValueError) as error:
        raise PartGone(str(file)) from error


class _Other:
    """The packets of sound or captions, handed over as the picture goes on."""

    def __init__(self, source: Any, stream: Any) -> None:
        self._packets: Iterator[Any] = (packet for packet in source.demux() if packet.dts is not None)
        self._stream = stream
        self._packet: Any = None
        self._time = 0.0
        self._step()

    def _step(self) -> None:
        self._packet = next(self._packets, None)
        if self._packet is not None:
            self._time = float(self._packet.dts * self._packet.time_base)

    def up_to(self, time: float, container: Any) -> None:
        """Hand over everything up to `time` in seconds."""
        while self._packet is not None and self._time <= time:
            self._packet.stream = self._stream
            container.mux_one(self._packet)
            self._step()
