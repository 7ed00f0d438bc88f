"""The verb `build`: from a lesson script, with a recording or without, to the kit folder."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from studio.check import clock, finding_lines, told
from studio.errors import UnusableInput
from studio.findings import Finding
from studio.hear import retake_lines
from studio.listen.model import Retake
from studio.progress import Progress, part, silent
from studio.script.model import Lesson

if TYPE_CHECKING:
    from studio.audit.audit import AuditReport
    from studio.hear import Heard
    from studio.kit import KitContents
    from studio.pictures.themes import Theme

SCREENS = {"wide": (1920, 1080), "square": (1080, 1080), "tall": (1080, 1920)}


@dataclass(frozen=True, slots=True)
class BuildOptions:
    """How a kit is made. `theme` and `model` are names or paths; `shape` is the screen's; `audit` opens the finished
    film and counts what it shows."""

    theme: str = "warm paper"
    shape: str = "wide"
    fps: int = 30
    paper: Literal["letter", "a4"] = "letter"
    numerals: Literal["as said", "words to ten", "digits"] = "as said"
    model: str | None = None
    audit: bool = False


SILENCED = (
    "The kit that stood there had your recording; this film is silent. Build it with the recording to have that back."
)


@dataclass(frozen=True)
class Kit:
    """A kit that was built. `noticed` are the sentences on the recording that ask for nothing, or for another look;
    `reused` of the `spans` of its film were in the store; `audit` is None where none was asked for. `silenced`: the kit that
    stood there had her voice, and this one has none."""

    folder: Path
    duration: float
    findings: tuple[Finding, ...]
    retakes: tuple[Retake, ...]
    noticed: tuple[str, ...]
    spans: int
    reused: int
    audit: Mapping[str, Any] | None
    audit_lines: tuple[str, ...]
    silenced: bool = False

    @property
    def has_errors(self) -> bool:
        errors = any(finding.level == "error" for finding in self.findings)
        return errors or bool(self.retakes) or bool(self.audit and self.audit["wrong"])

    def as_json(self) -> dict[str, Any]:
        return {
            "folder": str(self.folder),
            "duration": self.duration,
            "findings": [finding.as_json() for finding in self.findings],
            "retakes": [retake.as_json() for retake in self.retakes],
            "noticed": list(self.noticed),
            "spans": self.spans,
            "reused": self.reused,
            "audit": dict(self.audit) if self.audit is not None else None,
        }

    def lines(self) -> list[str]:
        """What is printed for a person."""
        lines = [f"The kit is in {self.folder}  (the film lasts {clock(self.duration)}; open index.html)."]
        if self.silenced:
            lines.append(SILENCED)
        if self.retakes:
            lines.append(f"Before a child watches, {_to_mend(len(self.retakes))} in the recording; see below.")
        lines.append("The check of the script: " + told(self.findings))
        lines += finding_lines(self.findings)
        if self.retakes or self.noticed:
            lines.append("The recording (times are its own, not those of the film):")
            lines += self.noticed
        if self.retakes:
            lines += retake_lines(self.retakes)
        return [*lines, *self.audit_lines]


def _to_mend(count: int) -> str:
    return "mend one place" if count == 1 else f"mend {count} places"


def build_kit(
    lesson: Path | Lesson,
    recordings: Sequence[Path] = (),
    out: Path | None = None,
    options: BuildOptions | None = None,
    progress: Progress = silent,
) -> Kit:
    """Build the kit of a lesson. Without a recording the film is silent and timed by the lesson's pace.

    The kit appears at `out` (default: beside the lesson, named after it) only when it is whole; until then what stood
    there stays. Raises UnusableInput.
    """
    from studio.agree import check
    from studio.captions import CaptionStyle, make_captions
    from studio.captions.srt import write_srt
    from studio.files import whole_folder
    from studio.film.api import make_film
    from studio.film.settings import FilmSettings
    from studio.kit import KitContents, write_parts
    from studio.pictures.themes import load_theme
    from studio.series.library import load_lesson
    from studio.stage.staging import stage
    from studio.timing.assemble import assemble
    from studio.timing.pace import pace_track
    from studio.timing.recorded import recorded_track

    options = options or BuildOptions()
    lesson_value = lesson if isinstance(lesson, Lesson) else load_lesson(Path(lesson))
    folder = out or _kit_folder(lesson)
    theme = load_theme(options.theme)
    width, height = SCREENS[options.shape]
    settings = FilmSettings(width=width, height=height, fps=options.fps)
    progress(0.0, "checking the lesson")
    findings = tuple(check(lesson_value).findings)
    staged = stage(lesson_value)
    retakes: tuple[Retake, ...] = ()
    noticed: tuple[str, ...] = ()
    silenced = not recordings and _has_voice(folder)
    with whole_folder(folder) as new:
        if recordings:
            heard = hear_apart(recordings, lesson_value, options.model, part(progress, 0.0, 0.25))
            track = recorded_track(lesson_value, heard.take)
            retakes = heard.take.retakes
            noticed = (*heard.listening.notes, *heard.unsure)
            findings += heard.findings
        else:
            track = pace_track(lesson_value, settings.fps)
        sheet = assemble(lesson_value, staged, track, fps=settings.fps)
        captions = make_captions(lesson_value, sheet, CaptionStyle(numerals=options.numerals))
        film = make_film(
            lesson_value, sheet, new / "lesson.mp4", recordings=recordings, theme=theme, settings=settings,
            captions_srt=write_srt(captions.captions), progress=part(progress, 0.25, 0.85),
        )  # fmt: skip
        contents = KitContents(
            lesson=lesson_value, sheet=sheet, captions=captions, findings=findings,
            cues=tuple(cue.as_json() for cue in film.cues), fps=film.fps, theme=theme, retakes=retakes, noticed=noticed,
            extras={
                "width": film.width, "height": film.height, "theme": _theme_json(theme), "recorded": bool(recordings)
            }, paper=options.paper,
        )  # fmt: skip
        report = None
        if options.audit:
            report = _audit(contents, new, part(progress, 0.85, 0.95))
            contents = replace(contents, audit=_audit_json(report))
        write_parts(contents, new, progress=part(progress, 0.95 if report else 0.85, 1.0))
    progress(1.0, "done")
    return Kit(
        folder, film.duration, contents.all_findings, retakes, noticed, film.encoded + film.reused, film.reused,
        contents.audit, tuple(report.lines()) if report else (), silenced,
    )  # fmt: skip


def _has_voice(kit: Path) -> bool:
    """Whether the kit that stands there was made with a recording, as far as its report tells."""
    try:
        return json.loads((kit / "report.json").read_bytes())["recorded"] is True
    except (OSError, ValueError, KeyError, TypeError):
        return False


def hear_apart(recordings: Sequence[Path], lesson: Lesson, model: str | None, progress: Progress) -> Heard:
    """Listen in a process of its own: what the speech model needs is free before the film is made.

    Raises UnusableInput.
    """
    from studio.apart import apart
    from studio.hear import hear

    try:
        return apart(hear, progress, [Path(path) for path in recordings], lesson, model=model)
    except ChildProcessError as error:
        raise UnusableInput(
            "listening was broken off, mostly because there is too little memory; close other programs and run the "
            "same command again.",
            str(recordings[0]),
        ) from error


def _audit(contents: KitContents, folder: Path, progress: Progress) -> AuditReport:
    """The audit opens what is in the folder, as anyone could: the film, and the report that says what it shows."""
    from studio.audit.audit import audit
    from studio.kit.report_json import report_json

    (folder / "report.json").write_text(report_json(contents), encoding="utf-8")
    return audit(folder, progress=progress)


def _audit_json(report: AuditReport) -> dict[str, Any]:
    return {
        "checked": len(report.proofs),
        "right": report.proved,
        "wrong": [
            {"time": proof.time, "picture": proof.picture, "message": proof.why}
            for proof in report.proofs
            if not proof.proved
        ],
    }


def _theme_json(theme: Theme) -> dict[str, Any]:
    """What anyone needs who opens the film and counts: the colours it is painted in."""
    from studio.pictures.themes import hexadecimal

    return {"name": theme.name, "colours": {ink: hexadecimal(colour) for ink, colour in theme.colours}}


def _kit_folder(lesson: Path | Lesson) -> Path:
    """Beside the lesson, named after it: `pond-09.lesson.md` gives `pond-09-kit`."""
    source = Path(lesson.source if isinstance(lesson, Lesson) else lesson)
    if not source.name:
        raise UnusableInput("it is not known where the kit should go; choose a folder with --out.")
    name = source.name.removesuffix(".md").removesuffix(".lesson")
    return source.with_name(f"{name}-kit")
