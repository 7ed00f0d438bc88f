"""Lessons as they are first written: words alone, their pictures still to come."""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from pathlib import Path

from agreement import free

_PURPOSE = "[note: on purpose"
_DIRECTION = re.compile(r"\[[^\]]*\] ?")


def bare_lessons(paths: Sequence[Path], folder: Path) -> list[Path]:
    """Writes these lessons without their directions into a folder, with the list of their numbers that take no part, and
    tells where. Lessons with a mistake on purpose are left out: its note would go, too."""
    folder.mkdir(exist_ok=True)
    written = []
    with (folder / "free.csv").open("w", encoding="utf-8", newline="") as table:
        rows = csv.writer(table)
        rows.writerow(("lesson", "line", "word", "occurrence"))
        for path in paths:
            text = path.read_text(encoding="utf-8")
            if _PURPOSE in text:
                continue
            kept: dict[int, int] = {}  # the line each line has come to
            lines: list[str] = []
            for at, line in enumerate(text.split("\n"), 1):
                bare = _DIRECTION.sub("", line)
                if bare.strip() or not line.strip():
                    lines.append(bare)
                    kept[at] = len(lines)
            written.append(folder / path.name)
            written[-1].write_text("\n".join(lines), encoding="utf-8")
            rows.writerows((path.name, kept[line], word, nth) for line, word, nth in sorted(free(path)) if line in kept)
    return written
