"""Each picture in words, with the time from which it holds, for a child who cannot see it."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass

from studio.captions.text import tidy
from studio.script.model import Direction
from studio.timing.cuesheet import Cue, CueSheet


@dataclass(frozen=True, slots=True)
class Description:
    """What came on or changed, said from `start` on; `end` is when the next thing happens."""

    start: float
    end: float
    text: str


def make_descriptions(sheet: CueSheet) -> tuple[Description, ...]:
    """One description for each picture that comes on, for what each change leaves, and for the words that stand on the
    screen in a wait: nobody speaks them.

    A count is described once, when it is done: its steps are said by the teacher as they happen. Pictures that change
    at the same moment share a description.
    """
    texts: dict[int, dict[str, str]] = {}
    for cue in settled(sheet):
        if cue.moment.picture is not None:
            texts.setdefault(round(cue.time * 1000), {})[cue.moment.name] = tidy(cue.moment.picture.description())
    changes = sorted({round(cue.time * 1000) for cue in sheet.cues})
    found = []
    for start in sorted(texts):
        following = bisect_right(changes, start)
        end = changes[following] if following < len(changes) else max(round(sheet.duration * 1000), start + 1)
        said = ". ".join(text.rstrip(".") for text in texts[start].values() if text)
        if said:
            found.append(Description(start / 1000, end / 1000, said + "."))
    for wait in sheet.waits:
        if tidy(wait.words):
            found.append(Description(round(wait.start, 3), round(wait.end, 3), f"On the screen: {tidy(wait.words)}"))
    return tuple(sorted(found, key=lambda description: description.start))


def settled(sheet: CueSheet) -> tuple[Cue, ...]:
    """The cues that leave something to look at: of the steps of one direction for one picture, and of what happens to
    it at one moment, the last."""
    last: dict[tuple[str, Direction], int] = {}
    for position, cue in enumerate(sheet.cues):
        last[(cue.moment.name, cue.moment.direction)] = position
    at_once: dict[tuple[str, float], int] = {}
    for position in sorted(last.values()):
        cue = sheet.cues[position]
        at_once[(cue.moment.name, cue.time)] = position
    keep = set(at_once.values())
    return tuple(cue for position, cue in enumerate(sheet.cues) if position in keep)
