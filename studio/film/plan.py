"""The film as a plan: runs of frames, gathered into spans that can be made apart from each other. Pure values.

A span is known by the content of everything that goes into it. Where spans begin is decided by that content as well
(by key frames of the recording, by title cards), so that a change in one place leaves the spans elsewhere as they were.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from studio.film.footage import TICKS, Reel
from studio.film.scene import Scene, Stay
from studio.film.settings import FilmSettings
from studio.timing.cuesheet import CueSheet

LIVE_SECONDS = 5  # as far as a player has to look back anyhow: a span is a group
STILL_SECONDS = 8


@dataclass(frozen=True, slots=True)
class Run:
    """`count` frames in which only her picture changes, or which are steps of a motion.

    `source` is the time in the reel of the first frame (ticks; None: there is none); her picture moves where
    `live`, else it stands. With `before`, the frames are the steps `step`, `step` + 1 … of `steps` on the way from
    `before` to `scene`.
    """

    count: int
    scene: Scene
    source: int | None
    live: bool
    before: Scene | None = None
    step: int = 0
    steps: int = 0

    def part(self, first: int, count: int, fps: int) -> Run:
        """Frames `first` to `first` + `count` of the run."""
        source = self.source
        if source is not None and self.live:
            source += first * TICKS // fps
        return replace(self, count=count, source=source, step=self.step + first if self.before else 0)

    def source_at(self, index: int, fps: int) -> int | None:
        """The time in the reel of frame `index` of the run."""
        if self.source is None or not self.live:
            return self.source
        return self.source + index * TICKS // fps


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of the film that begins and ends with whole groups; `first` is its first frame in the film."""

    first: int
    runs: tuple[Run, ...]

    @property
    def count(self) -> int:
        return sum(run.count for run in self.runs)

    @property
    def live(self) -> bool:
        return self.runs[0].live


@dataclass(frozen=True, slots=True)
class _Stretch:
    """Frames `first` to `end` with one source; the frame `first` shows the reel at `source`."""

    first: int
    end: int
    source: int | None
    live: bool


def make_plan(scenes: Sequence[Stay], sheet: CueSheet, settings: FilmSettings, reel: Reel | None) -> list[Span]:
    """The spans of the film in order; together they have the film's number of frames."""
    fps = settings.fps
    stretches = _stretches(sheet, scenes[-1].end, fps, picture=reel is not None and reel.picture)
    spans: list[Span] = []
    gathered: list[Run] = []
    length = 0

    def close() -> None:
        nonlocal gathered, length
        if gathered:
            spans.append(Span(spans[-1].first + spans[-1].count if spans else 0, tuple(gathered)))
            gathered, length = [], 0

    cut: int | None = None  # where the reel is cut next
    due: int | None = None  # the time in the reel that would go on from the last live run
    for run in _runs(scenes, stretches, settings):
        if gathered and (run.live != gathered[0].live or _begins(run, length, fps)):
            close()
        if not run.live or run.source is None or reel is None:
            gathered.append(run)
            length += run.count
            continue
        if run.source != due or not gathered:
            close()
            cut = _next_cut(reel, run.source)
        due = run.source_at(run.count, fps)
        done = 0
        while done < run.count:
            ahead = run.count if cut is None else -(-(cut - run.source) * fps // TICKS)
            if ahead <= done:  # the next frame is the first after the cut
                close()
                at = run.source_at(done, fps)
                assert at is not None
                cut = _next_cut(reel, at)
                continue
            end = min(run.count, ahead)
            gathered.append(run.part(done, end - done, fps))
            length += end - done
            done = end
    close()
    return spans


def _begins(run: Run, length: int, fps: int) -> bool:
    """Whether a span of still pictures begins anew with `run`, `length` frames after its beginning: with a title card,
    or with a picture that stands, so that a motion is in one span with the picture that moves."""
    return not run.live and run.before is None and (run.scene.title is not None or length >= STILL_SECONDS * fps)


def _next_cut(reel: Reel, time: int) -> int | None:
    """The first place after `time` at which the reel may be cut well."""
    index, inside = reel.where(time)
    take, start = reel.takes[index], reel.starts[index]
    if take.size is None:
        return None
    grid = LIVE_SECONDS * TICKS
    target = inside // grid * grid
    while target < take.duration:
        place = bisect_right(take.entries, target - 1)
        cut = take.entries[place] if place < len(take.entries) else None
        if cut is None or cut > target + 2 * TICKS:
            cut = target  # key frames are far apart: cut all the same
        if cut > inside:
            return start + cut
        target += grid
    return start + take.duration if index + 1 < len(reel.takes) else None


def _stretches(sheet: CueSheet, total: int, fps: int, *, picture: bool) -> list[_Stretch]:
    if not picture:
        return [_Stretch(0, total, None, False)]
    result: list[_Stretch] = []
    held = next((round(p.source * TICKS) for p in sheet.pieces if p.source is not None), 0)
    for piece in sheet.pieces:
        first = min(total, round(piece.start * fps))
        end = min(total, round((piece.start + piece.duration) * fps))
        if piece.source is not None:
            source = round(piece.source * TICKS)
            if end > first:
                result.append(_Stretch(first, end, source, True))
                held = source + (end - first - 1) * TICKS // fps
        elif end > first:
            result.append(_Stretch(first, end, held, False))
    if not result or result[-1].end < total:
        result.append(_Stretch(result[-1].end if result else 0, total, held, False))
    return result


def _runs(scenes: Sequence[Stay], stretches: Sequence[_Stretch], settings: FilmSettings) -> Iterator[Run]:
    longest = round(settings.motion * settings.fps)
    for index, stay in enumerate(scenes):
        end = stay.end
        following = scenes[index + 1].scene if index + 1 < len(scenes) else None
        moving = 0
        if following is not None and moves(stay.scene, following):
            moving = min(longest, (stay.end - stay.first) // 2)
            moving = moving if moving > 1 else 0
        yield from _sourced(stay.first, end - moving, stay.scene, None, stretches, settings.fps)
        if moving:
            assert following is not None
            yield from _sourced(end - moving, end, following, stay.scene, stretches, settings.fps)


def moves(before: Scene, after: Scene) -> bool:
    """Whether pictures move on the way from one scene to the next. A title card and her picture's place change at
    once, and so do the beads of a wait."""
    return (
        before.placed != after.placed and before.title is None and after.title is None and before.camera == after.camera
    )


def _sourced(
    first: int, end: int, scene: Scene, before: Scene | None, stretches: Sequence[_Stretch], fps: int
) -> Iterator[Run]:
    """Frames `first` to `end` of a scene, cut where the source changes."""
    for stretch in stretches:
        a, b = max(first, stretch.first), min(end, stretch.end)
        if a >= b:
            continue
        source, live = stretch.source, stretch.live
        if scene.camera == "off" and (before is None or before.camera == "off"):
            source, live = None, False
        elif live and source is not None:
            source += (a - stretch.first) * TICKS // fps
        steps = end - first if before is not None else 0
        yield Run(b - a, scene, source, live, before, a - first if before is not None else 0, steps)
