"""The teacher's recordings as frames at any time: decoded forward, entered at key frames."""

from __future__ import annotations

import json
import os
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import av
import numpy as np
from av.error import FFmpegError
from av.video.frame import VideoFrame

from studio.errors import UnusableInput
from studio.files import media_name
from studio.film.colours import Softener, is_high
from studio.film.encode import planes
from studio.film.sound import RATE, voice_file
from studio.film.takes import HALF, Show, dissolve, frame_of
from studio.store import Store, content_key, file_key

if TYPE_CHECKING:
    from moviepy import VideoClip

TICKS = 6_000_000  # a second; a frame of every frame rate is a whole number of them
_LOOK = ".seen.json"
_LARGE = 4_000_000  # pixels
_LATE = 24_000  # ticks by which a frame's time stamp may lie after the time that asks for it


@dataclass(frozen=True, slots=True)
class Footage:
    """One recording. Times are ticks; 0 is where the file starts, with its picture or with its sound.

    `size` is the size as shown (after rotation), None without a moving picture; `rotation` in degrees against the
    clock, a multiple of 90. `entries` are the times of key frames, `last` the time of the last frame and `duration`
    the length of the whole.
    """

    path: Path
    key: str
    size: tuple[int, int] | None
    rotation: int
    zero: int
    entries: tuple[int, ...]
    last: int
    duration: int
    sound: bool

    @property
    def large(self) -> bool:
        """Whether a decoder of it holds hundreds of megabytes."""
        return self.size is not None and self.size[0] * self.size[1] > _LARGE


def look_at(path: Path) -> Footage:
    """Read what a recording is. Raises UnusableInput with one sentence."""
    try:
        with av.open(media_name(path), metadata_errors="ignore") as container:
            videos = [s for s in container.streams.video if not _is_cover(s)]
            sounds = container.streams.audio
            if not videos and not sounds:
                raise UnusableInput("there is neither sound nor a moving picture in this file.", str(path))
            zero = round((container.start_time or 0) * TICKS / av.time_base)
            sound_end = 0
            entries: list[int] = []
            last = 0
            size, rotation = None, 0
            streams = [*videos[:1], *sounds[:1]]
            for packet in container.demux(streams):
                if packet.pts is None or packet.time_base is None:
                    continue
                time = round(packet.pts * packet.time_base * TICKS) - zero
                length = round((packet.duration or 0) * packet.time_base * TICKS)
                if packet.stream.type == "audio":
                    sound_end = max(sound_end, time + length)
                else:
                    last = max(last, time)
                    if packet.is_keyframe:
                        entries.append(time)
            if videos:
                container.seek(0)
                for frame in container.decode(videos[0]):
                    rotation = round(frame.rotation / 90) * 90 % 360
                    size = (frame.width, frame.height)
                    break
            if size and rotation % 180:
                size = (size[1], size[0])
    except (FFmpegError, OSError) as error:
        message = "this file cannot be read as a recording; is it a video or a sound file?"
        raise UnusableInput(message, str(path)) from error
    return Footage(
        path=path,
        key="",
        size=size,
        rotation=rotation,
        zero=zero,
        entries=tuple(sorted(entries)) or (0,),
        last=last,
        duration=sound_end if sounds else last,
        sound=bool(sounds),
    )


def _is_cover(stream: av.VideoStream) -> bool:
    """Whether a stream is only the cover picture of a sound file."""
    return bool(stream.disposition & av.stream.Disposition.attached_pic)


