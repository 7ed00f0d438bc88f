"""The lesson in words: chapters as headings, words with their times, pictures where they come on."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from studio.captions.descriptions import settled
from studio.captions.text import short_clock, tidy
from studio.kit.contents import KitContents
from studio.kit.pages import render
from studio.kit.wording import spoken_length
from studio.pictures.painters.svg import svg
from studio.pictures.themes import hexadecimal
from studio.timing.cuesheet import Cue, SpokenWord, WaitTime


def transcript_page(contents: KitContents) -> str:
    """The page as HTML text."""
    return render(
        "transcript.html", contents, sections=_sections(contents), ground=hexadecimal(contents.theme.colour("paper"))
    )


def _sections(contents: KitContents) -> list[dict[str, Any]]:
    """One section a chapter, with its paragraphs, waits and pictures in order of time."""
    parts = _parts(contents)
    sections = []
    for number, chapter in enumerate(contents.chapters, 1):
        last = number == len(contents.chapters)
        own = [p for start, p in parts if chapter.start <= start and (start < chapter.end or last)]
        sections.append({"anchor": f"part-{number}", "title": chapter.title, "parts": own})
    return sections


def _parts(contents: KitContents) -> list[tuple[float, dict[str, Any]]]:
    sheet, lesson = contents.sheet, contents.lesson
    events: list[tuple[float, int, SpokenWord | WaitTime | Cue]] = [(word.start, 1, word) for word in sheet.words]
    events += [(wait.start, 2, wait) for wait in sheet.waits]
    events += [(cue.time, 0, cue) for cue in settled(sheet) if cue.moment.picture is not None]
    events.sort(key=lambda event: (event[0], event[1]))
    starts = [chapter.start for chapter in contents.chapters[1:]]
    parts: list[tuple[float, dict[str, Any]]] = []
    paragraph: int | None = None
    fresh = True
    waiting: list[Cue] = []

    def new_part(start: float) -> dict[str, Any]:
        part = {"start": round(start, 2), "clock": short_clock(start), "words": [], "wait": None, "pictures": []}
        parts.append((start, part))
        return part

    def take_pictures(part: dict[str, Any]) -> None:
        part["pictures"] += [_picture(contents, cue) for cue in waiting]
        waiting.clear()

    for start, _, event in events:
        while starts and start >= starts[0]:
            starts.pop(0)
            if waiting:
                take_pictures(parts[-1][1] if parts else new_part(waiting[0].time))
            fresh = True
        if isinstance(event, Cue):
            waiting.append(event)
        elif isinstance(event, WaitTime):
            part = parts[-1][1] if parts and not fresh and parts[-1][1]["wait"] is None else new_part(start)
            part["wait"] = {"words": tidy(event.words), "seconds": spoken_length(round(event.end - event.start))}
            take_pictures(part)
            fresh = True
        else:
            own = lesson.words[event.word] if event.word is not None else None
            if fresh or not parts or (own is not None and paragraph is not None and own.paragraph != paragraph):
                new_part(start)
            part = parts[-1][1]
            fresh = False
            paragraph = own.paragraph if own is not None else paragraph
            glued = own is not None and own.glued and bool(part["words"])
            part["words"].append(
                {"text": tidy(event.text), "start": round(event.start, 2), "space": "" if glued else " "}
            )
            take_pictures(part)
    if waiting:
        take_pictures(parts[-1][1] if parts else new_part(waiting[0].time))
    return parts


def _picture(contents: KitContents, cue: Cue) -> dict[str, Any]:
    picture = cue.moment.picture
    assert picture is not None
    text = tidy(picture.description())
    # Our own drawing, whose words the painter has escaped.
    drawn = svg(picture.drawing(), contents.theme, description=text, ground=True)
    return {"svg": Markup(drawn), "text": text}
