"""A lesson as a MoviePy clip: its frames are put together when they are asked for, nothing is encoded.

from studio.film.clip import lesson_clip

clip = lesson_clip(lesson, sheet, recordings=[Path("take.mp4")])
clip.subclipped(10, 25).write_videofile("excerpt.mp4", fps=30)
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from studio.film.settings import FilmSettings
from studio.pictures.themes import Theme
from studio.script.model import Lesson
from studio.store import Store
from studio.timing.cuesheet import CueSheet

if TYPE_CHECKING:
    from moviepy import VideoClip


def lesson_clip(
    lesson: Lesson,
    sheet: CueSheet,
    *,
    recordings: Sequence[Path] = (),
    theme: Theme | None = None,
    settings: FilmSettings | None = None,
    store: Store | None = None,
) -> VideoClip:
    """The lesson's film as a clip, with its sound where there is a recording: what `make_film` would show, frame for
    frame. To cut it, lay something over it or join it with others; `make_film` is much faster for the film itself.

    Raises UnusableInput where a recording cannot be read.
    """
    import shutil

    from moviepy import AudioFileClip, VideoClip

    from studio.film import places
    from studio.film.footage import look_at_all
    from studio.film.plan import make_plan
    from studio.film.scene import stays
    from studio.film.sound import make_sound, sound_key
    from studio.film.spans import Maker
    from studio.pictures.themes import load_theme

    theme, settings, store = theme or load_theme(), settings or FilmSettings(), store or Store()
    paths = [Path(path) for path in recordings]
    work = store.work_folder()
    try:
        reel = look_at_all(paths, store, work) if paths else None
        scenes = stays(lesson, sheet, settings, places.arranging(settings), picture=reel is not None and reel.picture)
        runs = [run for span in make_plan(scenes, sheet, settings, reel) for run in span.runs]
        sound = None
        if reel is not None:
            key = sound_key(sheet, [take.key for take in reel.takes], settings)
            sound = make_sound(sheet, paths, key, store, work, settings, lambda done: None)
    finally:
        shutil.rmtree(work, ignore_errors=True)
    firsts = [0]
    for run in runs:
        firsts.append(firsts[-1] + run.count)
    maker = Maker(theme, settings, reel)

    def pixels(time: float) -> Any:
        number = min(firsts[-1] - 1, max(0, int(time * settings.fps + 1e-6)))
        at = bisect_right(firsts, number) - 1
        return maker.frame(runs[at], number - firsts[at]).to_ndarray(format="rgb24")

    clip = VideoClip(pixels, duration=firsts[-1] / settings.fps).with_fps(settings.fps)
    return clip.with_audio(AudioFileClip(str(sound)).subclipped(0, clip.duration)) if sound is not None else clip
