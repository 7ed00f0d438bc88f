"""Where each lesson of a series stands."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from studio.pictures.base import several
from studio.series.building import (
    Built,
    built_stems,
    errors_told,
    kit_folder,
    load_built,
    recording_keys,
    recordings_of,
    series_choices,
    series_options,
    share,
    standing_errors,
    why_stale,
)
from studio.series.index import Entry, Index
from studio.series.lessons import LESSONS, file_name, in_the_way_of, stem_of
from studio.series.plan import dates_out_of_order
from studio.series.settings import Settings
from studio.series.table import Plan, Row, plans_ignored

STATES = ("planned", "cannot be read", "to mend", "written", "recorded", "out of date", "built, to mend", "built")


@dataclass(frozen=True, slots=True)
class Standing:
    """A lesson and where it stands: one of `STATES`, and why. `seconds`, `spans` and `reused` are those of its last
    build, `parts` the names of the parts it uses."""

    number: int | None
    file: str
    title: str
    date: str
    state: str
    why: str = ""
    seconds: float = 0.0
    spans: int = 0
    reused: int = 0
    parts: tuple[str, ...] = ()


@dataclass(frozen=True)
class SeriesStatus:
    """All lessons, what is odd about them (`notes`), and the standards they meet with how many lessons meet each."""

    title: str
    lessons: tuple[Standing, ...]
    notes: tuple[str, ...]
    standards: tuple[tuple[str, int], ...]

    def as_json(self) -> dict[str, Any]:
        return {
            "title": self.title,
            "lessons": [asdict(standing) for standing in self.lessons],
            "notes": list(self.notes),
            "standards": dict(self.standards),
        }

    def lines(self, every: bool = False) -> list[str]:
        """What is printed for a person: the lessons (planned ones only with `every`), then the sum."""
        lines = []
        for standing in self.lessons:
            if standing.state == "planned" and not every:
                continue
            number = f"{standing.number:>4}" if standing.number is not None else "    "
            why = f": {standing.why}" if standing.why else ""
            reused = f" ({share(standing.reused, standing.spans)} reused)" if standing.spans else ""
            lines.append(f"{number}  {standing.date:10}  {standing.title[:44]:44}  {standing.state}{why}{reused}")
        count = Counter(standing.state for standing in self.lessons)
        lines.append(
            f"{self.title}: "
            + (", ".join(f"{count[s]} {s.replace(',', ' but')}" for s in STATES if count[s]) or "no lesson yet")
            + "."
        )
        spans = sum(standing.spans for standing in self.lessons)
        if spans:
            again = sum(standing.reused for standing in self.lessons)
            lines.append(f"Of the film of the last builds, {share(again, spans)} was there already.")
        return [*lines, *self.notes]


def series_status(folder: Path, settings: Settings, plan: Plan, index: Index) -> SeriesStatus:
    """Where each lesson stands, planned or written."""
    entries = index.entries()
    rows = {row.lesson: row for row in plan.rows}
    choices = series_choices(series_options(folder))
    standings = [_standing(folder, entry, _date(rows.get(entry.number or 0)), choices) for entry in entries]
    written = {entry.number for entry in entries}
    for row in plan.rows:
        if row.lesson not in written:
            name = file_name(settings, row.lesson)
            standings.append(Standing(row.lesson, name, row.cell("title"), _date(row), "planned"))
    standings.sort(key=lambda s: (s.number is None, s.number or 0, s.file))
    notes = [*filter(None, [plans_ignored(folder)]), *_notes(folder, entries, plan, index)]
    notes += filter(
        None, (in_the_way_of(folder / LESSONS / s.file, s.number or 0) for s in standings if s.state == "planned")
    )
    standards = tuple((standard, len(files)) for standard, files in index.coverage().items())
    return SeriesStatus(settings.title, tuple(standings), tuple(notes), standards)


def _date(row: Row | None) -> str:
    return row.day.isoformat() if row is not None and row.day is not None else ""


def _standing(folder: Path, entry: Entry, date: str, choices: Mapping[str, str]) -> Standing:
    stem = stem_of(Path(entry.file))
    parts = tuple(sorted(entry.uses))
    if entry.mistake:
        return Standing(
            entry.number, entry.file, entry.title or stem, date, "cannot be read", entry.mistake, parts=parts
        )
    takes = recordings_of(folder, stem)
    built = load_built(folder, stem)
    if built is not None:
        now = Built(entry.key, recording_keys(folder, takes), "", 0.0, 0, 0, dict(entry.uses), choices=choices)
        why = why_stale(built, now, kit_folder(folder, stem))
        if why != "not built yet":
            errors = entry.errors if why else standing_errors(entry, built)
            state = "out of date" if why else "built, to mend" if errors else "built"
            why = "; ".join(filter(None, (why, errors_told(errors) if errors else "")))
            return Standing(entry.number, entry.file, entry.title, date, state, why, built.seconds, built.spans,
                            built.reused, parts)  # fmt: skip
    if entry.errors:
        found = f"{several(entry.errors, 'error')}; see studio check"
        return Standing(entry.number, entry.file, entry.title, date, "to mend", found, parts=parts)
    return Standing(entry.number, entry.file, entry.title, date, "recorded" if takes else "written", parts=parts)


def _notes(folder: Path, entries: list[Entry], plan: Plan, index: Index) -> list[str]:
    notes = []
    if index.remade:
        notes.append("The index could not be read and was made again from the files.")
    numbers = Counter(entry.number for entry in entries if entry.number is not None)
    for number, count in numbers.items():
        if count > 1:
            files = ", ".join(entry.file for entry in entries if entry.number == number)
            notes.append(f"{count} lessons have the number {number}: {files}. Give each its own.")
    stems = {stem_of(Path(entry.file)): entry for entry in entries}
    by_key = {entry.key: stem for stem, entry in stems.items()}
    for stem in built_stems(folder):
        if stem in stems or not kit_folder(folder, stem).is_dir():
            continue
        built = load_built(folder, stem)
        renamed = by_key.get(built.lesson) if built is not None else None
        notes.append(
            f"The kit '{stem}' has no lesson any more"
            + (
                f"; its script is now called '{renamed}'. Build makes it anew under that name, mostly from what is there."
                if renamed
                else ". Nothing was deleted."
            )
        )
    planned = {row.lesson for row in plan.rows}
    if plan.rows:
        unplanned = [str(n) for n in sorted(numbers) if n not in planned]
        if unplanned:
            notes.append(f"Not in the plan: lesson {', '.join(unplanned[:10])}{' …' if len(unplanned) > 10 else ''}.")
    if late := dates_out_of_order(plan.rows):
        notes.append(f"In the plan, lesson {late[0]} is not after the lesson before it.")
    return notes
