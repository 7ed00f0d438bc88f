"""Recordings as they come: what a media file holds, and its sound as one stretch of mono samples.

PyAV decodes (wav, mp3, m4a, mp4, mov, webm and whatever else its FFmpeg reads); pydub measures levels. Sound is kept
as 16-bit samples at 16 kHz, 115 MB an hour, and is never held in a wider form as a whole.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from studio.errors import UnusableInput
from studio.files import media_name
from studio.progress import Progress, silent

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

RATE = 16_000
"""Samples a second of every `Sound`."""

_PAGE = 65_307
"""Bytes of the greatest page in an Ogg file (RFC 3533)."""

GAP = 0.05
"""Seconds that sound must be missing before silence is put there; clocks are not more exact. The film holds to it too."""

QUIETEST = -65.0
"""dBFS of the loudest half second below which a recording counts as silent (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class TakeFile:
    """One media file. `start` is where it begins in the recording, `duration` its length, both in seconds."""

    path: Path
    start: float
    duration: float
    has_video: bool


@dataclass(frozen=True, slots=True)
class Recording:
    """One or several takes in the order in which they are joined."""

    takes: tuple[TakeFile, ...]

    @property
    def duration(self) -> float:
        last = self.takes[-1]
        return last.start + last.duration

    @property
    def has_video(self) -> bool:
        """Whether every take has a picture."""
        return all(take.has_video for take in self.takes)


@dataclass(frozen=True, eq=False)
class Sound:
    """Mono samples, int16 at `RATE`; `notes` are plain sentences about what was mended (a dead channel, clipping)."""

    samples: NDArray[np.int16]
    notes: tuple[str, ...] = ()

    @property
    def duration(self) -> float:
        return len(self.samples) / RATE

    def part(self, start: float, end: float) -> NDArray[np.float32]:
        """The samples from `start` to `end` seconds as float32 in -1 to 1; what lies outside is left out."""
        import numpy as np

        first, last = max(0, round(start * RATE)), max(0, round(end * RATE))
        return self.samples[first:last].astype(np.float32) / 32768.0

    @property
    def key(self) -> str:
        """SHA-256 of the samples."""
        return hashlib.sha256(self.samples.data).hexdigest()


def open_recording(paths: Sequence[str | Path] | str | Path) -> Recording:
    """Look into the media files. Raises UnusableInput with one sentence for each file that cannot be used."""
    return load(paths)[0]


def load(paths: Sequence[str | Path] | str | Path, progress: Progress = silent) -> tuple[Recording, Sound]:
    """The takes and their sound, joined in order. Raises UnusableInput: not media, no sound, cut off, empty, silent."""
    import numpy as np

    if isinstance(paths, str | Path):
        paths = [paths]
    if not paths:
        raise UnusableInput("no recording was given; name one media file or more.")
    takes: list[TakeFile] = []
    sounds: list[NDArray[np.int16]] = []
    notes: list[str] = []
    start = 0.0
    for number, given in enumerate(paths):
        path = Path(given)

        def tell(share: float, path: Path = path, number: int = number) -> None:
            progress((number + share) / len(paths), f"reading {path.name}")

        samples, has_video, found = _decode(path, tell)
        duration = len(samples) / RATE
        takes.append(TakeFile(path, start, duration, has_video))
        sounds.append(samples)
        notes += [f"{path.name}: {note}" for note in found]
        start += duration
    samples = sounds[0] if len(sounds) == 1 else np.concatenate(sounds)
    return Recording(tuple(takes)), Sound(samples, tuple(notes))


def _decode(path: Path, tell: Callable[[float], None]) -> tuple[NDArray[np.int16], bool, list[str]]:
    import av
    import numpy as np

    name = str(path)
    try:
        if path.is_dir():
            raise UnusableInput("this is a folder; name the media file in it.", name)
        if path.stat().st_size == 0:
            raise UnusableInput("the file is empty; export or copy the recording again.", name)
    except OSError as error:
        raise UnusableInput("there is no such file; check the name and the folder.", name) from error
    try:
        container = av.open(media_name(path), metadata_errors="replace")
    except (av.error.FFmpegError, ValueError, OSError) as error:
        raise UnusableInput(_not_media(path), name) from error
    with container:
        # FFmpeg takes plain text for a film of a terminal, and opens single pictures.
        kind = str(container.format.name)
        if kind == "tty" or kind.endswith("_pipe") or "image2" in kind:
            raise UnusableInput(_NO_RECORDING, name)
        has_video = any(_is_picture(stream) for stream in container.streams.video)
        if not container.streams.audio:
            kind = "has a picture but no sound" if has_video else "has no sound"
            raise UnusableInput(f"the file {kind}; record again with the microphone on.", name)
        stream = container.streams.audio[0]
        declared = _declared(container, stream, path)
        try:
            samples, notes = _samples(container, stream, declared, tell)
        except av.error.FFmpegError as error:
            raise UnusableInput("the sound in it cannot be read; export the recording again.", name) from error
    heard = len(samples) / RATE
    if heard < 0.02:
        raise UnusableInput("the recording has no length; record again.", name)
    if declared is not None and declared - heard > max(1.0, 0.02 * declared):
        raise UnusableInput(
            f"the recording is cut off: it should last {clock(declared)} and stops at {clock(heard)}; "
            "copy or export it again.",
            name,
        )
    if _ends_inside(path):
        raise UnusableInput("the recording is cut off: its file ends too early; copy or export it again.", name)
    if loudest(samples) < QUIETEST:
        raise UnusableInput("the recording is silent; check the microphone and record again.", name)
    clipped = sum(int(np.count_nonzero(np.abs(block.astype(np.int32)) >= 32_700)) for block in _stretches(samples))
    if clipped > 0.002 * len(samples):
        notes.append("the sound is clipped (too loud for the microphone); move it further away next time.")
    return samples, has_video, notes


def _is_picture(stream: Any) -> bool:
    """Cover pictures of music files are no video (FFmpeg's disposition 'attached picture')."""
    disposition = getattr(stream, "disposition", None)
    return not (disposition is not None and "attached_pic" in str(disposition))


def _declared(container: Any, stream: Any, path: Path) -> float | None:
    """The length in seconds that the file itself states, where it does."""
    if path.suffix.lower() == ".wav":
        stated = _wav_length(path)
        if stated is not None:
            return stated
    if stream.duration is not None and stream.time_base is not None:
        return float(stream.duration * stream.time_base)
    if container.duration is not None:
        return float(container.duration) / 1_000_000
    return None


def _wav_length(path: Path) -> float | None:
    """The length that a RIFF/WAVE header states; FFmpeg goes by the size of the file instead."""
    import wave

    try:
        with wave.open(str(path)) as reader:
            seconds = reader.getnframes() / reader.getframerate()
    except (wave.Error, EOFError, ZeroDivisionError, OSError):
        return None
    # 0xFFFFFFFF and 0 stand for "not known" in streamed files.
    return seconds if 0 < seconds < 24 * 3600 and reader.getnframes() * 2 < 0xFFFFFF00 else None


def _ends_inside(path: Path) -> bool:
    """Whether an Ogg or RIFF (AVI) file ends inside a page or list that it began; FFmpeg goes by what is there."""
    with path.open("rb") as file:
        head = file.read(12)
        size = file.seek(0, os.SEEK_END)
        if head[:4] == b"RIFF" and head[8:] == b"AVI ":
            stated = int.from_bytes(head[4:8], "little")
            # 0 and the greatest number stand for "not known" in streamed files.
            return 0 < stated < 0xFFFFFFFF and size < stated + 8
        if head[:4] != b"OggS":
            return False
        file.seek(max(0, size - 2 * _PAGE))
        tail = file.read()
    last = tail.rfind(b"OggS")
    header = tail[last : last + 27]
    if last < 0 or len(header) < 27:
        return True
    lengths = tail[last + 27 : last + 27 + header[26]]
    return len(lengths) < header[26] or len(tail) - last < 27 + len(lengths) + sum(lengths)


def _samples(
    container: Any, stream: Any, declared: float | None, tell: Callable[[float], None]
) -> tuple[NDArray[np.int16], list[str]]:
    import numpy as np

    # One block of memory that grows: an hour in pieces and then as a whole would be there twice.
    kept = bytearray()
    channels = min(2, stream.channels or 1)
    told = 0.0
    for time, block in _blocks(container, stream):
        # Sound that begins late, or stops for a while, keeps its place against the picture.
        written = len(kept) // (2 * channels)
        gap = round(time * RATE) - written if time is not None else 0
        if gap > RATE * GAP:
            kept += bytes(gap * 2 * channels)
        kept += block.tobytes()
        written = len(kept) // (2 * channels)
        if declared and written / RATE - told > 5:
            told = written / RATE
            tell(min(1.0, told / declared))
    tell(1.0)
    sound = np.frombuffer(kept, np.int16).reshape(-1, channels)
    return _mix(sound) if channels == 2 and len(sound) else (sound.reshape(-1), [])


def _blocks(container: Any, stream: Any) -> Iterator[tuple[float | None, NDArray[np.int16]]]:
    """Decoded blocks of int16, one or two channels wide, with their times from the start of the file, with its picture
    or with its sound; a damaged packet is stepped over."""
    import av
    import numpy as np

    channels = min(2, stream.channels or 1)
    layout = "stereo" if channels == 2 else "mono"
    resampler = av.AudioResampler(format="s16", layout=layout, rate=RATE)
    starts = (container.start_time or 0) / av.time_base

    def cut(frames: list[Any]) -> Iterator[NDArray[np.int16]]:
        for frame in frames:
            yield frame.to_ndarray().reshape(-1, channels).astype(np.int16, copy=False)

    damaged = 0
    for packet in container.demux(stream):
        try:
            frames = packet.decode()
        except av.error.FFmpegError:
            damaged += 1
            if damaged > 100:
                raise
            continue
        for frame in frames:
            time = frame.time - starts if frame.time is not None else None
            frame.pts = None
            for block in cut(resampler.resample(frame)):
                yield time, block
    for block in cut(resampler.resample(None)):
        yield None, block


def _mix(both: NDArray[np.int16]) -> tuple[NDArray[np.int16], list[str]]:
    """One channel from two: a dead channel is left out, and channels that cancel each other are not added."""
    import numpy as np

    energy, together = np.zeros(2), 0.0
    for block in _stretches(both):
        energy += (block.astype(np.float64) ** 2).sum(axis=0)
        together += float((_middle(block).astype(np.float64) ** 2).sum())
    louder = int(energy[1] > energy[0])
    if energy[1 - louder] < 0.01 * energy[louder]:  # 20 dB
        side = ("right", "left")[louder]
        return both[:, louder].copy(), [f"the {side} channel is dead; the other one is used."]
    if together < 0.1 * energy[louder]:
        return both[:, louder].copy(), ["the two channels cancel each other; the louder one is used."]
    mixed = np.empty(len(both), np.int16)
    at = 0
    for block in _stretches(both):
        mixed[at : at + len(block)] = _middle(block)
        at += len(block)
    return mixed, []


def _middle(both: NDArray[np.int16]) -> NDArray[np.int32]:
    """Half of the sum of two channels."""
    import numpy as np

    half: NDArray[np.int32] = both.astype(np.int32).sum(axis=1, dtype=np.int32) // 2
    return half


def _stretches(samples: NDArray[np.int16]) -> Iterator[NDArray[np.int16]]:
    """Samples a minute at a time, for what needs them in a wider form."""
    for start in range(0, len(samples), 60 * RATE):
        yield samples[start : start + 60 * RATE]


def _audio_segment() -> Any:
    """pydub's AudioSegment; its warning about a missing ffmpeg program is not ours, PyAV decodes."""
    import warnings

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from pydub import AudioSegment
    return AudioSegment


def loudest(samples: NDArray[np.int16]) -> float:
    """The level of the loudest half second, in dBFS."""
    AudioSegment = _audio_segment()

    half = RATE // 2
    parts = (samples[at : at + half].tobytes() for at in range(0, len(samples), half))
    levels = (AudioSegment(part, sample_width=2, frame_rate=RATE, channels=1).dBFS for part in parts)
    return max(levels, default=float("-inf"))


def clock(seconds: float) -> str:
    """`1:05`, as a player shows it."""
    whole = round(seconds)
    hours, rest = divmod(whole, 3600)
    minutes, rest = divmod(rest, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"


_NO_RECORDING = "this is no recording (no sound or video file); name a file such as take.mp4 or take.wav."


def _not_media(path: Path) -> str:
    if path.suffix.lower() in (
        ".mp4",
        ".mov",
        ".m4a",
        ".m4v",
        ".webm",
        ".mkv",
        ".wav",
        ".mp3",
        ".aac",
        ".ogg",
        ".flac",
    ):
        return "the recording is damaged or cut off, and cannot be opened; copy or export it again."
    return _NO_RECORDING
