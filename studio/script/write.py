"""Putting directions into a script without touching a letter of what stands there."""

from __future__ import annotations

import re
from collections.abc import Iterable

from studio.script.model import Place

_LINE = re.compile(r"[^\r\n]*(?:\r\n|\r|\n|\Z)")


def insert(text: str, directions: Iterable[tuple[Place, str]]) -> str:
    """The script with `[direction]` before the word at each place; several at one place keep their order.

    Before the first word of a line a direction gets a line of its own; inside a line it stands before the word. A
    place behind the last line is the end of the script. Everything that was there stays, byte for byte: leaving out
    what was put in gives `text` again. Places are those of `Word.place`; a byte order mark does not count as a column.
    """
    lines = [match[0] for match in _LINE.finditer(text) if match[0]]
    newline = next((line[len(line.rstrip("\r\n")) :] for line in lines if line[-1] in "\r\n"), "\n")
    by_line: dict[int, list[tuple[int, str]]] = {}
    for place, direction in directions:
        by_line.setdefault(min(place.line, len(lines) + 1), []).append((place.column - 1, direction))
    result = []
    for number, line in enumerate(lines, 1):
        waiting = by_line.pop(number, None)
        result.append(_into_line(line, waiting, newline, number) if waiting else line)
    for _, direction in by_line.pop(len(lines) + 1, []):
        if result and result[-1] and result[-1][-1] not in "\r\n":
            result.append(newline)
        result.append(f"[{direction}]{newline}")
    return "".join(result)


def _into_line(line: str, directions: list[tuple[int, str]], newline: str, number: int) -> str:
    shift = 1 if number == 1 and line.startswith("\ufeff") else 0
    own_lines, pieces, cut = [], [], 0
    for column, direction in sorted(directions, key=lambda item: item[0]):
        at = min(column + shift, len(line.rstrip("\r\n")))
        while at > 0 and line[at - 1] == "*":  # before the asterisk of a stressed word
            at -= 1
        if not line[:at].strip("\ufeff \t"):
            own_lines.append(f"[{direction}]{newline}")
            continue
        # A word that is written against its neighbour ("7+2") stays so.
        space = " " if line[at - 1].isspace() else ""
        pieces.append(line[cut:at])
        pieces.append(f"[{direction}]{space}")
        cut = at
    pieces.append(line[cut:])
    return "".join(own_lines) + "".join(pieces)
