"""The film's sound: her voice where she speaks, room tone where the film holds, at an even loudness.

Everything goes through the disk in blocks, so that an hour needs no more memory than a minute. Inside, sound is mono
int16 at 48 kHz; in the film it is stereo with both sides alike, so that meters and loudspeakers agree on its loudness.
"""

from __future__ import annotations

import re
import subprocess
import warnings
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

import av
import numpy as np
from av.audio.frame import AudioFrame
from av.error import FFmpegError
from av.packet import Packet

from studio.errors import UnusableInput
from studio.files import media_name
from studio.film.settings import FilmSettings
from studio.listen.recording import GAP
from studio.store import Store, content_key
from studio.timing.cuesheet import CueSheet, Piece

RATE = 48_000
SUFFIX = ".sound.m4a"
_BLOCK = 30 * RATE
_FADE = round(0.012 * RATE)  # samples over which one stretch of sound goes over into the next
_HEADROOM = 0.7  # dB kept below the true peak that is asked for: the coding of the sound may lift a peak
_BIT_RATE = 128_000

Samples = np.ndarray[Any, np.dtype[np.int16]]
Floats = np.ndarray[Any, np.dtype[np.float32]]


# --- recordings to samples --------------------------------------------------------------------------------------------


def decode(path: Path, target: Path) -> int:
    """Write the sound of a recording to `target` as raw mono int16 at 48 kHz; returns the number of samples. Sound that
    begins after the picture, or stops for a while, keeps its place against it.

    Raises UnusableInput where there is no sound or it cannot be read.
    """
    count = 0
    try:
        with av.open(media_name(path), metadata_errors="ignore") as container, target.open("wb") as out:
            if not container.streams.audio:
                return 0
            stream = container.streams.audio[0]
            starts = Fraction(container.start_time or 0, av.time_base)
            resampler = av.AudioResampler(format="s16", layout="mono", rate=RATE)

            def write(parts: Iterable[AudioFrame]) -> None:
                nonlocal count
                for part in parts:
                    count += part.samples
                    out.write(bytes(part.planes[0])[: part.samples * 2])

            for packet in container.demux(stream):
                try:
                    frames = packet.decode()
                except FFmpegError:
                    continue
                for frame in frames:
                    if frame.pts is not None and frame.time_base is not None:
                        gap = round((frame.pts * frame.time_base - starts) * RATE) - count
                        if gap > RATE * GAP:
                            out.write(bytes(2 * gap))
                            count += gap
                    frame.pts = None
                    write(resampler.resample(frame))
            write(resampler.resample(None))
    except FFmpegError as error:
        raise UnusableInput("the sound of this recording cannot be read.", str(path)) from error
    return count


@dataclass(frozen=True, slots=True)
class Take:
    """The sound of one recording on the disk, as raw mono int16; `length` is in samples. It is read, not mapped: what
    was mapped and looked at once would stay in memory, 345 MB an hour."""

    path: Path
    length: int

    def read(self, first: int, end: int) -> Samples:
        """Samples `first` to `end`, which lie in it."""
        return np.fromfile(self.path, np.int16, end - first, offset=2 * first)


@dataclass(frozen=True)
class Voice:
    """The sound of all takes, one after the other."""

    takes: tuple[Take, ...]

    @property
    def length(self) -> int:
        return sum(take.length for take in self.takes)

    def read(self, start: int, count: int) -> Floats:
        """Samples from `start`, scaled to -1 … 1; silence outside the recordings."""
        result = np.zeros(count, np.float32)
        at = 0
        for take in self.takes:
            first, end = max(start, at), min(start + count, at + take.length)
            if first < end:
                part = take.read(first - at, end - at).astype(np.float32) / 32768
                # Where one take follows another neither is cut off: they sink and rise within a few milliseconds.
                edges = np.minimum(
                    np.arange(first - at, end - at) if at else np.inf,
                    take.length - 1 - np.arange(first - at, end - at) if at + take.length < self.length else np.inf,
                )
                result[first - start : end - start] = part * np.minimum(1, edges / _FADE)
            at += take.length
        return result


