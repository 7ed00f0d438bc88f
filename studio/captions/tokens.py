"""The spoken words as pieces of caption text with times in milliseconds."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass, replace

from studio.captions.text import tidy
from studio.script.model import ChangePicture, FillIn, Lesson, Show, TurnOver
from studio.timing.cuesheet import CueSheet

_ANSWERS = (FillIn, TurnOver)
_ENDS = (".", "?", "!", "…")
_CLOSERS = "\"'”’»)]"
_JOINERS = ("\u200d", "\ufe0e", "\ufe0f")


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of caption text. `glued`: no space before it. `words` is how many spoken words it stands for (0: the
    later part of a word that had to be cut). What lies before it: `new_sentence`, `new_thought` (a paragraph begins, or
    a picture comes on), `new_segment`, `after_wait`. `reveals`: a picture gives an answer away with it. `line` is its
    line in the script (0: not from there)."""

    text: str
    start: int
    end: int
    words: int = 1
    glued: bool = False
    new_sentence: bool = False
    new_thought: bool = False
    new_segment: bool = False
    after_wait: bool = False
    reveals: bool = False
    line: int = 0

    @property
    def ends_sentence(self) -> bool:
        return self.text.rstrip(_CLOSERS).endswith(_ENDS)


def make_tokens(lesson: Lesson, sheet: CueSheet) -> list[Token]:
    """The tokens of what was said, their starts strictly rising so that every one can begin a caption."""
    begins = [round(segment.start * 1000) for segment in sheet.segments]
    answers = {d.at for d in lesson.directions if isinstance(d, ChangePicture) and isinstance(d.change, _ANSWERS)}
    shown = {direction.at for direction in lesson.directions if isinstance(direction, Show)}
    waits = [(wait.start + wait.end) * 500 for wait in sheet.waits]
    tokens: list[Token] = []
    earliest = 0
    segment = wait = 0
    before = None
    for spoken in sheet.words:
        text = tidy(spoken.text)
        if not text:
            continue
        start = max(round(spoken.start * 1000), earliest)
        end = max(round(spoken.end * 1000), start + 1)
        segment_before, wait_before = segment, wait
        while segment < len(begins) and begins[segment] <= start:
            segment += 1
        while wait < len(waits) and waits[wait] <= start:
            wait += 1
        written = lesson.words[spoken.word] if spoken.word is not None else None
        follows = written is not None and before is not None and written.index == before.index + 1
        tokens.append(
            Token(
                text,
                start,
                end,
                glued=bool(written and written.glued and follows),
                new_sentence=bool(follows and written and before and written.sentence != before.sentence),
                new_thought=spoken.word in shown
                or bool(follows and written and before and written.paragraph != before.paragraph),
                new_segment=bool(tokens) and segment != segment_before,
                after_wait=wait != wait_before,
                reveals=spoken.word in answers,
                line=written.place.line if written else 0,
            )
        )
        before = written
        earliest = start + 1
    return tokens


def cut_long(tokens: list[Token], length: int) -> list[Token]:
    """The same with words longer than a line cut into pieces that fit, none inside a letter with its marks."""
    found: list[Token] = []
    for token in tokens:
        pieces = _cut(token.text, length)
        if len(pieces) == 1:
            found.append(token)
            continue
        step = (token.end - token.start) / len(pieces)
        for number, piece in enumerate(pieces):
            start = token.start + round(number * step)
            end = token.start + round((number + 1) * step)
            if number == 0:
                found.append(replace(token, text=piece, end=end))
            else:
                found.append(Token(piece, start, end, words=0, glued=True, line=token.line))
    return _rising(found)


def _rising(tokens: list[Token]) -> list[Token]:
    """Starts strictly rising; a token is moved by as few milliseconds as that takes."""
    found: list[Token] = []
    earliest = 0
    for token in tokens:
        if token.start < earliest:
            token = replace(token, start=earliest, end=max(token.end, earliest + 1))
        found.append(token)
        earliest = token.start + 1
    return found


def _cut(text: str, length: int) -> list[str]:
    if len(text) <= length:
        return [text]
    pieces = [""]
    for cluster in _clusters(text):
        for part in (cluster[at : at + length] for at in range(0, len(cluster), length)):
            if len(pieces[-1]) + len(part) > length:
                pieces.append("")
            pieces[-1] += part
    return [piece for piece in pieces if piece]


def _clusters(text: str) -> list[str]:
    """Letters with what is written on or joined to them (marks, variation selectors, joined emoji)."""
    found: list[str] = []
    for letter in text:
        joins = unicodedata.combining(letter) or letter in _JOINERS or (found and found[-1].endswith(_JOINERS[0]))
        if found and joins:
            found[-1] += letter
        else:
            found.append(letter)
    return found