class Reader:
    """Frames of one recording at rising times, each the one that is on the screen at that time."""

    def __init__(self, footage: Footage) -> None:
        self._footage = footage
        self._container = av.open(media_name(footage.path), metadata_errors="ignore")
        self._stream = next(s for s in self._container.streams.video if not _is_cover(s))
        # Films are made several spans at a time, each with a reader. Of a large picture one is all there is room for.
        self._stream.codec_context.thread_count = min(4, os.cpu_count() or 1) if footage.large else 1
        self._stream.codec_context.thread_type = "AUTO"
        self._frames: Iterator[VideoFrame] = iter(())
        self._now: VideoFrame | None = None
        self._now_time = 0
        self._next: VideoFrame | None = None
        self._next_time = 0
        self._entered = False

    def close(self) -> None:
        self._container.close()

    def at(self, time: int) -> VideoFrame:
        """The frame at `time` (ticks); before the first the first, after the last the last."""
        if self._must_enter(time):
            self._enter(time)
        while self._next is not None and self._next_time <= time + _LATE:
            self._advance()
        if self._now is None:
            raise UnusableInput("the moving picture of this recording cannot be decoded.", str(self._footage.path))
        return self._now

    def _must_enter(self, time: int) -> bool:
        if not self._entered or self._now is None:
            return True
        if time + _LATE < self._now_time:
            return self._now_time > self._footage.entries[0]
        entry = self._entry(time)
        return entry > self._now_time + TICKS // 2 and self._next is not None and entry > self._next_time

    def _entry(self, time: int) -> int:
        entries = self._footage.entries
        return entries[max(0, bisect_right(entries, time + _LATE) - 1)]

    def _enter(self, time: int) -> None:
        entry = self._entry(time)
        for target in (entry, entry - 10 * TICKS, None):
            self._seek(target)
            if self._now is not None and self._now_time <= max(time + _LATE, self._footage.entries[0]):
                return

    def _seek(self, target: int | None) -> None:
        base = self._stream.time_base
        assert base is not None
        if target is None or target <= self._footage.entries[0]:
            self._container.seek(0) if self._entered else None
        else:
            self._container.seek(int((target + self._footage.zero) / TICKS / base), stream=self._stream)
        self._entered = True
        self._frames = self._decode()
        self._now = self._next = None
        self._advance()
        self._advance()

    def _decode(self) -> Iterator[VideoFrame]:
        """Frames in order; what is broken in the middle of a recording is passed over."""
        for packet in self._container.demux(self._stream):
            try:
                yield from packet.decode()
            except FFmpegError:
                continue

    def _advance(self) -> None:
        if self._next is not None:
            self._now, self._now_time = self._next, self._next_time
        for frame in self._frames:
            if frame.pts is None or frame.time_base is None:
                continue
            self._next = frame
            self._next_time = round(frame.pts * frame.time_base * TICKS) - self._footage.zero
            if self._now is None:
                self._now, self._now_time = self._next, self._next_time
            return
        self._next = None


@dataclass(frozen=True, slots=True)
class Reel:
    """Recordings one after the other; times run through all of them, in ticks."""

    takes: tuple[Footage, ...]

    @property
    def starts(self) -> tuple[int, ...]:
        starts, now = [], 0
        for take in self.takes:
            starts.append(now)
            now += take.duration
        return tuple(starts)

    def where(self, time: int) -> tuple[int, int]:
        """The number of the take that holds `time`, and the time in it."""
        starts = self.starts
        index = max(0, bisect_right(starts, time) - 1)
        return index, time - starts[index]

    def near(self, start: int, end: int) -> tuple[Footage, ...]:
        """The takes of which something is seen between two times: with a dissolve, a little before and after."""
        reach = round(HALF * TICKS)
        first, last = self.where(max(0, start - reach))[0], self.where(end + reach)[0]
        return self.takes[first : last + 1]

    def cut_at(self, time: int) -> int | None:
        """The number of the take that begins with the dissolve that is on at `time`, if there is one: between takes
        that are equally large."""
        for number, start in enumerate(self.starts):
            if number and abs(time - start) < HALF * TICKS:
                size = self.takes[number].size
                return number if size is not None and size == self.takes[number - 1].size else None
        return None

    @property
    def picture(self) -> bool:
        return any(take.size for take in self.takes)

    @property
    def large(self) -> bool:
        return any(take.large for take in self.takes)


