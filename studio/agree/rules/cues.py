"""A cue in round or curly brackets is no direction: "(pause)" and "{hold up five fingers}" are taken for spoken words and stand
in the captions. Told once for a lesson, as a note: an aside in brackets may be meant to be said."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from studio.agree.case import Case
from studio.findings import Finding
from studio.script.model import Word

NAME = "cue in brackets"
_LONGEST = 10  # words
_DOING = frozenset(
    "pause wait stop breathe point hold show shake tap clap look draw hide wave nod smile laugh whisper turn pick put push pat "
    "rattle run lift blow snap stamp jump touch open close lean cover uncover cross fold bend stretch trace slide drop roll "
    "clear note camera knock move pull raise lower sit stand hum sing grin wink frown sigh cough".split()
)
"""What a teacher does while she talks."""


def find(case: Case) -> Iterator[Finding]:
    if case.lesson is None:
        return
    cues = [*_cues(case.talk.words)]
    if not cues:
        return
    first = cues[0]
    said = " ".join(word.text for word in first).rstrip(".,;:!?")
    line = first[0].place.line
    more = len(cues) - 1
    others = f", and {more} more cue{'s' if more > 1 else ''} like it" if more else ""
    yield Finding(
        NAME,
        "note",
        line,
        first[0].place.column,
        said,
        "",
        f"Line {line}: “{said}” is taken for something you say{others}; it will stand in the captions.",
        f"If it is for you alone, write it in square brackets: [note: {said.strip('(){}')}], or [wait 3 s] for a pause.",
    )


def _cues(words: Sequence[Word]) -> Iterator[list[Word]]:
    """The words of each bracket that begins with something to do."""
    for at, word in enumerate(words):
        if not word.text.startswith(("(", "{")) or word.plain not in _DOING:
            continue
        for end in range(at + 1, min(at + _LONGEST, len(words)) + 1):
            if words[end - 1].paragraph != word.paragraph:
                break
            if {")", "}"} & {*words[end - 1].text}:
                yield list(words[at:end])
                break
