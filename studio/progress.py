"""Saying how far a long job is: a bar on a terminal, nothing elsewhere."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Protocol


class Progress(Protocol):
    """Called with the share that is done, from 0 to 1, and what is being done."""

    def __call__(self, done: float, what: str) -> None: ...


def silent(done: float, what: str) -> None:
    """Progress that nobody looks at."""


def part(progress: Progress, start: float, end: float) -> Progress:
    """The progress of a part of a job that runs from `start` to `end` of the whole."""

    def report(done: float, what: str) -> None:
        progress(start + (end - start) * min(1.0, max(0.0, done)), what)

    return report


@contextmanager
def bar(title: str, quiet: bool = False) -> Iterator[Progress]:
    """A bar on standard error with what is being done and the time left; quiet when that is not a terminal."""
    if quiet or not sys.stderr.isatty():
        yield silent
        return
    from tqdm import tqdm

    # A terminal that does not say how large it is gets a bar all the same.
    size = shutil.get_terminal_size((80, 24))
    look = "{desc:<28.28} {percentage:3.0f}% |{bar}| {remaining} left"
    with tqdm(
        total=1000,
        desc=title,
        leave=False,
        ncols=min(100, size.columns),
        nrows=max(2, size.lines),
        smoothing=0.1,
        bar_format=look,
    ) as shown:

        def report(done: float, what: str) -> None:
            shown.set_description(what, refresh=False)
            shown.update(max(0, int(done * 1000) - shown.n))

        yield report
