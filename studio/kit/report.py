"""`report.html`: what was checked, what was proved and what to record again, for the teacher."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from markupsafe import Markup

from studio.captions.text import short_clock, tidy
from studio.findings import Finding
from studio.kit.contents import KitContents
from studio.kit.frames import film_frames
from studio.kit.pages import render
from studio.kit.wording import spoken_length
from studio.pictures.base import Picture, several
from studio.pictures.painters.svg import svg
from studio.pictures.themes import hexadecimal

MOST_FRAMES = 24
"""A report with hundreds of findings shows the frames of the first ones only."""

_TITLES = {"error": "Wrong", "warning": "Please look", "note": "Good to know"}


def report_page(contents: KitContents, film: Path | None = None) -> str:
    """The page as HTML text; frames come from `film` where it is there, else the pictures are drawn."""
    findings = contents.all_findings
    times = [_time_of(contents, finding) for finding in findings]
    pictured = [
        time
        for finding, time in zip(findings, times, strict=True)
        if time is not None and finding.rule != "caption-limits"
    ]
    chosen = set(pictured[:MOST_FRAMES])
    frames = film_frames(film, chosen) if film is not None else {}
    shown = [
        _values(contents, number, finding, time, frames, chosen)
        for number, (finding, time) in enumerate(zip(findings, times, strict=True), 1)
    ]
    groups = [
        {"title": title, "findings": [value for value in shown if value["level"] == level]}
        for level, title in _TITLES.items()
    ]
    good, verdict = _verdict(contents)
    return render(
        "report.html",
        contents,
        good=good,
        verdict=verdict,
        ground=hexadecimal(contents.theme.colour("paper")),
        tally=_tally(contents),
        retakes=[
            {
                "where": (f"Line {r.line}, " if r.line is not None else "")
                + f"{short_clock(r.start)} to {short_clock(r.end)} of the recording",
                "script": tidy(r.script), "heard": tidy(r.heard), "reason": tidy(r.reason),
            }
            for r in contents.retakes
        ],
        noticed=[tidy(sentence) for sentence in contents.noticed],
        groups=[group for group in groups if group["findings"]],
        audit=_audit(contents.audit),
    )  # fmt: skip


def _verdict(contents: KitContents) -> tuple[bool, str]:
    levels = [finding.level for finding in contents.findings]
    wrong, look = levels.count("error"), levels.count("warning")
    audit_wrong = len(contents.audit.get("wrong", ())) if contents.audit is not None else 0
    if audit_wrong:
        return False, f"The film does not show what it should in {several(audit_wrong, 'place')}."
    if wrong:
        return False, f"{several(wrong, 'thing')} {'is' if wrong == 1 else 'are'} wrong. Mend before a child watches."
    if contents.retakes:
        return False, f"Nothing is wrong in the script; {several(len(contents.retakes), 'place')} to record again."
    if look:
        return False, f"Nothing is wrong; {several(look, 'thing')} to look at."
    return True, "What is said and what is shown agree."


def _tally(contents: KitContents) -> list[tuple[str, str]]:
    captions = contents.captions
    counted = [
        (len(contents.chapters), "chapter", "chapters"),
        (len(contents.sheet.words), "word said", "words said"),
        (len(contents.cues) or len(contents.sheet.cues), "picture step", "picture steps"),
        (len(captions.captions), "caption", "captions"),
        (len(captions.notes), "caption past a limit", "captions past a limit"),
    ]
    return [
        (spoken_length(contents.sheet.duration), "long"),
        *((str(count), one if count == 1 else many) for count, one, many in counted),
    ]


def _audit(audit: Mapping[str, Any] | None) -> dict[str, Any] | None:
    if audit is None:
        return None
    wrong = [
        f"{short_clock(float(entry.get('time', 0)))}, {entry.get('picture', '')}: {entry.get('message', '')}"
        for entry in audit.get("wrong", ())
    ]
    text = str(audit.get("text", ""))
    if not text:
        text = (
            f"The finished film was opened and what it shows was counted: {audit.get('right', 0)} of "
            f"{audit.get('checked', 0)} picture steps are as the script has them."
        )
    return {"text": text, "wrong": wrong}


def _time_of(contents: KitContents, finding: Finding) -> float | None:
    """When the finding's place comes in the film: its own time, the picture step of its line, or its words."""
    if finding.time is not None:
        return finding.time
    if not finding.line:
        return None
    for cue in reversed(contents.sheet.cues):
        if cue.moment.direction.place.line == finding.line:
            step = cue.time
            break
    else:
        step = None
    if step is not None and finding.shown:
        return step
    lines = contents.lesson.words
    for word in contents.sheet.words:
        if word.word is not None and lines[word.word].place.line == finding.line:
            return word.start
    return step


def _values(
    contents: KitContents,
    number: int,
    finding: Finding,
    time: float | None,
    frames: Mapping[float, str],
    chosen: set[float],
) -> dict[str, Any]:
    pictures = _on_screen(contents, time) if time in chosen and time is not None else ()
    seen = "; ".join(tidy(picture.description()) for picture in pictures) or "no picture"
    frame = frames.get(time) if time is not None else None
    drawn = () if frame else pictures
    return {
        "anchor": f"finding-{number}",
        "level": finding.level,
        "where": f"Line {finding.line}" if finding.line else "",
        "start": None if time is None else round(time, 2),
        "clock": "" if time is None else short_clock(time),
        "message": tidy(finding.message),
        "help": tidy(finding.help),
        "said": tidy(finding.said),
        "shown": tidy(finding.shown),
        "frame": frame,
        "seen": f"The film at {short_clock(time or 0)}: {seen}",
        "svgs": [Markup(svg(p.drawing(), contents.theme, description=tidy(p.description()))) for p in drawn],
    }


def _on_screen(contents: KitContents, time: float) -> tuple[Picture, ...]:
    cues = contents.sheet.cues
    on: dict[str, Picture] = {}
    for cue in cues[: bisect_right([cue.time for cue in cues], time + 1e-6)]:
        if cue.moment.picture is None:
            on.pop(cue.moment.name, None)
        else:
            on[cue.moment.name] = cue.moment.picture
    return tuple(on.values())
