"""Building a series: every lesson whose kit is not up to date, one after the other."""

from __future__ import annotations

import json
import re
import time
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from studio.errors import UnusableInput
from studio.files import write_text
from studio.pictures.base import several
from studio.progress import Progress, part, silent
from studio.series.index import OWN, Entry, open_index
from studio.series.lessons import LESSONS, stem_of
from studio.series.library import Library, load_lesson, series_of
from studio.series.lock import only_one
from studio.series.settings import SETTINGS, load_settings
from studio.store import content_key, file_key

if TYPE_CHECKING:
    from studio.build import BuildOptions

KITS = "kits"
_MEDIA = ("mp4", "mov", "m4v", "webm", "mkv", "wav", "mp3", "m4a", "aac", "flac", "ogg")
_TAKE = re.compile(r"\.take(?:[-.]?(?P<number>\d+))?\.(?:" + "|".join(_MEDIA) + r")\Z", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Built:
    """What a kit was built from: the key of the lesson, of each recording (by name) and of the options; how long it
    took, in seconds; how many of its `spans` of film were `reused`; the keys of the parts it used, by name; how many
    `errors` were found then; those of its options that a series sets (`series_choices`)."""

    lesson: str
    recordings: Mapping[str, str]
    options: str
    seconds: float
    spans: int
    reused: int
    parts: Mapping[str, str]
    errors: int = 0
    choices: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of one lesson: "built", "fresh" (it was up to date) or "failed", and why. `errors` stand in its kit."""

    file: str
    state: str
    seconds: float = 0.0
    spans: int = 0
    reused: int = 0
    errors: int = 0
    message: str = ""


@dataclass(frozen=True)
class SeriesBuild:
    """What became of every lesson that was to be built."""

    outcomes: tuple[Outcome, ...]

    @property
    def has_errors(self) -> bool:
        return any(outcome.state == "failed" or outcome.errors for outcome in self.outcomes)

    def as_json(self) -> dict[str, Any]:
        return {"lessons": [asdict(outcome) for outcome in self.outcomes]}

    def lines(self) -> list[str]:
        """What is printed for a person."""
        built = [outcome for outcome in self.outcomes if outcome.state == "built"]
        fresh = sum(outcome.state == "fresh" for outcome in self.outcomes)
        lines = []
        for outcome in self.outcomes:
            if outcome.state == "failed":
                lines.append(f"{outcome.file}: not built. {outcome.message}")
            elif outcome.state == "fresh" and outcome.errors:
                lines.append(f"{outcome.file}: up to date, to mend: {errors_told(outcome.errors)}.")
            elif outcome.state == "built":
                there = (
                    f", {share(outcome.reused, outcome.spans)} of its film was there already" if outcome.spans else ""
                )
                silent = f" {outcome.message}" if outcome.message else ""
                errors = f", to mend: {errors_told(outcome.errors)}" if outcome.errors else ""
                lines.append(f"{outcome.file}: built in {outcome.seconds:.0f} s{there}{errors}.{silent}")
        total = sum(outcome.spans for outcome in built)
        reused = sum(outcome.reused for outcome in built)
        of_all = f" {share(reused, total)} of their film was there already." if total and len(built) > 1 else ""
        lines.append(f"{len(built)} built, {fresh} up to date.{of_all}")
        return lines


def errors_told(errors: int) -> str:
    """What is told of the errors that stand in a kit: how many, and where to read them."""
    return f"{several(errors, 'error')}; see studio check or the kit's report"


def share(part: int, whole: int) -> str:
    """ "12 %", rounded down."""
    return f"{100 * part // whole} %"


def recordings_of(folder: Path, stem: str) -> list[Path]:
    """Her takes of a lesson, in order: `STEM.take.mp4` or `STEM.take1.mp4`, `STEM.take2.mp4` beside the script."""
    takes = []
    with suppress(OSError):
        for path in (folder / LESSONS).iterdir():
            found = _TAKE.search(path.name)
            if found is not None and path.name[: found.start()] == stem:
                takes.append((int(found["number"] or 0), path.name, path))
    return [path for _, _, path in sorted(takes)]


def kit_folder(folder: Path, stem: str) -> Path:
    """Where the kit of a lesson goes."""
    return folder / KITS / stem


def build_series(
    folder: Path, only: Sequence[str] = (), options: BuildOptions | None = None, progress: Progress = silent
) -> SeriesBuild:
    """Build what changed. `only`: numbers or names of lessons; empty: all. `options` None: those of the series. A lesson
    that cannot be built does not stop the others. Raises UnusableInput where another build is running or a lesson in `only` is not there."""
    options = options or series_options(folder)
    now = Built("", {}, _options_key(options), 0.0, 0, 0, {}, choices=series_choices(options))
    library = Library.of(folder)
    with only_one(folder):
        with open_index(folder, library) as index:
            entries = _chosen(index.entries(), only, folder)
        outcomes = []
        for count, entry in enumerate(entries):
            step = part(progress, count / len(entries), (count + 1) / len(entries))
            outcomes.append(_build_one(folder, entry, options, now, library, step))
        return SeriesBuild(tuple(outcomes))


def series_options(folder: Path | None, **given: Any) -> BuildOptions:
    """How the kits of a series are made: as its settings say, but for what is `given` (None: it is not). `folder` None: a
    lesson that is in no series. The theme of the series is looked at only where none is given."""
    from studio.build import BuildOptions

    own = {}
    if folder is not None:
        settings = load_settings(folder, theme=given.get("theme") is None)
        own = {"theme": settings.theme, "paper": settings.paper, "numerals": settings.numerals}
    return BuildOptions(**{**own, **{name: value for name, value in given.items() if value is not None}})


def lesson_options(lesson: Path, **given: Any) -> BuildOptions:
    """How the kit of one lesson is made: as the series that it lies in says, but for what is `given`."""
    folder = series_of(lesson)
    return series_options(folder if folder is not None and (folder / SETTINGS).is_file() else None, **given)


def series_choices(options: BuildOptions) -> dict[str, str]:
    """Those of the options that `series.yaml` can set, so that a change there is seen: of the theme its name and the key
    of its content, wherever its file lies. Raises UnusableInput where the theme cannot be used."""
    return {"theme": _theme_key(options.theme), "paper": options.paper, "numerals": options.numerals}


def _chosen(entries: Sequence[Entry], only: Sequence[str], folder: Path) -> list[Entry]:
    if not only:
        return list(entries)
    chosen = []
    for wanted in only:
        found = [
            entry
            for entry in entries
            if wanted in (entry.file, stem_of(Path(entry.file))) or (wanted.isdecimal() and entry.number == int(wanted))
        ]
        if not found:
            raise UnusableInput(f"there is no lesson '{wanted[:40]}' in this series.", str(folder / LESSONS))
        chosen.extend(found)
    return list({entry.file: entry for entry in chosen}.values())


def _build_one(
    folder: Path, entry: Entry, options: BuildOptions, now: Built, library: Library, progress: Progress
) -> Outcome:
    """Build one lesson where it is not up to date. `now` has what all lessons have in common."""
    from studio.build import SILENCED, build_kit

    if entry.mistake:
        return Outcome(entry.file, "failed", message=entry.mistake)
    stem = stem_of(Path(entry.file))
    takes = recordings_of(folder, stem)
    try:
        now = replace(now, lesson=entry.key, recordings=recording_keys(folder, takes), parts=dict(entry.uses))
        before = load_built(folder, stem)
        if before is not None and why_stale(before, now, kit_folder(folder, stem)) == "":
            return Outcome(entry.file, "fresh", errors=standing_errors(entry, before))
        started = time.monotonic()
        lesson = load_lesson(folder / LESSONS / entry.file, library)
        kit = build_kit(lesson, takes, kit_folder(folder, stem), options, progress)
    except UnusableInput as error:
        return Outcome(entry.file, "failed", message=error.sentences()[0])
    seconds = time.monotonic() - started
    errors = sum(finding.level == "error" for finding in kit.findings) + len(kit.audit["wrong"] if kit.audit else ())
    built = replace(now, seconds=round(seconds, 3), spans=kit.spans, reused=kit.reused, errors=errors)
    write_text(_built_path(folder, stem), json.dumps(asdict(built), indent=1))
    return Outcome(entry.file, "built", seconds, kit.spans, kit.reused, errors, SILENCED if kit.silenced else "")


def why_stale(before: Built | None, now: Built, kit: Path) -> str:
    """Why a kit is not up to date, in a few words; "" where it is."""
    if before is None or not (kit / "lesson.mp4").is_file() or not (kit / "report.json").is_file():
        return "not built yet"
    if before.lesson != now.lesson:
        parts = [name for name, key in now.parts.items() if before.parts.get(name, key) != key]
        return f"the part '{parts[0]}' changed" if parts else "the script changed"
    if dict(before.recordings) != dict(now.recordings):
        return "the recording changed"
    other = [name for name, choice in now.choices.items() if before.choices.get(name, choice) != choice]
    if other:
        return f"it is built with other settings ({', '.join(other)})"
    return "it is built with other options" if now.options and before.options != now.options else ""


def standing_errors(entry: Entry, built: Built) -> int:
    """How many errors stand in a kit that is up to date: those of its script, and what was found in its recording."""
    return max(entry.errors, built.errors)


def recording_keys(folder: Path, takes: Sequence[Path]) -> dict[str, str]:
    """The key of each recording by its name. The whole file is read only when its size or time has changed."""
    path = folder / OWN / "recordings.json"
    try:
        known: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
        if not isinstance(known, dict):
            known = {}
    except (OSError, ValueError):
        known = {}
    keys = {}
    changed = False
    for take in takes:
        try:
            status = take.stat()
            stamp = [status.st_size, status.st_mtime_ns]
            noted = known.get(take.name)
            if not (isinstance(noted, list) and len(noted) == 3 and noted[:2] == stamp):
                noted = known[take.name] = [*stamp, file_key(take)]
                changed = True
        except OSError as error:
            raise UnusableInput(f"this recording cannot be read ({error.strerror}).", str(take)) from None
        keys[take.name] = str(noted[2])
    if changed:
        with suppress(UnusableInput):  # where it may not be written, they are read again the next time
            write_text(path, json.dumps(known, indent=1))
    return keys


def load_built(folder: Path, stem: str) -> Built | None:
    """What is noted of the last build of a lesson; None where nothing (readable) is."""
    try:
        return Built(**json.loads(_built_path(folder, stem).read_text(encoding="utf-8")))
    except (OSError, ValueError, TypeError):
        return None


def built_stems(folder: Path) -> list[str]:
    """The lessons of which a build is noted."""
    return sorted(path.stem for path in (folder / OWN / "builds").glob("*.json"))


def _built_path(folder: Path, stem: str) -> Path:
    return folder / OWN / "builds" / f"{stem}.json"


def _options_key(options: BuildOptions) -> str:
    return content_key(asdict(options) | series_choices(options))


def _theme_key(name_or_path: str) -> str:
    from studio.pictures.themes import load_theme

    theme = load_theme(name_or_path)
    fonts = {face: file_key(Path(file)) for face, file in theme.fonts}
    return f"{theme.name} {content_key(asdict(replace(theme, fonts=())), fonts)}"
