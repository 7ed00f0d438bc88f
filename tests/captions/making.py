"""Lessons and cue sheets made by hand, for tests of what is made from them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from studio.script.model import Header, Lesson, Place, Segment, Word
from studio.timing.cuesheet import CueSheet, Piece, SegmentStart, SpokenWord, WaitTime

Part = str | float
"""A paragraph that is said, or a wait in seconds."""

CARD = 2.0
PAUSE_AFTER = {",": 0.3, ";": 0.35, ":": 0.4, ".": 0.7, "?": 0.8, "!": 0.7}


def spoken_lesson(
    *segments: tuple[str, Sequence[Part]], pace: float = 110.0, title: str = "Partners of nine"
) -> tuple[Lesson, CueSheet]:
    """A lesson of (title, parts) and the cue sheet of somebody who says it at that articulation pace."""
    words: list[Word] = []
    said: list[SpokenWord] = []
    starts: list[SegmentStart] = []
    waits: list[WaitTime] = []
    lines: list[Segment] = []
    now, line, sentence, paragraph = 0.0, 5, 0, 0
    for number, (name, parts) in enumerate(segments):
        starts.append(SegmentStart(number, name, now, CARD))
        now += CARD
        first = len(words)
        for part in parts:
            line += 1
            if not isinstance(part, str):
                waits.append(WaitTime(now, now + part, ""))
                now += part
                continue
            column = 1
            for text in part.split():
                plain = text.lower().strip(".,;:!?\"'") or text
                words.append(Word(len(words), text, plain, Place(line, column), sentence, paragraph, number))
                length = 60 / pace * (0.5 + min(len(text), 10) / 10)
                said.append(SpokenWord(len(words) - 1, text, round(now, 3), round(now + length, 3)))
                now += length + PAUSE_AFTER.get(text[-1], 0.0)
                sentence += bool(re.search(r"[.?!]$", text))
                column += len(text) + 1
            sentence += 1
            paragraph += 1
        lines.append(Segment(number, name, Place(line, 1), tuple(words[first:]), ()))
    duration = round(now + 1.0, 3)
    sheet = CueSheet(
        duration, tuple(said), (), tuple(starts), tuple(waits), (), (Piece(0.0, duration, None),), recorded=False
    )
    return Lesson(Header(title, 12), tuple(lines), "pond.lesson.md"), sheet


POND = (
    ("Partners of nine", [
        "Hello! Today we look at the number nine. Nine frogs live at our pond.",
        "How many frogs are on the lily pad? I see seven.",
        5.0,
        "Seven and two make nine. Let us count on from seven: eight, nine.",
    ]),
    ("A story at the pond", [
        "Eleven ducks swim on the pond, and four of them hop onto the bank. How many ducks are still swimming?",
        8.0,
        "Eleven minus four is seven. 11 - 4 = 7 is the number sentence that goes with our story, and seven is "
        "the number that we found.",
        "Count back with me. Eleven, ten, nine, eight, seven.",
    ]),
)  # fmt: skip
