"""What a kit is made from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from studio.captions import Captions, Chapter, Description, make_chapters, make_descriptions
from studio.findings import Finding
from studio.handout.facts import LessonFacts, lesson_facts
from studio.handout.make import Paper
from studio.listen.model import Retake
from studio.pictures.themes import Theme, load_theme
from studio.script.model import Lesson
from studio.timing.cuesheet import CueSheet


@dataclass(frozen=True)
class KitContents:
    """All that the parts of a kit are made from; the film is not needed, and shown in the report where it is there.

    `findings` are those of the agreement and of listening, their times those of the recording. `cues` and `fps`
    describe the film (`report.json`); `audit` is what opening the finished film proved: `checked` and `right` count
    picture steps, `wrong` is a list of {"time", "picture", "message"}; None where it was not done. `noticed` are
    sentences about the recording. `extras` are further keys of `report.json`; `paper` is that of the handout.
    """

    lesson: Lesson
    sheet: CueSheet
    captions: Captions
    findings: tuple[Finding, ...] = ()
    cues: tuple[Mapping[str, Any], ...] = ()
    fps: int = 30
    theme: Theme = field(default_factory=load_theme)
    audit: Mapping[str, Any] | None = None
    retakes: tuple[Retake, ...] = ()
    noticed: tuple[str, ...] = ()
    extras: Mapping[str, Any] = field(default_factory=dict)
    paper: Paper = "letter"

    @cached_property
    def chapters(self) -> tuple[Chapter, ...]:
        """The film's chapters."""
        return make_chapters(self.sheet)

    @cached_property
    def descriptions(self) -> tuple[Description, ...]:
        """The pictures in words."""
        return make_descriptions(self.sheet)

    @cached_property
    def facts(self) -> LessonFacts:
        """What the lesson is about."""
        return lesson_facts(self.lesson)

    @property
    def all_findings(self) -> tuple[Finding, ...]:
        """The findings and the notes on captions, what is wrong first, then in order of the script. All times are those
        of the film."""
        order = {"error": 0, "warning": 1, "note": 2}
        own = [
            finding if finding.time is None else replace(finding, time=film_time(self.sheet, finding.time))
            for finding in self.findings
        ]
        return tuple(sorted((*own, *self.captions.notes), key=lambda f: (order[f.level], f.line, f.column)))


def film_time(sheet: CueSheet, recorded: float) -> float:
    """When a moment of the recording is in the film; where it was cut out, when the film goes on. A film without a
    recording has no other time than its own."""
    if not sheet.recorded:
        return recorded
    for piece in sheet.pieces:
        if piece.source is not None and recorded < piece.source + piece.duration:
            return round(piece.start + max(0.0, recorded - piece.source), 3)
    return round(sheet.duration, 3)
