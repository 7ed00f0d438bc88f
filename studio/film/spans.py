"""Spans made, kept and found again: the unit of work of the film.

A span file holds each encoded frame once, and the order in which they follow each other (a still picture's frames are
few and follow each other often). It is known by the content of everything that went into it and stands in the store.
"""

from __future__ import annotations

import json
import os
import threading
from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

import av
import PIL
from av.video.frame import VideoFrame

from studio.film import art, changes, colours, encode, footage, places, plan, slices, still, takes, yuv
from studio.film.art import Artist, Change
from studio.film.encode import Coded, encode_all, x264_params
from studio.film.footage import Reel, ReelReader
from studio.film.memory import give_back, lean, roomy
from studio.film.plan import Run, Span
from studio.film.scene import Scene
from studio.film.settings import FilmSettings
from studio.film.still import StillTrack
from studio.pictures import geometry, layout, motion
from studio.pictures.painters import pillow
from studio.pictures.themes import Theme
from studio.progress import Progress
from studio.store import Store, content_key

SUFFIX = ".span"
_LARGE = 0.15  # of the frame


# --- what a span is known by ------------------------------------------------------------------------------------------


@lru_cache(maxsize=1)
def _recipe() -> str:
    """The content of the modules that decide how a span comes out: after a change there, spans are made anew."""
    modules = (
        art,
        changes,
        colours,
        encode,
        footage,
        geometry,
        layout,
        motion,
        pillow,
        places,
        plan,
        slices,
        still,
        takes,
        yuv,
    )
    sources = [Path(module.__file__ or "").read_bytes() for module in modules]
    return content_key(*sources, Path(__file__).read_bytes())


class Keys:
    """Names spans by their content."""

    def __init__(self, theme: Theme, settings: FilmSettings, reel: Reel | None) -> None:
        fonts = [(face, Path(font).name, Path(font).stat().st_size) for face, font in theme.fonts]
        self._all = content_key(
            [_recipe(), av.__version__, PIL.__version__, x264_params(settings)],
            settings.picture_key(),
            [[ink, list(colour)] for ink, colour in theme.colours],
            fonts,
            [theme.calm, theme.monochrome],
        )
        self._reel = reel
        self._fps = settings.fps
        self._scenes: dict[Scene, str] = {}

    def span(self, span: Span) -> str:
        return content_key(self._all, [self._run(run) for run in span.runs])

    def _run(self, run: Run) -> list[Any]:
        before = self._scene(run.before) if run.before is not None else ""
        source: list[Any] = []
        if run.source is not None and self._reel is not None:
            index, inside = self._reel.where(run.source)
            source = [self._reel.takes[index].key, inside]
            end = run.source_at(run.count, self._fps) or 0
            source += [take.key for take in self._reel.near(run.source, end) if take is not self._reel.takes[index]]
        return [run.count, self._scene(run.scene), before, run.step, run.steps, run.live, source]

    def _scene(self, scene: Scene) -> str:
        if scene not in self._scenes:
            drawn = [[placed.box, placed.size, placed.scale, repr(placed.picture.drawing())] for placed in scene.placed]
            self._scenes[scene] = content_key([scene.camera, drawn, repr(scene.title), repr(scene.waiting)])
        return self._scenes[scene]


# --- span files -------------------------------------------------------------------------------------------------------


def pack(frames: Iterable[Coded]) -> bytes:
    """The content of a span file."""
    numbers: dict[bytes, int] = {}
    kept: list[Coded] = []
    order: list[int] = []
    for coded in frames:
        number = numbers.get(coded.data)
        if number is None:
            number = numbers[coded.data] = len(kept)
            kept.append(coded)
        order.append(number)
    head = json.dumps({"sizes": [len(c.data) for c in kept], "keys": [int(c.key) for c in kept], "order": order})
    return head.encode() + b"\n" + b"".join(coded.data for coded in kept)


def unpack(data: bytes) -> list[Coded]:
    """The frames of a span file. Raises ValueError where it is not whole."""
    head, _, body = data.partition(b"\n")
    values = json.loads(head)
    if sum(values["sizes"]) != len(body):
        raise ValueError("the span file is not whole")
    kept, at = [], 0
    for size, key in zip(values["sizes"], values["keys"], strict=True):
        kept.append(Coded(body[at : at + size], bool(key)))
        at += size
    return [kept[number] for number in values["order"]]


