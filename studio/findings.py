"""What a check finds, as it is told to the teacher and to programs."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any, Literal

Level = Literal["error", "warning", "note"]


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that a rule found, in words for a teacher.

    `rule` is the rule's short name, `line` and `column` count from 1 (0: not from a script), `said` and `shown` are
    the words and the picture concerned ("" where there is none), `message` says what is wrong in whole sentences and
    `help` what to say or show instead. `time` is in seconds where the finding comes from a recording.
    """

    rule: str
    level: Level
    line: int
    column: int
    said: str
    shown: str
    message: str
    help: str
    time: float | None = None

    def as_json(self) -> dict[str, Any]:
        """The finding with the keys of `check --json`; `time` only where there is one."""
        values = asdict(self)
        if values["time"] is None:
            del values["time"]
        return values
