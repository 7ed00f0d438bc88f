"""A track from a recording that was laid against the lesson."""

from __future__ import annotations

from studio.listen.model import Take
from studio.script.model import Lesson
from studio.timing.cuesheet import SpokenWord
from studio.timing.track import Track


def recorded_track(lesson: Lesson, take: Take) -> Track:
    """When each word of the script was said. Words that were skipped have the time at which they would have come."""
    found: dict[int, tuple[float, float]] = {
        said.word: (said.start, said.end) for said in take.said if said.word is not None
    }
    times: list[tuple[float, float]] = []
    now = 0.0
    for word in lesson.words:
        start, end = found.get(word.index, (now, now))
        start = max(now, start)
        times.append((start, max(start, end)))
        now = start
    spoken: list[SpokenWord] = []
    now = 0.0
    for said in take.said:
        if said.verdict == "skipped":
            continue
        start = max(now, said.start)
        text = said.text
        if said.word is not None and said.verdict in ("as-written", "unsure"):
            text = lesson.words[said.word].text
        spoken.append(SpokenWord(said.word, text, start, max(start, said.end)))
        now = start
    duration = max(take.duration, spoken[-1].end if spoken else 0.0)
    return Track(tuple(times), tuple(spoken), duration, True)
