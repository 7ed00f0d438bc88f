"""Slips for tests: a script with one number changed."""

from __future__ import annotations

from studio.agree.wording import spelled
from studio.talk.model import Number


def slipped(text: str, number: Number, value: int) -> str:
    """The script with `value` where `number` is said, in the same form; the number must be one word."""
    lines = text.split("\n")
    line, at = lines[number.line - 1], number.column - 1
    old = number.text.strip(".,!?;:…\"'”’*_)(")
    new = str(value) if old[0].isdigit() else spelled(value)
    at = line.index(old, at)
    lines[number.line - 1] = line[:at] + (new.capitalize() if old[0].isupper() else new) + line[at + len(old) :]
    return "\n".join(lines)
