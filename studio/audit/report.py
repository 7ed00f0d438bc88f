"""What the report of a kit says that its film shows, read once and believed only where it can be true."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from studio.errors import UnusableInput
from studio.pictures.themes import INKS, load_theme
from studio.script.kinds import KINDS

_LONGEST = 86_400.0  # seconds: no lesson lasts a day


@dataclass(frozen=True, slots=True)
class Cue:
    """From `time` (seconds) on the film shows the picture in `box` (x, y, width, height in pixels)."""

    time: float
    picture: str
    kind: str
    numbers: tuple[int, ...]
    marks: Mapping[str, int]
    box: tuple[int, int, int, int]


@dataclass(frozen=True, slots=True)
class Shown:
    """The cues of a report in the order of their times, and the colours (red, green, blue of each ink) they are in."""

    cues: tuple[Cue, ...]
    colours: Mapping[str, tuple[int, int, int]]


def read_report(kit: Path) -> Shown:
    """Read `report.json` in a kit folder. Raises UnusableInput where the folder is no kit or the report is damaged."""
    source = kit / "report.json"
    try:
        text = source.read_bytes()
    except OSError as error:
        raise UnusableInput(
            "there is no report.json in it, so this is no kit; name the folder that was built.", str(kit)
        ) from error
    try:
        report = json.loads(text)
        cues = sorted((_cue(value) for value in _list(report["cues"])), key=lambda cue: cue.time)
        colours = (
            _colours(report["theme"])
            if "theme" in report
            else {str(ink): colour for ink, colour in load_theme().colours}
        )
        _need(bool(cues) or not any((kit / "pictures").glob("*.svg")))
    except (ValueError, TypeError, KeyError, RecursionError) as error:
        raise UnusableInput("this file is damaged; build the kit again.", str(source)) from error
    return Shown(tuple(cues), colours)


def _cue(value: Mapping[str, Any]) -> Cue:
    time, picture, kind, box = value["time"], value["picture"], value["kind"], _list(value["box"])
    _need(type(time) in (int, float) and 0 <= time <= _LONGEST)
    _need(isinstance(picture, str) and kind in KINDS)
    x, y, width, height = (_count(number) for number in box)
    _need(width > 0 and height > 0)
    marks = value["marks"]
    _need(isinstance(marks, dict))
    return Cue(
        float(time), picture, kind, tuple(_count(number) for number in _list(value["numbers"])),
        {mark: _count(number) for mark, number in marks.items()}, (x, y, width, height),
    )  # fmt: skip


def _colours(theme: Any) -> dict[str, tuple[int, int, int]]:
    found = {}
    for ink in INKS:
        written = theme["colours"][ink]
        _need(re.fullmatch(r"#[0-9A-Fa-f]{6}", written) is not None)
        red, green, blue = bytes.fromhex(written[1:])
        found[str(ink)] = (red, green, blue)
    return found


def _list(value: Any) -> list[Any]:
    _need(isinstance(value, list))
    return list(value)


def _count(value: Any) -> int:
    _need(type(value) is int and value >= 0)
    return int(value)


def _need(true: bool) -> None:
    if not true:
        raise ValueError
