"""Listening in one call: recording and script in, words, chapters and places to record again out."""

from __future__ import annotations

import contextlib
import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from studio.errors import UnusableInput
from studio.listen import chapters as chapters_of
from studio.listen.align import Alignment, lay
from studio.listen.chapters import Chapter
from studio.listen.model import Heard, HeardWord, Take
from studio.listen.models import SpeechModel, find_model
from studio.listen.noticed import about_take
from studio.listen.recording import Recording, Sound, load
from studio.listen.take import Judged, make_take
from studio.progress import Progress, part, silent
from studio.script.model import Lesson

if TYPE_CHECKING:
    from studio.listen.ear import Ear


FEWEST = 5
"""Words of the script that must be heard in a recording, be it of one part only; fewer are heard in anything."""

ENOUGH = 0.25
"""Share of the script's words with which a shorter script need not have so many."""

HARDLY = 0.3
"""Share of the script's words; a recording in which fewer are heard is judged by them alone whether it belongs."""


@dataclass(frozen=True)
class Listening:
    """All that listening gives. `take` is None without a script; `notes` are plain sentences for the teacher."""

    recording: Recording
    heard: Heard
    take: Take | None
    chapters: tuple[Chapter, ...]
    notes: tuple[str, ...]

    def as_json(self) -> dict[str, Any]:
        """The value of `listen --json`; seconds."""
        if self.take is None:
            words = [_word(word.text, word.start, word.end, None, "extra") for word in self.heard.words]
            retakes: list[dict[str, Any]] = []
        else:
            words = [_word(word.text, word.start, word.end, word.line, word.verdict) for word in self.take.said]
            retakes = [retake.as_json() for retake in self.take.retakes]
        return {
            "words": words,
            "chapters": [{"title": chapter.title, "start": round(chapter.start, 3)} for chapter in self.chapters],
            "retakes": retakes,
        }


def _word(text: str, start: float, end: float, line: int | None, verdict: str) -> dict[str, Any]:
    return {"text": text, "start": round(start, 3), "end": round(end, 3), "line": line, "verdict": verdict}


class Ears:
    """A model that is loaded when it is first needed and may be used for several recordings."""

    def __init__(self, model: str | Path | None = None) -> None:
        self.model: SpeechModel = find_model(model)
        self._ear: Ear | None = None

    @property
    def ear(self) -> Ear:
        """The loaded model."""
        if self._ear is None:
            from studio.listen.ear import Ear

            self._ear = Ear(self.model)
        return self._ear

    def __enter__(self) -> Ears:
        return self

    def __exit__(self, *_: object) -> None:
        self._ear = None


def listen(
    paths: Sequence[str | Path] | str | Path,
    lesson: Lesson | None = None,
    model: str | Path | Ears | None = None,
    progress: Progress = silent,
    cache: bool = True,
) -> Listening:
    """Hear a recording (one file or several takes in order) and, with a lesson, lay it against the script.

    `model` is a packaged model's name, a folder, None for the installed one, or `Ears` to be used again; `progress` is
    called with the share done and a few words. Raises UnusableInput with one plain sentence: not media, no sound, cut
    off, silent, no model, no words, another lesson.
    """
    ears = model if isinstance(model, Ears) else Ears(model)
    recording, sound = load(paths, part(progress, 0.0, 0.1))
    heard = hear_sound(sound, ears, part(progress, 0.1, 0.7), cache)
    notes = list(sound.notes)
    if not heard.words:
        raise UnusableInput(
            "no words can be heard in it; check that it is the right file.", str(recording.takes[0].path)
        )
    if lesson is None:
        progress(1.0, "done")
        return Listening(recording, heard, None, tuple(chapters_of.from_pauses(heard)), tuple(notes))
    alignment = lay(lesson.words, heard.words)
    if alignment.matched < HARDLY:
        # Nothing that the sound says about single words can make it this lesson.
        _belongs(make_take(lesson.words, heard, alignment), heard, lesson, recording)
    judged = judge_sound(lesson, heard, alignment, sound, ears, part(progress, 0.7, 1.0), cache)
    take = make_take(lesson.words, heard, alignment, judged)
    _belongs(take, heard, lesson, recording)
    progress(1.0, "done")
    notes += about_take(lesson, take, recording)
    return Listening(recording, heard, take, tuple(chapters_of.from_script(lesson, take)), tuple(notes))


