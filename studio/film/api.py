"""The film's public face: a lesson and its cue sheet go in, a film and what it shows come out."""

from __future__ import annotations

import shutil
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from pathlib import Path
from threading import Event
from typing import Any

from studio.files import say_os_error, whole_file
from studio.film.settings import FilmSettings
from studio.pictures.themes import Theme
from studio.progress import Progress
from studio.script.model import Lesson
from studio.store import Store
from studio.timing.cuesheet import CueSheet

_TRIES = 4  # how often a film is put together anew when a part of it has gone


@dataclass(frozen=True, slots=True)
class ShownCue:
    """What the film shows from `time` (seconds) on: picture `picture` is wholly on the screen and right.

    `box` is its place in film pixels: x, y, width, height. `marks` are the counts of drawn things, `numbers` what a
    child can read off.
    """

    time: float
    picture: str
    kind: str
    numbers: tuple[int, ...]
    marks: dict[str, int]
    box: tuple[int, int, int, int]

    def as_json(self) -> dict[str, Any]:
        return {
            "time": self.time,
            "picture": self.picture,
            "kind": self.kind,
            "numbers": list(self.numbers),
            "marks": dict(self.marks),
            "box": list(self.box),
        }


@dataclass(frozen=True, slots=True)
class Film:
    """A film that was made. `encoded` and `reused` count its spans."""

    path: Path
    duration: float
    fps: int
    width: int
    height: int
    frames: int
    cues: tuple[ShownCue, ...]
    encoded: int
    reused: int


def make_film(
    lesson: Lesson,
    sheet: CueSheet,
    out: Path,
    *,
    recordings: Sequence[Path] = (),
    theme: Theme | None = None,
    settings: FilmSettings | None = None,
    captions_srt: str | None = None,
    progress: Progress | None = None,
    store: Store | None = None,
) -> Film:
    """Make the film of a lesson at `out` (MP4: H.264, AAC, chapters and captions inside, fast start).

    `recordings` are the teacher's takes in order; the cue sheet's source times run through all of them. `captions_srt`
    is the text of a SubRip file. `progress` is called with how much is done (0 to 1) and what is being done, from the
    calling thread. Spans that the store holds are not made again, so a build that was broken off goes on where it was.
    Raises UnusableInput with one sentence (recording unreadable, disk full, folder not writable).
    """
    from studio.film import places
    from studio.film.footage import look_at_all
    from studio.film.join import PartGone, captions_file, join
    from studio.film.plan import make_plan
    from studio.film.scene import shown, stays
    from studio.film.sound import make_sound, sound_key
    from studio.film.spans import make_all
    from studio.pictures.themes import load_theme

    theme = theme or load_theme()
    settings = settings or FilmSettings()
    if theme.calm:
        settings = replace(settings, motion=0.0)
    store = store or Store()
    tell = progress or (lambda done, what: None)
    tell(0.0, "looking at the recording" if recordings else "laying out the film")
    recordings = [Path(recording) for recording in recordings]
    work: Path | None = None
    broken = Event()
    try:
        work = store.work_folder()
        reel = look_at_all(recordings, store, work) if recordings else None
        scenes = stays(lesson, sheet, settings, places.arranging(settings), picture=reel is not None and reel.picture)
        spans = make_plan(scenes, sheet, settings, reel)
        key = sound_key(sheet, [take.key for take in reel.takes] if reel else [], settings)

        def go_on(done: float) -> None:
            if broken.is_set():
                raise InterruptedError("the film is broken off")

        captions = captions_file(captions_srt or "", work, sheet.duration)
        encoded = 0
        for left in range(_TRIES, -1, -1):
            with ThreadPoolExecutor(1) as pool:
                sound = pool.submit(make_sound, sheet, recordings, key, store, work, settings, go_on)
                try:
                    made = make_all(
                        spans, store, theme, settings, reel, lambda done, what: tell(0.02 + 0.9 * done, what)
                    )
                    encoded += made.encoded
                    tell(0.92, "evening out the sound")
                    track = sound.result()
                except BaseException:
                    broken.set()
                    raise
            try:
                with whole_file(out) as temporary:
                    frames = join(
                        made.files,
                        track,
                        captions,
                        _chapters(sheet),
                        lesson.header.title,
                        temporary,
                        settings,
                        lambda done: tell(0.95 + 0.05 * done, "joining the film"),
                    )
                break
            except PartGone:
                # Another build has made room in the store in the meantime: what it took is made once more.
                if not left:
                    raise
        store.trim()
    except OSError as error:
        elsewhere = "set STUDIO_CACHE to a {} that you may write to"
        raise say_os_error(error, store.folder, elsewhere) from error
    finally:
        if work is not None:
            shutil.rmtree(work, ignore_errors=True)
    tell(1.0, "film made")
    cues = tuple(
        ShownCue(
            time=_time_of(item.frame, settings.fps),
            picture=item.placed.name,
            kind=item.placed.picture.kind,
            numbers=tuple(item.placed.picture.numbers),
            marks=dict(item.placed.picture.marks),
            box=item.placed.box,
        )
        for item in shown(scenes)
    )
    return Film(
        out,
        frames / settings.fps,
        settings.fps,
        settings.width,
        settings.height,
        frames,
        cues,
        encoded,
        max(0, len(spans) - encoded),
    )


def _time_of(frame: int, fps: int) -> float:
    """A time at which a player shows that frame, in whole milliseconds: its start, rounded up."""
    return -(-frame * 1000 // fps) / 1000


def _chapters(sheet: CueSheet) -> list[Any]:
    from studio.film.join import Chapter

    starts = [segment.start for segment in sheet.segments]
    ends = [*starts[1:], sheet.duration]
    return [
        Chapter(segment.title, start, end)
        for segment, start, end in zip(sheet.segments, starts, ends, strict=True)
        if end > start
    ]
