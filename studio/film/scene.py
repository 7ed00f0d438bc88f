"""What stands on the screen at a moment, and how the film's moments follow from the cue sheet. Pure values."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from studio.film.settings import FilmSettings
from studio.pictures.base import Picture
from studio.pictures.layout import Size, extent
from studio.script.model import CameraMode, Lesson
from studio.timing.cuesheet import Cue, CueSheet

Rect = tuple[int, int, int, int]
"""x, y, width, height in film pixels; all even."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A picture and its place: `size` is the room that it needs over all its steps in its own units, `scale` in film
    pixels a unit, `box` its place."""

    name: str
    picture: Picture
    size: Size
    scale: float
    box: Rect


@dataclass(frozen=True, slots=True)
class Title:
    """A title card: the segment's title, and the small line above it."""

    title: str
    above: str


@dataclass(frozen=True, slots=True)
class Waiting:
    """Time to think: `left` of `total` beads of the ring are still there."""

    words: str
    left: int
    total: int


@dataclass(frozen=True, slots=True)
class Scene:
    """All that stands on the screen. A title card covers everything else."""

    camera: CameraMode
    placed: tuple[Placed, ...] = ()
    title: Title | None = None
    waiting: Waiting | None = None


@dataclass(frozen=True, slots=True)
class Stay:
    """A scene from frame `first` to before frame `end`."""

    first: int
    end: int
    scene: Scene


Arrange = Callable[[Sequence[Size], CameraMode], Sequence[tuple[float, Rect]]]
"""Gives pictures of these sizes their scale and place, for where her picture is."""

MOST_BEADS = 24


def frame_at(time: float, fps: int) -> int:
    """The number of the frame that is on the screen at `time`."""
    return math.floor(time * fps + 1e-6)


def frame_count(sheet: CueSheet, fps: int) -> int:
    """How many frames the film has: the sound's length, to the nearest frame."""
    return max(1, round(sheet.duration * fps))


def stays(lesson: Lesson, sheet: CueSheet, settings: FilmSettings, arrange: Arrange, *, picture: bool) -> list[Stay]:
    """The scenes of the film in order, without a gap. `picture`: whether there is a moving picture of the teacher."""
    fps, total = settings.fps, frame_count(sheet, settings.fps)
    changes: list[tuple[int, int, Callable[[_State], None]]] = []

    def add(frame: int, change: Callable[[_State], None]) -> None:
        changes.append((min(max(0, frame), total), len(changes), change))

    for camera in sheet.cameras:
        add(frame_at(camera.time, fps), _set_camera(camera.mode if picture else "off"))
    for cue, size in zip(sheet.cues, _sizes(sheet.cues), strict=True):
        add(frame_at(cue.time, fps), _set_picture(cue.moment.name, cue.moment.picture, size))
    for segment in sheet.segments:
        if segment.card > 0:
            add(frame_at(segment.start, fps), _set_title(Title(segment.title, _above(lesson, segment.segment))))
            add(round((segment.start + segment.card) * fps), _set_title(None))
    for wait in sheet.waits:
        first, end = frame_at(wait.start, fps), frame_at(wait.end, fps)
        beads = _beads(wait.end - wait.start)
        for bead in range(beads):
            add(first + (end - first) * bead // beads, _set_waiting(Waiting(wait.words, beads - bead, beads)))
        add(end, _set_waiting(None))

    state = _State("full" if picture else "off")
    result: list[Stay] = []
    changes.sort(key=lambda item: item[:2])
    position, frame = 0, 0
    while frame < total:
        while position < len(changes) and changes[position][0] <= frame:
            changes[position][2](state)
            position += 1
        end = changes[position][0] if position < len(changes) else total
        scene = state.scene(arrange)
        if result and result[-1].scene == scene:
            result[-1] = Stay(result[-1].first, end, scene)
        else:
            result.append(Stay(frame, end, scene))
        frame = end
    return result


def _beads(seconds: float) -> int:
    """How many beads the ring of a wait has: one a second, or two where it is short."""
    return max(2, min(MOST_BEADS, round(seconds * (2 if seconds < 8 else 1))))


def _sizes(cues: Sequence[Cue]) -> list[Size]:
    """For each cue the room that its picture needs from when it is shown until it is hidden, so that it keeps its
    place while it changes. A picture of another kind under the same name is another picture."""
    sizes: list[Size] = [(0.0, 0.0)] * len(cues)
    lives: dict[str, list[int]] = {}

    def end(name: str) -> None:
        life = lives.pop(name, [])
        drawings = [picture.drawing() for at in life if (picture := cues[at].moment.picture) is not None]
        for at in life:
            sizes[at] = extent(drawings)

    for at, cue in enumerate(cues):
        name, picture = cue.moment.name, cue.moment.picture
        now = cues[lives[name][-1]].moment.picture if name in lives else None
        if picture is None or (now is not None and now.kind != picture.kind):
            end(name)
        if picture is not None:
            lives.setdefault(name, []).append(at)
    for name in list(lives):
        end(name)
    return sizes


class _State:
    def __init__(self, camera: CameraMode) -> None:
        self.camera: CameraMode = camera
        self.pictures: dict[str, tuple[Picture, Size]] = {}
        self.title: Title | None = None
        self.waiting: Waiting | None = None

    def scene(self, arrange: Arrange) -> Scene:
        if self.title is not None:
            return Scene("off", title=self.title)
        places = arrange([size for _, size in self.pictures.values()], self.camera)
        placed = tuple(
            Placed(name, picture, size, scale, box)
            for (name, (picture, size)), (scale, box) in zip(self.pictures.items(), places, strict=True)
        )
        return Scene(self.camera, placed, waiting=self.waiting)


def _set_camera(mode: CameraMode) -> Callable[[_State], None]:
    def change(state: _State) -> None:
        state.camera = mode

    return change


def _set_picture(name: str, picture: Picture | None, size: Size) -> Callable[[_State], None]:
    def change(state: _State) -> None:
        if picture is None:
            state.pictures.pop(name, None)
        else:
            state.pictures[name] = (picture, size)

    return change


def _set_title(title: Title | None) -> Callable[[_State], None]:
    def change(state: _State) -> None:
        state.title = title

    return change


def _set_waiting(waiting: Waiting | None) -> Callable[[_State], None]:
    def change(state: _State) -> None:
        state.waiting = waiting

    return change


def _above(lesson: Lesson, segment: int) -> str:
    """The small line of a title card: where the child is."""
    header = lesson.header
    parts = [header.series] if header.series else []
    if header.number is not None:
        parts.append(f"Lesson {header.number}")
    if not parts and header.title != lesson.segments[segment].title:
        parts.append(header.title)
    return " · ".join(parts)


@dataclass(frozen=True, slots=True)
class Shown:
    """One entry for the report: from the start of frame `frame` on, `placed` is wholly on the screen and right."""

    frame: int
    placed: Placed


def shown(scenes: Sequence[Stay]) -> list[Shown]:
    """One entry for each picture and each change of it or of its place."""
    result: list[Shown] = []
    before: tuple[Placed, ...] = ()
    covered = True
    for stay in scenes:
        if stay.scene.title is not None:
            covered = True
            continue
        result += [Shown(stay.first, placed) for placed in stay.scene.placed if covered or placed not in before]
        before, covered = stay.scene.placed, False
    return result