# --- making a span ----------------------------------------------------------------------------------------------------


class Maker:
    """Makes spans, one after the other, in one thread."""

    def __init__(self, theme: Theme, settings: FilmSettings, reel: Reel | None) -> None:
        self._settings = settings
        self._artist = Artist(theme, settings)
        self._rows: dict[bytes, bytes] = {}
        self._reader = (
            ReelReader(reel, (settings.width, settings.height)) if reel is not None and reel.picture else None
        )

    def close(self) -> None:
        if self._reader is not None:
            self._reader.close()

    def make(self, span: Span) -> Iterator[Coded]:
        """The encoded frames of a span."""
        return self._live(span) if span.live else self._still(span)

    def frame(self, run: Run, index: int) -> VideoFrame:
        """Frame `index` of a run."""
        her = None
        source = run.source_at(index, self._settings.fps)
        if source is not None and self._reader is not None and run.scene.camera != "off":
            her = self._reader.at(source)
        if run.before is None:
            return self._artist.frame(run.scene, her)
        return self._artist.frame(run.scene, her, run.before, _part(run, index))

    def _live(self, span: Span) -> Iterator[Coded]:
        frames = (self.frame(run, index) for run in span.runs for index in range(run.count))
        return encode_all(frames, self._settings)

    def _still(self, span: Span) -> Iterator[Coded]:
        """Still pictures and the motions between them. With its last step a motion lands on the first frame of the
        picture that stands from then on."""
        track = StillTrack(self._settings, self._rows)
        shown: Run | None = None
        landed = 0
        for number, run in enumerate(span.runs):
            following = span.runs[number + 1] if number + 1 < len(span.runs) else None
            if landed:
                count, landed = run.count - landed, 0
            elif run.before is None:
                yield from self._change(track, shown, run, [], run, run.count)
                count = run.count - 1
            else:
                lands = None
                if following is not None and following.before is None and following.scene == run.scene:
                    lands = following
                steps = [_part(run, index) for index in range(run.count)]
                yield from self._change(track, shown, run, steps, lands, lands.count if lands else 1)
                count, landed = 0, int(lands is not None)
            if run.before is None:
                shown = run
                yield from track.hold(count, last=following is None)

    def _change(
        self, track: StillTrack, shown: Run | None, run: Run, steps: list[float], lands: Run | None, stays: int
    ) -> Iterator[Coded]:
        """The frames of `run` that are `steps` of a motion, and the first of `lands`, which stands for `stays` frames."""
        if shown is not None and shown.source == run.source:
            parts = [*steps, 1.0] if lands is not None else steps
            changes = self._artist.changes(shown.scene, run.scene, [*parts, 1.0])
            if changes is not None:
                if changes:
                    moments = [
                        (count, [self._artist.moment(change, part) for change in changes])
                        for count, part in self._drawn(parts, changes)
                    ]
                    yield from track.change(moments, stays)
                else:
                    yield from track.hold(len(parts))
                return
        frames = [self.frame(run, index) for index in range(len(steps))]
        if lands is not None:
            frames.append(self.frame(lands, 0))
        yield from track.through(frames, stays)

    def _drawn(self, parts: list[float], changes: list[Change]) -> list[tuple[int, float]]:
        """The moments of a motion that are drawn, and for how many frames each. Large pictures move on twos, as
        animators say: what fades in or makes room in a fifth of a second looks the same so."""
        area = sum(change.place[2] * change.place[3] for change in changes)
        if area < _LARGE * self._settings.width * self._settings.height:
            return [(1, part) for part in parts]
        moving, landing = parts[:-1], parts[-1:]
        drawn = [(2, later) for later in moving[1::2]]
        if len(moving) % 2:
            drawn.append((1, moving[-1]))
        return [*drawn, *((1, part) for part in landing)]


def _part(run: Run, index: int) -> float:
    """How far a motion is with frame `index` of its run."""
    return ((run.step + index + 1) / (run.steps + 1)) ** 2


