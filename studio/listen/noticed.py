"""What is noticed about a take as a whole: takes in another order, talk before and after the script, a sudden end."""

from __future__ import annotations

from collections.abc import Sequence
from statistics import median

from studio.listen.model import SaidWord, Take
from studio.listen.recording import Recording, clock
from studio.listen.tokens import FILLERS, tokens
from studio.script.model import Lesson


def about_take(lesson: Lesson, take: Take, recording: Recording) -> list[str]:
    """Plain sentences for the teacher; none where nothing is to be said."""
    return [*_order(lesson, take, recording), *_talk_around(take), *_stops(take)]


def _order(lesson: Lesson, take: Take, recording: Recording) -> list[str]:
    """The order of the script for takes that were given in another one."""
    if len(recording.takes) < 2 or not take.moved:
        return []
    spoken: dict[int, list[int]] = {}
    for number, file in enumerate(recording.takes):
        places = [
            said.word for said in take.said
            if said.word is not None and said.verdict != "skipped" and _in(file.start, file.duration, said.start)
        ]  # fmt: skip
        places += [each.word for each in take.moved if _in(file.start, file.duration, each.start)]
        if places:
            spoken[number] = places
    order = sorted(spoken, key=lambda number: median(spoken[number]))
    if order == sorted(order):
        return []
    names = ", ".join(recording.takes[number].path.name for number in order)
    return [f"The takes are not in the order of the script; give them in this one: {names}."]


def _in(start: float, length: float, time: float) -> bool:
    return start <= time < start + length


def _talk_around(take: Take) -> list[str]:
    """Talk before the first and after the last word of the script."""
    script = [at for at, said in enumerate(take.said) if said.word is not None and said.verdict != "skipped"]
    if not script:
        return []
    notes = []
    for said in (take.said[: script[0]], take.said[script[-1] + 1 :]):
        talk = [word for word in said if word.verdict == "extra" and not _explained(word, take)]
        if len(talk) >= 2:
            times = f"{clock(talk[0].start)}–{clock(talk[-1].end)}"
            notes.append(f"What is said at {times} is not in the script; cut it? (“{_some(talk)}”)")
    return notes


def _explained(word: SaidWord, take: Take) -> bool:
    known = FILLERS.issuperset(tokens(word.heard))
    listed = any(retake.start <= word.start < retake.end for retake in take.retakes)
    return known or listed or any(each.start <= word.start < each.end for each in take.moved)


def _some(words: Sequence[SaidWord], most: int = 6) -> str:
    text = " ".join(word.heard for word in words[:most])
    return f"{text} …" if len(words) > most else text


def _stops(take: Take) -> list[str]:
    """Where only the end of the script is missing."""
    mine = [said for said in take.said if said.word is not None]
    last = max((at for at, said in enumerate(mine) if said.verdict != "skipped"), default=-1)
    missing = mine[last + 1 :]
    lines = {said.line for said in missing} - {mine[last].line}
    if last < 0 or take.moved or len(missing) < 6 or not lines:
        return []
    return [f"The recording stops after line {mine[last].line} of the script; is the file whole?"]
