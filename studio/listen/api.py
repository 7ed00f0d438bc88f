"""Listening in one call: recording and script in, words, chapters and places to record again out."""

from __future__ import annotations

import contextlib
import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from studio.errors import UnusableInput
from studio.listen import chapters as chapters_of
from studio.listen.align import lay
from studio.listen.chapters import Chapter
from studio.listen.model import Heard, HeardWord, Take
from studio.listen.models import SpeechModel, find_model
from studio.listen.recording import Recording, Sound, load
from studio.listen.take import make_take
from studio.progress import Progress, part, silent
from studio.script.model import Lesson


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
            retakes = [
                {
                    "start": retake.start,
                    "end": retake.end,
                    "line": retake.line,
                    "script": retake.script,
                    "heard": retake.heard,
                    "reason": retake.reason,
                }
                for retake in self.take.retakes
            ]
        return {
            "words": words,
            "chapters": [{"title": chapter.title, "start": round(chapter.start, 3)} for chapter in self.chapters],
            "retakes": retakes,
        }


def _word(text: str, start: float, end: float, line: int | None, verdict: str) -> dict[str, Any]:
    return {"text": text, "start": round(start, 3), "end": round(end, 3), "line": line, "verdict": verdict}


def listen(
    paths: Sequence[str | Path] | str | Path,
    lesson: Lesson | None = None,
    model: str | Path | None = None,
    progress: Progress = silent,
    cache: bool = True,
) -> Listening:
    """Hear a recording (one file or several takes in order) and, with a lesson, lay it against the script.

    `model` is a packaged model's name, a folder or None for the installed one; `progress` is called with the share
    done and a few words. Raises UnusableInput with one plain sentence: not media, no sound, cut off, silent, no
    model, no words, another lesson.
    """
    found = find_model(model)
    recording, sound = load(paths, part(progress, 0.0, 0.1))
    heard = hear_sound(sound, found, part(progress, 0.1, 0.9), cache)
    notes = list(sound.notes)
    if not heard.words:
        raise UnusableInput(
            "no words can be heard in it; check that it is the right file.", str(recording.takes[0].path)
        )
    if lesson is None:
        progress(1.0, "done")
        return Listening(recording, heard, None, tuple(chapters_of.from_pauses(heard)), tuple(notes))
    alignment = lay(lesson.words, heard.words)
    take = make_take(lesson.words, heard, alignment)
    _belongs(take, heard, lesson, recording)
    progress(1.0, "done")
    return Listening(recording, heard, take, tuple(chapters_of.from_script(lesson, take)), tuple(notes))


def _belongs(take: Take, heard: Heard, lesson: Lesson, recording: Recording) -> None:
    """Raise UnusableInput where the recording is not of this lesson."""
    script = [word for word in take.said if word.word is not None]
    found = sum(word.verdict in ("as-written", "unsure") for word in script)
    share_heard = found / max(1, len(heard.words))
    if max(take.matched, share_heard) < 0.5:
        sure = sum(word.confidence for word in heard.words) / max(1, len(heard.words))
        what = "is in another language or belongs to another lesson" if sure < 0.5 else "belongs to another lesson"
        raise UnusableInput(
            f"this recording {what}: only {found} of the {len(script)} words of "
            f"'{lesson.header.title}' are heard in it ({take.matched:.0%}); choose the recording of this lesson.",
            str(recording.takes[0].path),
        )


def hear_sound(sound: Sound, model: SpeechModel, progress: Progress = silent, cache: bool = True) -> Heard:
    """What is heard in a sound, from the store where it was heard before with the same model and settings."""
    from studio.listen.ear import Ear
    from studio.listen.hear import SETTINGS, hear
    from studio.store import Store, content_key

    store = Store()
    key = content_key(sound.key, model.digest, SETTINGS)
    if cache and (kept := store.get(key, ".heard.json")) is not None:
        with contextlib.suppress(OSError, ValueError, TypeError, KeyError):
            return _read(kept)
    heard = hear(sound, Ear(model), progress)
    if cache:
        # Without room for it the result is not kept, and the next time takes as long as this one.
        with contextlib.suppress(OSError):
            store.put_bytes(key, ".heard.json", _written(heard))
    return heard


def _written(heard: Heard) -> bytes:
    words = [[word.text, word.start, word.end, word.confidence] for word in heard.words]
    return json.dumps({"words": words, "duration": heard.duration, "model": heard.model}).encode()


def _read(path: Path) -> Heard:
    kept = json.loads(path.read_bytes())
    words = tuple(HeardWord(text, start, end, confidence) for text, start, end, confidence in kept["words"])
    return Heard(words, kept["duration"], kept["model"])
