"""One build of a series at a time."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from studio.errors import UnusableInput
from studio.files import say_os_error
from studio.series.index import OWN
from studio.series.settings import SETTINGS


@contextmanager
def only_one(folder: Path, what: str = "build") -> Iterator[None]:
    """Hold the series in `folder`. The lock is the operating system's: it goes when its holder goes, even killed.

    Raises UnusableInput where another command holds it.
    """
    from filelock import FileLock, Timeout

    path = folder / OWN / "lock"
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        lock = FileLock(path, timeout=0)
        lock.acquire()
    except Timeout:
        raise UnusableInput(
            f"another {what} of this series is running; wait until it has ended.", str(folder / SETTINGS)
        ) from None
    except OSError as error:
        raise say_os_error(error, path) from error
    try:
        yield
    finally:
        lock.release()