def _belongs(take: Take, heard: Heard, lesson: Lesson, recording: Recording) -> None:
    """Raise UnusableInput where the recording is not of this lesson."""
    script = [word for word in take.said if word.word is not None]
    found = sum(word.verdict in ("as-written", "unsure") for word in script)
    share_heard = found / max(1, len(heard.words))
    few = found < FEWEST and take.matched < ENOUGH
    if few or max(take.matched, share_heard) < 0.5:
        sure = sum(word.confidence for word in heard.words) / max(1, len(heard.words))
        what = "belongs to another lesson"
        if few and share_heard >= 0.5:
            what = "holds too little of the lesson"
        elif sure < 0.5:
            what = "is too unclear (echo, noise), is in another language, or belongs to another lesson"
        are = "is" if found == 1 else "are"
        raise UnusableInput(
            f"this recording {what}: only {found} of the {len(script)} words of "
            f"'{lesson.header.title}' {are} heard in it ({take.matched:.0%}); choose the recording of this lesson.",
            str(recording.takes[0].path),
        )


def hear_sound(sound: Sound, ears: Ears, progress: Progress = silent, cache: bool = True) -> Heard:
    """What is heard in a sound, from the store where it was heard before with the same model and settings."""
    from studio.listen.hear import SETTINGS, hear

    def work() -> Any:
        return _kept(hear(sound, ears.ear, progress))

    return _given(_from_store((sound.key, ears.model.digest, SETTINGS), ".heard.json", work, cache))


def judge_sound(
    lesson: Lesson,
    heard: Heard,
    alignment: Alignment,
    sound: Sound,
    ears: Ears,
    progress: Progress = silent,
    cache: bool = True,
) -> dict[int, Judged]:
    """What the sound says about the number words of the script, from the store where it was asked before."""
    from studio.listen.hear import gain_for
    from studio.listen.judge import SETTINGS, judge

    def work() -> Any:
        found = judge(lesson.words, heard, alignment, sound, ears.ear, gain_for(sound), progress)
        return {str(word): [judged.verdict, judged.heard] for word, judged in found.items()}

    script = [[word.text, word.sentence] for word in lesson.words]
    key = (sound.key, ears.model.digest, SETTINGS, _kept(heard), script)
    kept = _from_store(key, ".judged.json", work, cache)
    return {int(word): Judged(verdict, said) for word, (verdict, said) in kept.items()}


def _from_store(parts: Sequence[Any], suffix: str, work: Callable[[], Any], cache: bool) -> Any:
    """The JSON value that `work` gives, kept under the content of `parts`."""
    from studio.store import Store, content_key

    store = Store()
    key = content_key(*parts)
    if cache and (kept := store.get(key, suffix)) is not None:
        with contextlib.suppress(OSError, ValueError):
            return json.loads(kept.read_bytes())
    value = work()
    if cache:
        # Without room for it the result is not kept, and the next time takes as long as this one.
        with contextlib.suppress(OSError):
            store.put_bytes(key, suffix, json.dumps(value).encode())
    return value


def _kept(heard: Heard) -> Any:
    words = [[word.text, word.start, word.end, word.confidence] for word in heard.words]
    return {"words": words, "duration": heard.duration, "model": heard.model, "unclear": [*map(list, heard.unclear)]}


def _given(kept: Any) -> Heard:
    words = tuple(HeardWord(text, start, end, confidence) for text, start, end, confidence in kept["words"])
    unclear = tuple((start, end) for start, end in kept["unclear"])
    return Heard(words, kept["duration"], kept["model"], unclear)
