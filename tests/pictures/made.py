"""Pictures for tests, from the words of a script."""

from __future__ import annotations

from studio.pictures.base import Picture, Step
from studio.pictures.kinds import make
from studio.script.reader import read_change, read_picture


def shown(spec: str, *changes: str) -> Picture:
    """The picture that stays after the changes."""
    kind, details, _ = read_picture(spec)
    picture = make(kind, details)
    for change in changes:
        picture = picture.steps(read_change(change))[-1].picture
    return picture


def stepped(spec: str, *changes: str) -> tuple[Step, ...]:
    """The steps of the last of the changes."""
    return shown(spec, *changes[:-1]).steps(read_change(changes[-1]))


def said(spec: str, *changes: str) -> list[int | None]:
    """The numbers that are said with the steps of the last change."""
    return [step.number for step in stepped(spec, *changes)]
