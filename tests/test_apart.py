"""A job in a process of its own: what it gives, what it raises, and that nothing stays of it."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from studio.apart import apart
from studio.errors import UnusableInput
from studio.progress import Progress, silent


def square(number: int, *, progress: Progress = silent) -> tuple[int, int]:
    print("this is no answer")
    progress(0.5, "half")
    return number * number, os.getpid()


def refuse(path: str, *, progress: Progress = silent) -> None:
    raise UnusableInput("there is no such file.", path)


def die(*, progress: Progress = silent) -> None:
    os.kill(os.getpid(), 9)


def linger(mark: str, *, progress: Progress = silent) -> None:
    progress(0.0, str(os.getpid()))
    time.sleep(60)


def test_it_gives_what_the_job_gives_and_tells_how_far_it_is() -> None:
    told: list[tuple[float, str]] = []
    result, process = apart(square, lambda done, what: told.append((done, what)), 7)
    assert result == 49
    assert process != os.getpid()
    assert told == [(0.5, "half")]


def test_what_the_job_refuses_is_refused_with_its_place() -> None:
    with pytest.raises(UnusableInput) as refused:
        apart(refuse, silent, "frog.mp4")
    assert str(refused.value) == "frog.mp4: there is no such file."
    assert refused.value.source == "frog.mp4"


def test_a_process_that_is_killed_is_told() -> None:
    with pytest.raises(ChildProcessError, match="without an answer"):
        apart(die, silent)


def test_a_job_that_is_broken_off_leaves_no_process() -> None:
    processes: list[int] = []

    def stop(done: float, what: str) -> None:
        processes.append(int(what))
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        apart(linger, stop, "frog")
    assert not Path(f"/proc/{processes[0]}").exists()
