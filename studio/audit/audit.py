"""`audit`: opens the film of a kit at every cue of its report, counts and reads, and says what is proved."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from studio.audit.report import Cue, read_report
from studio.errors import UnusableInput
from studio.progress import Progress

READ_KINDS = frozenset(
    {
        "number bond",
        "number sentence",
        "cards",
        "more and less",
        "compare bars",
        "bar",
        "number path",
        "number line",
        "hundred chart",
    }
)
"""Kinds whose numbers are numerals; the numbers of the others are counts or words."""


@dataclass(frozen=True, slots=True)
class Proof:
    """What was seen of one cue. `marks` maps each mark to what the report says and what was counted (None: there is no
    way to count it); `said` and `read` are the numbers. `proved` where everything agrees; `why` says what does not."""

    time: float
    picture: str
    kind: str
    marks: Mapping[str, tuple[int, int | None]]
    said: tuple[int, ...]
    read: tuple[int, ...]
    proved: bool
    why: str


@dataclass(frozen=True, slots=True)
class AuditReport:
    """What the audit of a kit found."""

    kit: str
    proofs: tuple[Proof, ...]

    @property
    def proved(self) -> int:
        """How many pictures are proved."""
        return sum(proof.proved for proof in self.proofs)

    @property
    def marks(self) -> tuple[int, int]:
        """How many marks the report says there are, and how many of them stand in counts that agree."""
        pairs = [pair for proof in self.proofs for pair in proof.marks.values()]
        return sum(said for said, _ in pairs), sum(said for said, seen in pairs if said == seen)

    @property
    def numerals(self) -> tuple[int, int]:
        """How many numerals the report says there are, and how many of them were read."""
        readable = [proof for proof in self.proofs if proof.kind in READ_KINDS]
        read = sum((Counter(proof.said) & Counter(proof.read)).total() for proof in readable)
        return sum(len(proof.said) for proof in readable), read

    @property
    def fine(self) -> bool:
        return self.proved == len(self.proofs)

    def as_json(self) -> dict[str, Any]:
        marks, numerals = self.marks, self.numerals
        return {
            "kit": self.kit,
            "pictures": len(self.proofs),
            "proved": self.proved,
            "marks": {"said": marks[0], "counted": marks[1]},
            "numerals": {"said": numerals[0], "read": numerals[1]},
            "cues": [asdict(proof) for proof in self.proofs],
        }

    def lines(self) -> list[str]:
        """The report in plain lines: first the sum, then each picture that is not proved."""
        marks, numerals = self.marks, self.numerals
        total = len(self.proofs)
        if not total:
            return ["This film shows no pictures: there is nothing to count."]
        found = [
            f"{self.proved} of {total} pictures are proved: {marks[1]} of {marks[0]} marks counted, "
            f"{numerals[1]} of {numerals[0]} numerals read."
        ]
        found += [
            f"At {_clock(proof.time)} the {proof.kind} '{proof.picture}' is not proved: {proof.why}."
            for proof in self.proofs
            if not proof.proved
        ]
        return found


def audit(kit: Path | str, *, progress: Progress | None = None) -> AuditReport:
    """Look at the frame of every cue in the kit's `report.json` and compare. Raises UnusableInput where the folder is
    no kit."""
    from studio.audit.frames import frames_at
    from studio.audit.numerals import Reader
    from studio.audit.view import View

    folder = Path(kit)
    film = folder / "lesson.mp4"
    shown = read_report(folder)
    reader = Reader()
    proofs = []
    for cue, pixels in zip(shown.cues, frames_at(film, [cue.time for cue in shown.cues]), strict=True):
        x, y, w, h = cue.box
        if x + w > pixels.shape[1] or y + h > pixels.shape[0]:
            raise UnusableInput(
                "this is another film than the one the report tells of; build the kit again.", str(film)
            )
        edge = 2
        cut = pixels[max(0, y - edge) : y + h + edge, max(0, x - edge) : x + w + edge]
        proofs.append(_prove(cue, View(cut, shown.colours), reader))
        if progress is not None:
            progress(len(proofs) / len(shown.cues), "counting what the film shows")
    return AuditReport(str(folder), tuple(proofs))


def _prove(cue: Cue, view: Any, reader: Any) -> Proof:
    from studio.audit import marks as counting

    kind, said = cue.kind, cue.numbers
    numerals: list[int] = []
    if kind in READ_KINDS:
        numerals = [int(reading.text) for reading in _in_reading_order(reader.numerals(view))]
    seen: dict[str, tuple[int, int | None]] = {}
    for mark, number in cue.marks.items():
        counted: int | None
        if mark == "unknowns":
            counted = reader.unknowns(view) if kind in READ_KINDS else None
        elif mark == "places" and kind != "number line":  # a long line has more ticks than numerals
            counted = len(numerals)
        else:
            counted = counting.count(view, kind, mark)
        seen[mark] = (number, counted)
    if kind in READ_KINDS:
        read = tuple(numerals)
        agree = Counter(read) == Counter(said)
        why = [] if agree else [f"it should show {_row(said)} and {_row(read)} was read"]
    elif kind in ("word", "text"):
        read = tuple(_numbers_in(reader.words(view)))
        agree = set(said) <= set(read) or not said
        why = [] if agree else [f"it should show {_row(said)} and {_row(read)} was read"]
    else:
        read = tuple(_counted_numbers(kind, view, seen))
        agree = set(said) <= set(read)
        why = [] if agree else [f"it should show {_row(said)} and {_row(read)} was counted"]
    for mark, (wanted, counted) in seen.items():
        if counted is None:
            why.append(f"there is no way to count its {mark}")
        elif counted != wanted:
            why.append(f"it should have {wanted} {mark} and {max(0, counted)} were counted")
    return Proof(cue.time, cue.picture, kind, seen, said, read, not why, "; ".join(why))


def _in_reading_order(readings: Sequence[Any]) -> list[Any]:
    if not readings:
        return []
    height = max(reading.height for reading in readings)
    return sorted(readings, key=lambda reading: (round(reading.y / max(1, height)), reading.x))


def _counted_numbers(kind: str, view: Any, seen: Mapping[str, tuple[int, int | None]]) -> Iterator[int]:
    """The numbers that a child gets from counting: each sort, and all together."""
    from studio.audit import marks as counting

    counts = {mark: number for mark, (_, number) in seen.items() if number is not None}
    if kind == "base ten":
        yield from counts.values()
        yield 10 * counts.get("tens", 0) + counts.get("ones", 0)
        return
    if kind == "dice":
        yield from counting.pips_by_die(view)
        yield counts.get("pips", 0)
        return
    counts.pop("waiting", None)
    yield from counts.values()
    yield sum(counts.values())


def _numbers_in(text: str) -> list[int]:
    """Numbers in words that were read: digits, and number words."""
    from studio.script.numberwords import to_number

    found = []
    for word in re.findall(r"\d+|[A-Za-z-]+", text):
        try:
            found.append(int(word) if word.isdigit() else to_number(word.lower()))
        except (ValueError, KeyError):
            continue
    return found


def _row(numbers: Sequence[int]) -> str:
    return ", ".join(map(str, numbers)) if numbers else "no number"


def _clock(time: float) -> str:
    return f"{int(time) // 60}:{time % 60:05.2f}"