def voice_file(path: Path, work: Path) -> Path:
    """The raw sound of a recording in the folder `work`, decoded once."""
    raw = work / f"{content_key(str(path))[:16]}.s16"
    if not raw.exists():
        decode(path, raw)
    return raw


def open_voice(paths: Sequence[Path], work: Path) -> Voice:
    """The sound of the recordings, decoded into the folder `work`."""
    takes: list[Take] = []
    for path in paths:
        raw = voice_file(path, work)
        takes.append(Take(raw, raw.stat().st_size // 2 if raw.exists() else 0))
    return Voice(tuple(takes))


# --- room tone --------------------------------------------------------------------------------------------------------


def room_tone(voice: Voice) -> Floats:
    """About two seconds of the room when nobody speaks, made to follow itself without a seam.

    The quietest second of the recordings that is not dead silence is laid end over end by pydub.
    """
    with warnings.catch_warnings():  # pydub looks for an FFmpeg on the path; none is needed here
        warnings.simplefilter("ignore")
        from pydub import AudioSegment

    hop = RATE // 4
    energies: list[tuple[float, int]] = []
    for start in range(0, max(0, voice.length - hop), hop):
        block = voice.read(start, hop)
        energies.append((float(np.mean(block * block)), start))
    levels = np.array([energy for energy, _ in energies])
    width = 3  # three quarters of a second
    if len(levels) < width:
        return np.zeros(RATE, np.float32)
    together = np.array([levels[i : i + width].max() for i in range(len(levels) - width + 1)])
    alive = np.flatnonzero(together > 1e-10)
    if not len(alive):
        return np.zeros(RATE, np.float32)
    best = int(alive[np.argmin(together[alive])])
    if together[best] > 1e-4:  # -40 dBFS: this is no silence, and to repeat it would be worse than none
        return np.zeros(RATE, np.float32)
    quiet = voice.read(energies[best][1], width * hop)
    piece = AudioSegment(
        (np.clip(quiet, -1, 1) * 32767).astype("<i2").tobytes(), frame_rate=RATE, sample_width=2, channels=1
    )
    tone = piece
    for other in (piece.reverse(), piece, piece.reverse()):
        tone = tone.append(other, crossfade=150)
    samples = np.frombuffer(tone.raw_data, np.int16).astype(np.float32) / 32768
    # The end is mixed into the beginning, so that the loop closes.
    lap = round(0.15 * RATE)
    rise = np.sqrt(np.linspace(0, 1, lap, dtype=np.float32))
    samples[:lap] = samples[:lap] * rise + samples[-lap:] * rise[::-1]
    return samples[:-lap].astype(np.float32)


def _looped(tone: Floats, start: int, count: int) -> Floats:
    first = start % len(tone)
    looped: Floats = np.tile(tone, (first + count) // len(tone) + 1)[first : first + count].copy()
    return looped


# --- putting the film's sound together --------------------------------------------------------------------------------


def assemble(pieces: Sequence[Piece], duration: float, voice: Voice, tone: Floats) -> Iterator[Floats]:
    """The film's sound in blocks. Where two pieces do not follow each other in the recording, one goes over into the
    other within a few milliseconds."""
    total = round(duration * RATE)
    bounds = [min(total, round(piece.start * RATE)) for piece in pieces] + [total]

    def piece_sound(number: int, first: int, count: int) -> Floats:
        piece = pieces[number]
        if piece.source is None:
            return _looped(tone, first, count)
        return voice.read(round(piece.source * RATE) + first - bounds[number], count)

    for number in range(len(pieces)):
        first, end = bounds[number], bounds[number + 1]
        while first < end:
            count = min(_BLOCK, end - first)
            block = piece_sound(number, first, count)
            if first == bounds[number] and number and not _follows(pieces[number - 1], pieces[number]):
                lap = min(_FADE, count)
                rise = np.sin(np.linspace(0, np.pi / 2, lap, dtype=np.float32))
                block[:lap] = block[:lap] * rise + piece_sound(number - 1, first, lap) * rise[::-1]
            yield block
            first += count


def _follows(one: Piece, other: Piece) -> bool:
    if one.source is None or other.source is None:
        return one.source is other.source
    return abs(one.source + one.duration - other.source) < 0.5 / RATE


# --- loudness ---------------------------------------------------------------------------------------------------------


def measure(raw: Path) -> float:
    """Integrated loudness in LUFS (ITU-R BS.1770, by FFmpeg's `ebur128`) of raw mono int16 sound, as it plays in
    stereo with both sides alike. -inf where it is silent."""
    import imageio_ffmpeg

    command = [imageio_ffmpeg.get_ffmpeg_exe(), "-hide_banner", "-nostats", "-f", "s16le", "-ar", str(RATE), "-ac", "1"]
    command += ["-i", str(raw), "-af", "ebur128=dualmono=true:framelog=quiet", "-f", "null", "-"]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    found = re.findall(r"I:\s+(-?[\d.]+|-inf|nan) LUFS", done.stderr)
    if not found:
        raise RuntimeError(f"the loudness could not be measured: {done.stderr[-300:]}")
    value = float(found[-1])
    return value if value > -69.9 else float("-inf")


def _level(blocks: Iterator[Floats], gain: float, ceiling: float) -> Iterator[Floats]:
    """The sound times `gain`, with peaks (4 × oversampled, BS.1770 annex 2) held below `ceiling`."""
    hop = RATE // 1000 * 2
    ahead = 3  # hops that the limiter looks ahead and behind
    carried = np.zeros(0, np.float32)
    last = 1.0

    def limited(block: Floats, curve: Floats) -> Floats:
        nonlocal last
        points = np.concatenate([[last], curve])
        last = float(curve[-1])
        ramp = np.interp(np.arange(len(block)) / hop, np.arange(len(points)), points)
        scaled: Floats = (block * ramp).astype(np.float32)
        return scaled

    def curve_of(block: Floats) -> Floats:
        """For each hop the factor that holds it and its neighbours below the ceiling."""
        hops = -(-len(block) // hop)
        padded = np.zeros(hops * hop, np.float32)
        padded[: len(block)] = block
        rows = padded.reshape(hops, hop)
        peaks = np.abs(rows).max(axis=1)
        for row in np.flatnonzero(peaks > ceiling * 0.6):
            peaks[row] = max(peaks[row], _true_peak(padded, int(row) * hop, hop))
        factor = np.minimum(1.0, ceiling / np.maximum(peaks, 1e-9)).astype(np.float32)
        spread = np.pad(factor, ahead, mode="edge")
        lowest = np.lib.stride_tricks.sliding_window_view(spread, 2 * ahead + 1).min(axis=1)
        smooth = np.pad(lowest, 1, mode="edge")
        curve: Floats = np.minimum(lowest, np.convolve(smooth, [0.25, 0.5, 0.25], "valid")).astype(np.float32)
        return curve

    keep = (ahead + 1) * hop
    before = np.zeros(0, np.float32)
    for block in blocks:
        sound = np.concatenate([carried, block * np.float32(gain)])
        usable = (len(sound) - keep) // hop * hop
        if usable <= 0:
            carried = sound
            continue
        context = len(before)
        curve = curve_of(np.concatenate([before, sound]))[context // hop :]
        yield limited(sound[:usable], curve[: usable // hop])
        before = np.concatenate([before, sound[:usable]])[-keep:]
        before = before[len(before) % hop :]
        carried = sound[usable:]
    if len(carried):
        curve = curve_of(np.concatenate([before, carried]))[len(before) // hop :]
        yield limited(carried, curve)


def _true_peak(sound: Floats, start: int, count: int) -> float:
    from scipy.signal import resample_poly

    margin = 24
    first, end = max(0, start - margin), min(len(sound), start + count + margin)
    fine = resample_poly(sound[first:end], 4, 1)
    return float(np.abs(fine[(start - first) * 4 : (start - first + count) * 4]).max())


def _write(blocks: Iterator[Floats], raw: Path) -> None:
    with raw.open("wb") as out:
        for block in blocks:
            out.write((np.clip(block, -1, 1) * 32767).round().astype("<i2").tobytes())


def _read(raw: Path) -> Iterator[Floats]:
    with raw.open("rb") as stream:
        while data := stream.read(_BLOCK * 2):
            block: Floats = np.frombuffer(data, "<i2").astype(np.float32) / np.float32(32768)
            yield block


def make_even(assembled: Path, result: Path, settings: FilmSettings) -> None:
    """Bring sound to the loudness that is asked for, with its peaks held."""
    loudness = measure(assembled)
    if loudness == float("-inf"):
        _write(_read(assembled), result)
        return
    ceiling = 10 ** ((settings.true_peak - _HEADROOM) / 20)
    asked = settings.loudness - loudness
    for _ in range(3):
        _write(_level(_read(assembled), 10 ** (asked / 20), ceiling), result)
        short = settings.loudness - measure(result)
        if abs(short) <= 0.15:
            return
        asked += short


# --- coding -----------------------------------------------------------------------------------------------------------


def encode(raw: Path, target: Path, progress: Callable[[float], None]) -> None:
    """Encode raw mono int16 sound as AAC in stereo."""
    total = max(1, raw.stat().st_size // 2)
    done = 0
    with av.open(str(target), "w", format="mp4") as container:
        stream = container.add_stream("aac", rate=RATE, layout="stereo")
        stream.bit_rate = _BIT_RATE
        with raw.open("rb") as source:
            while data := source.read(RATE * 2):
                mono = np.frombuffer(data, "<i2").astype(np.float32) / 32768
                frame = AudioFrame.from_ndarray(np.stack([mono, mono]), format="fltp", layout="stereo")
                frame.sample_rate = RATE
                frame.pts = done
                frame.time_base = Fraction(1, RATE)
                done += len(mono)
                for packet in stream.encode(frame):
                    container.mux(packet)
                progress(done / total)
        for packet in stream.encode(None):
            container.mux(packet)


def silence(target: Path, duration: float, work: Path) -> None:
    """A silent track: a moment of silence is encoded, and its last packet repeated."""
    moment, total = work / "moment.m4a", round(duration * RATE)
    raw = work / "moment.s16"
    raw.write_bytes(bytes(2 * RATE))
    encode(raw, moment, lambda done: None)
    with av.open(str(moment)) as source, av.open(str(target), "w", format="mp4") as container:
        stream = source.streams.audio[0]
        packets = [packet for packet in source.demux(stream) if packet.size]
        base = stream.time_base or Fraction(1, RATE)
        copy = container.add_stream_from_template(stream)
        data, size = bytes(packets[8]), round(1024 / (RATE * base))
        time = packets[0].pts or 0
        while time * base * RATE < total:
            packet = Packet(data)
            packet.stream, packet.time_base = copy, base
            packet.pts = packet.dts = time
            packet.duration = min(size, round(total / (RATE * base)) - time)
            packet.is_keyframe = True
            container.mux_one(packet)
            time += size


def sound_key(sheet: CueSheet, recordings: Sequence[str], settings: FilmSettings) -> str:
    """What the film's sound is known by; `recordings` are the content keys of the recordings."""
    pieces = [[piece.start, piece.duration, piece.source] for piece in sheet.pieces]
    levels = [settings.loudness, settings.true_peak]
    recipe = Path(__file__).read_bytes()
    return content_key(recipe, av.__version__, list(recordings), pieces if recordings else [], sheet.duration, levels)


def make_sound(
    sheet: CueSheet,
    paths: Sequence[Path],
    key: str,
    store: Store,
    work: Path,
    settings: FilmSettings,
    progress: Callable[[float], None],
) -> Path:
    """The film's sound in the store. Raises OSError (disk full)."""
    found = store.get(key, SUFFIX)
    if found is not None:
        return found
    coded = work / "sound.m4a"
    voice = open_voice(paths, work)
    if not voice.length:
        silence(coded, sheet.duration, work)
        return store.put(key, SUFFIX, coded)
    assembled, even = work / "assembled.s16", work / "even.s16"
    _write(assemble(sheet.pieces, sheet.duration, voice, room_tone(voice)), assembled)
    progress(0.2)
    make_even(assembled, even, settings)
    assembled.unlink()
    encode(even, coded, lambda done: progress(0.5 + 0.5 * done))
    even.unlink()
    return store.put(key, SUFFIX, coded)
