"""The numbers a few steps on and back from one that is said or shown."""

from __future__ import annotations

_STEPS = (1, -1, 2, -2, 10, -10)


def steps(name: str, behind: str = "") -> tuple[tuple[int, str], ...]:
    """A few steps on and back from a number ("": none)."""
    return tuple((step, f"{name}{step:+}{behind}") for step in _STEPS) if name else ()