def look_at_all(paths: Sequence[Path], store: Store, work: Path) -> Reel:
    """The recordings as a reel. Their times are counted by the samples of their sound (a take without sound is as long
    as its picture). What was found out about a file is kept in the store; sound that had to be decoded for it stands
    in `work`."""
    takes = []
    for path in paths:
        key = _file_key(path, store)
        kept = store.get(key, _LOOK)
        take = _from_json(path, key, kept) if kept is not None else None
        if take is None:
            take = replace(look_at(path), key=key)
            if take.sound:
                samples = voice_file(path, work).stat().st_size // 2
                take = replace(take, duration=samples * (TICKS // RATE))
            values = {name: value for name, value in asdict(take).items() if name not in ("path", "key")}
            store.put_bytes(key, _LOOK, json.dumps(values).encode())
        takes.append(take)
    return Reel(tuple(takes))


def _from_json(path: Path, key: str, kept: Path) -> Footage | None:
    try:
        values = json.loads(kept.read_text(encoding="utf-8"))
        size = values.pop("size")
        return Footage(
            path=path,
            key=key,
            size=tuple(size) if size else None,
            entries=tuple(values.pop("entries")),
            **values,
        )
    except (OSError, ValueError, TypeError, KeyError):
        return None


def _file_key(path: Path, store: Store) -> str:
    """The content key of a file. It is kept under the file's name, size and time, so that a large recording is not
    read whole for every build."""
    try:
        status = path.stat()
        if path.is_dir():
            raise UnusableInput("this is a folder; name the media file in it.", str(path))
        name = content_key("file", str(path.resolve()), status.st_size, status.st_mtime_ns)
        kept = store.get(name, ".key")
        key = kept.read_text() if kept is not None else ""
        if len(key) != 64:
            key = file_key(path)
            store.put_bytes(name, ".key", key.encode())
    except FileNotFoundError as error:
        raise UnusableInput("there is no such file; check the name and the folder.", str(path)) from error
    return key


class ReelReader:
    """Frames of a reel at any time, the right way up. One for each thread. Frames that are worked on for that are first
    made no larger than it takes to fill `size` (width, height)."""

    def __init__(self, reel: Reel, size: tuple[int, int]) -> None:
        self._reel = reel
        self._size = size
        self._readers: dict[int, Reader] = {}
        self._softeners: dict[int, Softener] = {}
        self._last: tuple[VideoFrame, VideoFrame] | None = None
        self._cuts: dict[int, VideoClip] = {}

    def close(self) -> None:
        for reader in self._readers.values():
            reader.close()

    def at(self, time: int) -> VideoFrame | None:
        """The frame at `time` (ticks), or None where that take has no moving picture."""
        cut = self._reel.cut_at(time)
        if cut is not None:
            return self._dissolved(cut, time)
        index, inside = self._reel.where(time)
        return self._taken(index, inside) if self._reel.takes[index].size is not None else None

    def _taken(self, index: int, inside: int) -> VideoFrame:
        """The frame of one take, the right way up and in the film's colours."""
        take = self._reel.takes[index]
        if index not in self._readers:
            self._readers[index] = Reader(take)
        frame = self._readers[index].at(inside)
        if not take.rotation and not is_high(frame):
            return frame
        if self._last is None or self._last[0] is not frame:
            size = _enough((frame.width, frame.height), self._size if take.rotation % 180 == 0 else self._size[::-1])
            if is_high(frame):
                if index not in self._softeners:
                    self._softeners[index] = Softener(frame, size)
                plain = self._softeners[index].soft(frame)
            else:
                plain = frame.reformat(*size, format="yuv420p", interpolation="BILINEAR", threads=1)
            self._last = (frame, upright(plain, take.rotation))
        return self._last[1]

    def _dissolved(self, cut: int, time: int) -> VideoFrame:
        if cut not in self._cuts:
            end = self._reel.takes[cut - 1].duration / TICKS

            def show(index: int) -> Show:
                return lambda seconds: self._taken(index, round(seconds * TICKS))

            self._cuts[cut] = dissolve(show(cut - 1), end, show(cut))
        return frame_of(self._cuts[cut], (time - self._reel.starts[cut]) / TICKS + HALF)


def _enough(size: tuple[int, int], film: tuple[int, int]) -> tuple[int, int]:
    """The even size at which a picture still fills the film, where it is larger than that."""
    scale = max(film[0] / size[0], film[1] / size[1])
    if scale >= 1:
        return size
    return (max(2, round(size[0] * scale / 2) * 2), max(2, round(size[1] * scale / 2) * 2))


def upright(frame: VideoFrame, rotation: int) -> VideoFrame:
    """The frame, in yuv420p, turned by `rotation` degrees against the clock."""
    if not rotation:
        return frame
    turned = [np.rot90(plane, rotation // 90) for plane in planes(frame)]
    result = VideoFrame(turned[0].shape[1], turned[0].shape[0], "yuv420p")
    for target, plane in zip(planes(result), turned, strict=True):
        target[:] = plane
    result.color_range, result.colorspace = frame.color_range, frame.colorspace
    return result