@dataclass(frozen=True, slots=True)
class Made:
    """The span files of a film in order, and how many of them had to be made."""

    files: tuple[Path, ...]
    encoded: int
    reused: int


def make_all(
    spans: Sequence[Span],
    store: Store,
    theme: Theme,
    settings: FilmSettings,
    reel: Reel | None,
    progress: Progress,
) -> Made:
    """Make the spans that the store does not have, several at a time. Raises OSError (disk full)."""
    keys = Keys(theme, settings, reel)
    names = [keys.span(span) for span in spans]
    files: dict[str, Path] = {}
    missing: dict[str, Span] = {}
    for name, span in zip(names, spans, strict=True):
        if name in files or name in missing:
            continue
        if (kept := store.get(name, SUFFIX)) is not None:
            files[name] = kept
        else:
            missing[name] = span
    total = sum(_cost(span) for span in missing.values())
    workers = settings.workers or os.cpu_count() or 1
    if reel is not None and reel.large:
        workers = 1
    batches = _batches(list(missing.items()), workers)
    state = _State(progress, total)
    moving = any(span.live for span in missing.values())
    (lean if moving else roomy)()

    def work() -> None:
        maker = Maker(theme, settings, reel)
        try:
            while not state.stop.is_set():
                try:
                    batch = batches.popleft()
                except IndexError:
                    return
                for name, span in batch:
                    if state.stop.is_set():
                        return
                    kept = store.get(name, SUFFIX)  # another build may have made it
                    if kept is None:
                        kept = store.put_bytes(name, SUFFIX, pack(state.watched(maker.make(span), span)))
                        if moving:
                            give_back()
                    files[name] = kept
        except BaseException as error:
            state.failed(error)
        finally:
            maker.close()

    threads = [threading.Thread(target=work, daemon=True) for _ in range(min(workers, len(batches)))]
    for thread in threads:
        thread.start()
    try:
        for thread in threads:
            while thread.is_alive():
                thread.join(0.2)
                state.tell()
    finally:
        state.stop.set()
        for thread in threads:
            thread.join()
        give_back()
    if state.error is not None:
        raise state.error
    return Made(tuple(files[name] for name in names), len(missing), len(names) - len(missing))


class _State:
    """What the threads of one film share."""

    def __init__(self, progress: Progress, total: float) -> None:
        self.stop = threading.Event()
        self.error: BaseException | None = None
        self._progress = progress
        self._total = total
        self._done = 0.0
        self._lock = threading.Lock()

    def watched(self, frames: Iterable[Coded], span: Span) -> Iterator[Coded]:
        """The frames, counted for the progress, and broken off where the film is."""
        share = _cost(span) / max(1, span.count)
        for coded in frames:
            if self.stop.is_set():
                raise InterruptedError("the film is broken off")
            with self._lock:
                self._done += share
            yield coded

    def failed(self, error: BaseException) -> None:
        with self._lock:
            if self.error is None:
                self.error = error
        self.stop.set()

    def tell(self) -> None:
        if self._total:
            self._progress(min(1.0, self._done / self._total), "encoding pictures")


def _cost(span: Span) -> float:
    """About how long a span takes, in live frames."""
    if span.live:
        return float(span.count)
    return sum(3.0 if run.before is not None else 1.5 + run.count / 400 for run in span.runs)


def _batches(missing: list[tuple[str, Span]], workers: int) -> deque[list[tuple[str, Span]]]:
    """Neighbouring spans together, so that a recording with few key frames is not decoded again and again. What needs no
    recording is shared out one by one, the longest first, so that all are done at the same time."""
    alone = [item for item in missing if all(run.source is None for run in item[1].runs)]
    alone.sort(key=lambda item: _cost(item[1]), reverse=True)
    rest = [item for item in missing if any(run.source is not None for run in item[1].runs)]
    total = sum(_cost(span) for _, span in rest)
    size = max(total / (workers * 4), 1.0)
    batches: deque[list[tuple[str, Span]]] = deque()
    batch: list[tuple[str, Span]] = []
    cost = 0.0
    for item in rest:
        batch.append(item)
        cost += _cost(item[1])
        if cost >= size:
            batches.append(batch)
            batch, cost = [], 0.0
    if batch:
        batches.append(batch)
    batches.extend([item] for item in alone)
    return batches
