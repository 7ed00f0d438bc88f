"""The values of the stage."""

from __future__ import annotations

from dataclasses import dataclass

from studio.findings import Finding
from studio.pictures.base import Picture
from studio.script.model import Direction


@dataclass(frozen=True, slots=True)
class Moment:
    """One picture step: from the start of spoken word `word` (the number of words: the end), the picture called `name`
    is `picture` (None: it is gone). `number` is the number that is counted with this step, `counted` whether it is
    bound to a number word at all; `direction` is where it comes from."""

    word: int
    name: str
    picture: Picture | None
    direction: Direction
    number: int | None = None
    counted: bool = False


@dataclass(frozen=True)
class Stage:
    """All picture steps of a lesson in order, and what did not work out (a count that does not fit, a picture that
    cannot show that)."""

    moments: tuple[Moment, ...]
    findings: tuple[Finding, ...]
