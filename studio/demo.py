"""The verb `demo`: the demo lesson from script and recording to kit, and what is found in a recording with slips."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from studio.build import BuildOptions, Kit, build_kit, hear_apart
from studio.hear import Heard
from studio.progress import Progress, part, silent


@dataclass(frozen=True)
class Demo:
    """The kit of the first recording, and what was heard in the second, which has three slips."""

    kit: Kit
    slips: Heard

    @property
    def has_errors(self) -> bool:
        return self.kit.has_errors

    def lines(self) -> list[str]:
        """What is printed for a person."""
        return [
            *self.kit.lines(),
            "",
            "The same lesson, recorded with three slips (a wrong number, a count that skips, a sentence said twice):",
            *self.slips.lines(),
        ]


def demo(out: Path, progress: Progress = silent) -> Demo:
    """Build the demo kit at `out` and listen to the recording with slips. Raises UnusableInput."""
    from studio.files import demo_dir
    from studio.script.files import load

    script = demo_dir() / "pond-09.lesson.md"
    take, slips = demo_dir() / "pond-09.take.mp4", demo_dir() / "pond-09-slips.take.mp4"
    kit = build_kit(script, [take], out, BuildOptions(audit=True), part(progress, 0.0, 0.85))
    heard = hear_apart([slips], load(script), None, part(progress, 0.85, 1.0))
    return Demo(kit, heard)
